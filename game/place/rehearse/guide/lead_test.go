package guide

import (
	"math"
	"testing"

	"unthreaded/path/geom"
)

func straight(t *testing.T, mm float64) geom.Line {
	l, err := geom.NewLine(geom.Polyline{geom.Pt(0, 0), geom.Pt(mm, 0)})
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// A running needle is at v (t + head start) after t seconds, however the frames
// fall, and stays at the end.
func TestTheNeedleRunsAheadAtThePlannedSpeed(t *testing.T) {
	l := straight(t, 100)
	for _, frame := range []float64{1.0 / 240, 1.0 / 60, 0.7} {
		n, elapsed := NewLead(false, 25.4), 0.0
		for elapsed < 2 {
			n, elapsed = n.Advance(frame, 25.4, l, geom.Pt(0, 0)), elapsed+frame
		}
		if want := 25.4 * (elapsed + HeadStart); math.Abs(n.S-want) > 1e-9 {
			t.Errorf("frames of %.4f s: at %.6f mm, want %.6f", frame, n.S, want)
		}
		if n = n.Advance(60, 25.4, l, geom.Pt(0, 0)); n.S != l.Length() {
			t.Errorf("a minute later at %.3f mm, want the end at %.3f", n.S, l.Length())
		}
	}
}

// A waiting needle is never farther ahead than its reach and one frame, goes on for
// a hand that comes, also for one that has overtaken it, and not for one beside.
func TestTheNeedleWaits(t *testing.T) {
	l := straight(t, 200)
	const frame, v = 1.0 / 60, 25.4
	n := NewLead(true, v)
	for range 600 {
		n = n.Advance(frame, v, l, geom.Pt(0, 0))
	}
	if n.S < ReachMM-v*frame || n.S > ReachMM+v*frame {
		t.Errorf("before a hand at rest it waits at %.2f mm, want about %v", n.S, ReachMM)
	}
	for x := 0.0; x < 150; x += 12 * frame { // a hand at half the speed
		n = n.Advance(frame, v, l, geom.Pt(x, 0))
		if n.S-x > ReachMM+v*frame {
			t.Fatalf("%.2f mm ahead of a slow hand", n.S-x)
		}
	}
	at := n.S
	if n = n.Advance(frame, v, l, geom.Pt(at, ReachMM+1)); n.S != at {
		t.Error("it went on for a hand beside the line")
	}
	if n = n.Advance(frame, v, l, geom.Pt(at+20, 0)); !(n.S > at) {
		t.Error("it waits for a hand that has overtaken it")
	}
	if n = n.Advance(99, v, l, geom.Pt(n.S, 0)); n.S > at+2*v*longestWait {
		t.Error("it leapt after a stalled page")
	}
}

// Three beats, 0.8 s apart, then the start; a hand that goes off early starts then.
func TestTheCount(t *testing.T) {
	c := Count{T: 10}
	var beats []float64
	for f := 10.0; f < 12.4; f += 1.0 / 60 {
		var fallen []float64
		c, fallen = c.Tell(f)
		beats = append(beats, fallen...)
		if _, ended := c.Ended(f, geom.Pt(1, 1), f); ended {
			t.Fatalf("ended at %.2f s", f)
		}
		if want := 3 - int((f-10)/0.8+1e-9); c.Left(f) != want {
			t.Fatalf("%d beats left at %.3f s, want %d", c.Left(f), f, want)
		}
	}
	if len(beats) != 3 || beats[0] != 10 || math.Abs(beats[2]-11.6) > 1e-9 {
		t.Errorf("beats at %v, want 10, 10.8, 11.6", beats)
	}
	if start, ended := c.Ended(12.5, geom.Pt(0, 0), 12); !ended || start != 12.4 {
		t.Errorf("started at %v (%v), want 12.4", start, ended)
	}
	if start, ended := c.Ended(11, geom.Pt(3.1, 0), 10.5); !ended || math.Abs(start-10.9) > 1e-9 {
		t.Errorf("a hand that went off at 11 s started at %v (%v), want 10.9", start, ended)
	}
}

// A steady hand's speed is its speed, whatever the rate of the samples; rounding to
// whole pixels of 0.26 mm moves it by a few per cent; at rest it goes nowhere.
func TestThePaceIsTheSpeed(t *testing.T) {
	for _, hz := range []float64{60, 125, 240} {
		for _, pixel := range []float64{1e-6, 25.4 / 96} {
			var g Pace
			for i := 0.0; i < 3*hz; i++ {
				g = g.To(i/hz, geom.Pt(math.Round(25.4*i/hz/pixel)*pixel, 0))
			}
			for _, s := range g.Speeds {
				if math.Abs(s.V-25.4) > 0.15*25.4 {
					t.Errorf("%v Hz, pixels of %v mm: %.2f mm/s at %.1f mm, want 25.4", hz, pixel, s.V, s.S)
				}
			}
			if n := len(g.Speeds); n < 50 || n > 90 {
				t.Errorf("%d speeds in 3 s, want up to 30 a second", n)
			}
		}
	}
}
