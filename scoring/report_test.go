package scoring

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// vectors reads one file of reference numbers.
func vectors(t testing.TB, name string, into any) {
	t.Helper()
	text, err := os.ReadFile("../testdata/vectors/" + name)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

func near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g within %g", what, got, want, tol)
	}
}

func mustLine(t testing.TB, pl geom.Polyline) geom.Line {
	t.Helper()
	l, err := geom.NewLine(pl)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// hand samples a movement given as a function of time in seconds.
func hand(at func(t float64) geom.Point, duration, rate float64) trace.Trace {
	tr := trace.Trace{Device: trace.Pen, Ending: trace.Lifted}
	for k := 0; float64(k)/rate <= duration+1e-9; k++ {
		t := float64(k) / rate
		tr.Samples = append(tr.Samples, trace.Sample{T: t, P: at(t), Pressure: 0.5})
	}
	return tr
}

// A hand that moves along a straight line of 200 mm at 25.4 mm/s while the
// needle runs at 600 spm makes stitches of 2.54 mm, ten to the inch (1 in = 25.4
// mm, international yard and pound agreement, 1959).
func TestEvenHandOnAStraightLine(t *testing.T) {
	l := mustLine(t, geom.MustParse("M 0 0 L 254 0"))
	tr := hand(func(t float64) geom.Point { return geom.Pt(25.4*t, 0.5) }, 10, 120)
	rep, err := Score(l, tr, Settings{SPM: 600, TargetMM: 2.54})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "stitch length", rep.Evenness.StitchMM.Value, 2.54, 1e-6)
	near(t, "spacing CV", rep.Evenness.SpacingCV.Value, 0, 1e-6)
	near(t, "speed CV", rep.Evenness.SpeedCV.Value, 0, 1e-6)
	near(t, "share near target", rep.Evenness.NearTarget.Value, 1, 0)
	near(t, "mean error", rep.Lateral.MeanError.Value, 0.5, 1e-6)
	near(t, "coverage", rep.Coverage.Value, 1, 0)
	if rep.Lateral.Side != Right {
		t.Errorf("side %q, want %q: with y downwards, y > 0 is to the right of going along x", rep.Lateral.Side, Right)
	}
	if _, err := json.Marshal(rep); err != nil {
		t.Errorf("the report is no JSON: %v", err)
	}
}
