package scoring

import (
	"math"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// Advice holds the figures that were measured: of a hand that slows as curvature^-1/3 in
// loops the stitches it made in the tight curves and elsewhere, and the speed to keep.
func TestAdviceHoldsWhatHappened(t *testing.T) {
	l := loops(t)
	rep := score(t, l, sew(l, 240, thirdPower(l, 23), nil), plan())
	if len(rep.Advice) != 1 || rep.First.Word != SaidUneven {
		t.Fatalf("%+v, first %+v, want one piece of advice on uneven stitches", rep.Advice, rep.First)
	}
	a := rep.Advice[0]
	tight, open := rep.tightAndOpen()
	near(t, "stitches in tight curves", a.ThereMM, tight/10, 1e-9)
	near(t, "stitches elsewhere", a.UsualMM, open/10, 1e-9)
	near(t, "speed to aim at", a.AimMMS, 25, 1e-9)
	if a.ThereMM > 0.9*a.UsualMM {
		t.Errorf("stitches of %v mm in tight curves, %v elsewhere", a.ThereMM, a.UsualMM)
	}
}

// At most three places are spoken of, the gravest first, and none twice.
func TestAdviceOnTheWorstOnly(t *testing.T) {
	l := steps(t)
	path := mustLine(t, geom.MustParse("M 0 0 L 40 40 L 80 0 L 83 -3 L 80 0 L 120 40 L 200 40 L 205 45 L 200 40 L 240 0"))
	wait := map[float64]float64{30: 0.6, 100: 0.8}
	rep := score(t, l, sew(path, 240, steadily(cruise), wait), plan())
	if len(rep.Faults) < 4 || len(rep.Advice) != 3 {
		t.Fatalf("%d faults and %d pieces of advice, want more than 3 and 3", len(rep.Faults), len(rep.Advice))
	}
	if k := rep.Advice[0].Fault.Kind; k != MissedDot {
		t.Errorf("the gravest is %q, want %q", k, MissedDot)
	}
	for i, a := range rep.Advice {
		for _, b := range rep.Advice[:i] {
			if x, y := ranks[a.Fault.Kind], ranks[b.Fault.Kind]; a.Fault.Kind == b.Fault.Kind || x < y || x == y && a.Fault.Gravity > b.Fault.Gravity {
				t.Errorf("%+v after %+v", a.Fault, b.Fault)
			}
		}
	}
}

// Every kind of fault has its rank and its word.
func TestEveryFaultHasItsWord(t *testing.T) {
	if len(ranks) != len(wordOf) {
		t.Errorf("%d kinds have a rank, %d a word", len(ranks), len(wordOf))
	}
	for kind := range ranks {
		if wordOf[kind] == "" {
			t.Errorf("%s has no word", kind)
		}
	}
}

// A hand that is even but for what whole pixels at 60 Hz add is given no advice.
func TestNoAdviceWithinNoise(t *testing.T) {
	for angle := 0.0; angle < 3; angle += 0.37 {
		d := geom.Pt(math.Cos(angle), math.Sin(angle))
		l := mustLine(t, geom.Polyline{{}, geom.Pt(250*d.X, 250*d.Y)})
		tr := hand(func(t float64) geom.Point {
			return geom.Pt(math.Round(25*t*d.X/0.26)*0.26, math.Round(25*t*d.Y/0.26)*0.26)
		}, 10, 60)
		tr.PixelMM, tr.ClockStep, tr.Device = 0.26, 0.001, trace.Mouse
		if rep := score(t, l, tr, plan()); len(rep.Advice) > 0 {
			t.Errorf("at angle %.2f: %+v", angle, rep.Advice[0])
		}
	}
}
