package trace

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// An even hand on a straight line that lets go and takes hold anew, at rest for a
// moment or not: smoothing does not reach across, the places stay, and the needle falls
// on in time as if it had not been away.
func TestPausesPartTheMovement(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		tr := straight(25, steps(361, 1.0/120)...)
		k := rapid.IntRange(30, 330).Draw(rt, "sample")
		tr.Holds = []Hold{{T: tr.Samples[k].T, Pause: rapid.Float64Range(0, 1e4).Draw(rt, "pause")}}
		whole, p := prepared(t, straight(25, steps(361, 1.0/120)...)), prepared(t, tr)
		if len(p.Pauses) != 1 || p.Pauses[0].I != k || len(p.Runs()) != 2 || p.Merged != 0 || len(p.Gaps) != 0 {
			rt.Fatalf("pauses %+v, runs %v, %d gaps", p.Pauses, p.Runs(), len(p.Gaps))
		}
		for i := range p.Points {
			near(rt, "place", geom.Dist(p.Points[i], whole.Points[i]), 0, 0.02)
			near(rt, "speed", p.Speed[i], 25, 0.6)
		}
		falls, want := p.Falls(600), whole.Falls(600)
		if len(falls) != len(want) {
			rt.Fatalf("%d falls, %d without a pause", len(falls), len(want))
		}
		for i, f := range falls {
			if f.Gap || f.T != want[i].T {
				rt.Errorf("fall %d: %+v, want %+v", i, f, want[i])
			}
		}
	})
}

// A sharp turn at a pause stays sharp: each side is smoothed by itself.
func TestSmoothingStopsAtAPause(t *testing.T) {
	tr := straight(30, steps(241, 1.0/120)...)
	for i := 121; i < 241; i++ {
		tr.Samples[i].P = geom.Pt(tr.Samples[120].P.X, 1+float64(i-120)/4)
	}
	round := prepared(t, tr)
	tr.Holds = []Hold{{T: tr.Samples[120].T, Pause: 4}}
	sharp := prepared(t, tr)
	corner := geom.Pt(30, 1)
	if a, b := geom.Dist(round.Points[120], corner), geom.Dist(sharp.Points[120], corner); a < 0.15 || b > 0.1 {
		t.Errorf("the corner is missed by %.3f mm without a pause, by %.3f mm with one", a, b)
	}
}

func TestBadHoldsAreNamed(t *testing.T) {
	for want, holds := range map[string][]Hold{
		"hold 1: time NaN s":                       {{T: 0.1}, {T: math.NaN()}},
		"hold 0: time 1 s after a pause of -2 s":   {{T: 1, Pause: -2}},
		"the trace has 4 holds, more than its 3 s": make([]Hold, 4),
	} {
		tr := straight(1, 0, 0.1, 0.2)
		tr.Holds = holds
		if _, err := Prepare(tr); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want %q", err, want)
		}
	}
	tr := straight(1, 0, 0.1, 0.2)
	tr.Holds = []Hold{{T: -5}, {T: 0}, {T: 0.2}, {T: 9}}[:3]
	if p := prepared(t, tr); len(p.Pauses) != 0 {
		t.Errorf("holds at the ends and beyond part the movement: %+v", p.Pauses)
	}
}
