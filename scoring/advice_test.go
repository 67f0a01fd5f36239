package scoring

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// Advice names what happened with the figures that were measured: a hand that
// slows as curvature^-1/3 in loops is told the stitches it made there and
// elsewhere, and the speed to keep.
func TestAdviceSaysWhatHappened(t *testing.T) {
	l := loops(t)
	rep := score(t, l, sew(l, 240, thirdPower(l, 23), nil), plan())
	if len(rep.Advice) != 1 {
		t.Fatalf("%d pieces of advice, want 1: %+v", len(rep.Advice), rep.Advice)
	}
	text := rep.Advice[0].Text
	tight, open := words{rep, Millimetres}.tightAndOpen()
	for _, part := range []string{
		"tight curves", fmt.Sprintf("%.0f %%", 100*tight/open),
		Millimetres.Stitches(60 * tight / 600), Millimetres.Stitches(60 * open / 600), "25 mm a second",
	} {
		if !strings.Contains(text, part) {
			t.Errorf("%q does not say %q", text, part)
		}
	}
	inch := func(format string) func(float64) string {
		return func(mm float64) string { return fmt.Sprintf(format, mm/25.4) }
	}
	inches := Advise(rep, Units{inch("%.2f in"), inch("%.2f in"), inch("%.2f in each"), inch("%.2f in a second")})
	if !strings.Contains(inches[0].Text, "in each beside") || !strings.Contains(inches[0].Text, "0.98 in a second") || strings.Contains(inches[0].Text, "mm") {
		t.Errorf("in inches: %q", inches[0].Text)
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
			if a.Fault.Kind == b.Fault.Kind || a.Fault.Gravity > b.Fault.Gravity {
				t.Errorf("%q after %q", a.Text, b.Text)
			}
		}
	}
}

// Words of the trade only: no term of the reference, whatever the fault.
func TestAdviceIsPlain(t *testing.T) {
	rep := Report{LineMM: 200, Settings: plan(), Dots: []Dot{{}}}
	rep.Wobble.Hz, rep.Pace.Cruise, rep.Pace.Planned = figure(2), figure(25), figure(25)
	rep.Profile = Profile{Step: 100, Known: []bool{true, true}, Bend: []float64{0.1, 0.02}, Speed: []float64{10, 20}, Offset: []float64{-1, 1}}
	kinds := []FaultKind{MissedDot, EarlyDot, MissedLine, SewnTwice, Backwards, Overshot, CutCorner, KnotHere,
		Unsteady, SlowCurves, TooSlow, TooFast, Aside, PastEnd, Hesitated, OffPace}
	for _, kind := range kinds {
		text := words{rep, Millimetres}.say(Fault{Kind: kind, At: 50, Size: 0.5, Number: 2})
		if len(text) < 40 || len(text) > 260 {
			t.Errorf("%s: %d letters: %q", kind, len(text), text)
		}
		for _, term := range []string{"CV", "kappa", "curvature", "variance", "exponent", "Frechet", "NaN", "%!", "spm"} {
			if strings.Contains(text, term) {
				t.Errorf("%s: %q says %q", kind, text, term)
			}
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
			t.Errorf("at angle %.2f: %q", angle, rep.Advice[0].Text)
		}
	}
}
