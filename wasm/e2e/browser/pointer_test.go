package browser_test

import (
	"math"
	"slices"
	"testing"

	"unthreaded/wasm/e2e/browser"
)

// recorded is a pointer event as the page under test saw it.
type recorded struct {
	Type, Kind string
	ID         float64
	T          float64 // ms
	X, Y       float64
	Pressure   float64
	Buttons    int
}

// rate is the number of samples a second that good pens give.
const rate = 240

// turn is one circle a second, sampled at the rate, with pressure that varies.
func turn(seconds float64) []browser.Sample {
	var all []browser.Sample
	for i := range int(seconds*rate) + 1 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / rate)
		all = append(all, browser.Sample{T: float64(i) / rate, X: 200 + 90*c, Y: 200 + 90*s, Pressure: 0.5 + 0.3*s})
	}
	return all
}

// TestEverySampleArrives plays a stroke of each kind and compares what the page
// saw with what was sent, one by one.
func TestEverySampleArrives(t *testing.T) {
	for _, kind := range []browser.Kind{browser.Mouse, browser.Pen, browser.Touch} {
		t.Run(string(kind), func(t *testing.T) {
			p := openRecorder(t, browser.View{Width: 480, Height: 360, Touch: kind == browser.Touch})
			sent := turn(1)
			p.Trace(kind, sent)
			got := browser.Eval[[]recorded](p, "record")
			checkStroke(t, kind, got, sent)
			if calls := browser.Eval[int](p, "calls"); calls >= len(got) {
				t.Errorf("expected several samples in an event at %d a second, got %d events for %d samples", rate, calls, len(got))
			}
		})
	}
}

// checkStroke compares the events of one stroke with the samples.
func checkStroke(t *testing.T, kind browser.Kind, got []recorded, sent []browser.Sample) {
	t.Helper()
	if len(got) != len(sent)+1 {
		t.Fatalf("expected %d events (%d samples and one for lifting), got %d", len(sent)+1, len(sent), len(got))
	}
	var late []float64
	for i, r := range got {
		want, typ := sent[min(i, len(sent)-1)], "pointermove"
		switch i {
		case 0:
			typ = "pointerdown"
		case len(sent):
			typ = "pointerup"
		}
		if r.Type != typ || r.Kind != string(kind) {
			t.Fatalf("event %d: expected %s of %s, got %s of %s", i, typ, kind, r.Type, r.Kind)
		}
		if math.Hypot(r.X-want.X, r.Y-want.Y) > 0.01 {
			t.Errorf("event %d: expected at (%.3f, %.3f), got (%.3f, %.3f)", i, want.X, want.Y, r.X, r.Y)
		}
		if kind == browser.Pen && i < len(sent) && math.Abs(r.Pressure-want.Pressure) > 0.001 {
			t.Errorf("event %d: expected pressure %.3f, got %.3f", i, want.Pressure, r.Pressure)
		}
		late = append(late, r.T-1000*want.T)
	}
	checkTimes(t, late)
}

// checkTimes looks at the differences in ms between the times of the events and of
// the samples, which must all be the same but for the few exceptions that Stroke
// tells of. The clock of an isolated page steps by 0.005 ms.
func checkTimes(t *testing.T, late []float64) {
	t.Helper()
	usual := slices.Sorted(slices.Values(late))[len(late)/2]
	shifted := 0
	for i, l := range late {
		if math.Abs(l-usual) > 0.02 {
			shifted++
			t.Logf("event %d is %.3f ms off", i, l-usual)
		}
	}
	if shifted > 2+len(late)/100 { // more of them come on a busy machine
		t.Errorf("%d of %d events are off their time", shifted, len(late))
	}
}

// TestAtOnce sends 8 s of samples faster than they were made.
func TestAtOnce(t *testing.T) {
	for _, kind := range []browser.Kind{browser.Mouse, browser.Pen, browser.Touch} {
		t.Run(string(kind), func(t *testing.T) {
			p := openRecorder(t, browser.View{Width: 480, Height: 360, Touch: kind == browser.Touch})
			sent := turn(8)
			p.TraceAtOnce(kind, sent)
			first := browser.Eval[[]recorded](p, "record")
			checkStroke(t, kind, first, sent)
			p.TraceAtOnce(kind, sent)
			both := browser.Eval[[]recorded](p, "record")
			checkStroke(t, kind, both[len(first):], sent)
			if last, next := both[len(first)-1].T, both[len(first)].T; next <= last {
				t.Errorf("the second stroke begins at %.1f ms, before the end of the first at %.1f ms", next, last)
			}
			if both[0].T < 0 {
				t.Errorf("the first event is at %.1f ms, before the page was there", both[0].T)
			}
		})
	}
}

// TestTwoFingers puts a second finger down in mid-stroke, as a palm does, and lets
// the system cancel both.
func TestTwoFingers(t *testing.T) {
	p := openRecorder(t, browser.View{Width: 480, Height: 360, Touch: true})
	point, palm := p.Finger(0), p.Finger(1)
	point.Down(browser.Sample{X: 100, Y: 100, Pressure: 0.5})
	point.Move(browser.Sample{T: 0.02, X: 110, Y: 100, Pressure: 0.5})
	palm.Down(browser.Sample{T: 0.04, X: 300, Y: 300, Pressure: 0.9})
	point.Move(browser.Sample{T: 0.06, X: 120, Y: 100, Pressure: 0.5})
	palm.Up(browser.Sample{T: 0.08, X: 300, Y: 300})
	point.Move(browser.Sample{T: 0.1, X: 130, Y: 100, Pressure: 0.5})
	palm.Down(browser.Sample{T: 0.12, X: 310, Y: 300, Pressure: 0.9})
	point.Cancel(0.14)
	want := []struct {
		typ string
		x   float64
	}{
		{"pointerdown", 100}, {"pointermove", 110}, {"pointerdown", 300}, {"pointermove", 120},
		{"pointerup", 300}, {"pointermove", 130}, {"pointerdown", 310}, {"pointercancel", 0}, {"pointercancel", 0},
	}
	got := browser.Eval[[]recorded](p, "record")
	if len(got) != len(want) {
		t.Fatalf("expected %d events, got %v", len(want), got)
	}
	for i, w := range want {
		if got[i].Type != w.typ || w.typ != "pointercancel" && got[i].X != w.x {
			t.Errorf("event %d: expected %s at x = %g, got %+v", i, w.typ, w.x, got[i])
		}
	}
	if got[0].ID == got[2].ID {
		t.Error("both fingers have the same pointerId")
	}
}

// TestHover moves pointers that are not down.
func TestHover(t *testing.T) {
	for _, kind := range []browser.Kind{browser.Mouse, browser.Pen} {
		p := openRecorder(t, browser.View{Width: 480, Height: 360})
		p.Stroke(kind).Hover(browser.Sample{X: 120, Y: 140})
		p.Until("record.length > 0")
		got := browser.Eval[[]recorded](p, "record")
		if r := got[0]; r.Type != "pointermove" || r.Kind != string(kind) || r.Buttons != 0 || r.X != 120 {
			t.Errorf("expected a %s to hover at x = 120, got %+v", kind, r)
		}
	}
}
