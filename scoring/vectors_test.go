package scoring

import (
	"fmt"
	"math"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/scoring/align"
	"unthreaded/scoring/trace"
)

// score measures a trace and fails the test if that cannot be done.
func score(t testing.TB, line geom.Line, tr trace.Trace, set Settings) Report {
	t.Helper()
	rep, err := Score(line, tr, set)
	if err != nil {
		t.Fatal(err)
	}
	return rep
}

// runOf prepares and matches a trace.
func runOf(t testing.TB, line geom.Line, tr trace.Trace, set Settings) *run {
	t.Helper()
	p, err := trace.Prepare(tr)
	if err != nil {
		t.Fatal(err)
	}
	m, err := align.Follow(line, p.Points)
	if err != nil {
		t.Fatal(err)
	}
	return newRun(line, tr, p, m, set)
}

// wobbly is one case of a hand at v0 (1 + m sin 2 pi f t).
type wobbly struct {
	Input struct {
		V0, M, F, T float64
		Rate        float64 `json:"needle_rate_hz"`
	}
	Analytic struct {
		SpeedCV float64 `json:"speed_cv"`
		CV      float64 `json:"cv_if_phases_fill_whole_cycles"`
	}
	Sampled struct {
		First  []float64 `json:"first5"`
		Mean   float64
		CV     float64 `json:"cv_population"`
		Within float64 `json:"within_10pct_of_mean"`
	}
}

// at is the way gone after t seconds.
func (c wobbly) at(t float64) float64 {
	in := c.Input
	return in.V0*t + in.V0*in.M/(2*math.Pi*in.F)*(1-math.Cos(2*math.Pi*in.F*t))
}

// evenness.json, closed forms: spacing of needle falls along a straight line at
// v0 (1 + m sin 2 pi f t). The falls of the exact movement are met to 1e-9;
// through sampling at 240 Hz and smoothing, which takes some of a swing at 2 to 4
// Hz away, to 0.005 and 0.006.
func TestEvennessAgainstClosedForms(t *testing.T) {
	var f struct{ Sinusoid []wobbly }
	vectors(t, "evenness.json", &f)
	if len(f.Sinusoid) == 0 {
		t.Fatal("evenness.json holds no case")
	}
	for _, c := range f.Sinusoid {
		in := c.Input
		name := fmt.Sprintf("m %v, f %v, r %v", in.M, in.F, in.Rate)
		var spacing []float64
		for k := 0.0; k < math.Round(in.T*in.Rate); k++ {
			spacing = append(spacing, c.at((k+1)/in.Rate)-c.at(k/in.Rate))
		}
		for k, want := range c.Sampled.First {
			near(t, name+": spacing", spacing[k], want, 1e-9)
		}
		near(t, name+": CV of spacing", quiet(spacing, 0).Value, c.Sampled.CV, 1e-9)
		near(t, name+": share within 10 %", shareWithin(spacing, c.Sampled.Mean, 0.1), c.Sampled.Within, 0.011)
		l := mustLine(t, geom.Polyline{{}, geom.Pt(c.at(in.T), 0)})
		tr := hand(func(t float64) geom.Point { return geom.Pt(c.at(t), 0) }, in.T, 240)
		rep := score(t, l, tr, Settings{SPM: 60 * in.Rate})
		near(t, name+": measured spacing CV", rep.Evenness.SpacingCV.Value, c.Analytic.CV, 0.005)
		near(t, name+": measured speed CV", rep.Evenness.SpeedCV.Value, c.Analytic.SpeedCV, 0.006)
		near(t, name+": amplitude of the wobble", rep.Wobble.Share.Value, in.M, 0.05*in.M)
		near(t, name+": its frequency", rep.Wobble.Hz.Value, in.F, 0.05)
	}
}

// A swing of 10 % is found as large at 1 Hz as at 6 Hz, where filtering, differences and
// means leave less than two thirds of it.
func TestWobbleIsAsLargeAtAnyFrequency(t *testing.T) {
	for _, hz := range []float64{1, 3, 5, 6} {
		at := func(t float64) geom.Point { return geom.Pt(25*t-25*0.1/(2*math.Pi*hz)*math.Cos(2*math.Pi*hz*t), 0) }
		l := mustLine(t, geom.Polyline{at(0), at(12)})
		rep := score(t, l, hand(at, 12, 240), plan())
		near(t, fmt.Sprintf("amplitude at %v Hz", hz), rep.Wobble.Share.Value, 0.1, 0.004)
	}
}

// evenness.json: the speed of ellipses drawn by harmonic motion, to 0.002. A unit
// is 50 mm. A quarter of a second is left out at both ends, so that four rounds and
// a quarter are drawn.
func TestEvennessOfEllipses(t *testing.T) {
	var f struct {
		Ellipse []struct{ A, B, Perimeter, CV float64 } `json:"harmonic_ellipse_speed"`
	}
	vectors(t, "evenness.json", &f)
	if len(f.Ellipse) == 0 {
		t.Fatal("evenness.json holds no ellipse")
	}
	for _, c := range f.Ellipse {
		at := func(u float64) geom.Point { return geom.Pt(50*c.A*math.Cos(u), 50*c.B*math.Sin(u)) }
		round := mustLine(t, geom.Flatten(at, 0, 2*math.Pi, 16))
		near(t, "perimeter", round.Length()/50, c.Perimeter, 1e-3)
		l := mustLine(t, geom.Flatten(at, 0, 8.5*math.Pi, 68))
		rep := score(t, l, hand(func(t float64) geom.Point { return at(math.Pi * t) }, 8.5, 120), plan())
		near(t, fmt.Sprintf("ellipse %v x %v: speed CV", c.A, c.B), rep.Evenness.SpeedCV.Value, c.CV, 0.002)
	}
}

// steering.json, closed forms of the steering law (Accot and Zhai, CHI 1997).
// Tolerance 1e-4 of the index: curves are flattened to geom.Sagitta.
func TestSteeringIndex(t *testing.T) {
	var f struct {
		Values []struct {
			Path                      string
			L, W, R, W1, W2, A, B, ID float64
			ThetaEnd                  float64 `json:"theta_end"`
		} `json:"id_values"`
	}
	vectors(t, "steering.json", &f)
	if len(f.Values) == 0 {
		t.Fatal("steering.json holds no value")
	}
	for _, c := range f.Values {
		pl := geom.Polyline{{}, geom.Pt(c.L, 0)}
		width := func(float64) float64 { return c.W }
		switch c.Path {
		case "straight":
		case "circle":
			pl = geom.Arc(geom.Point{}, c.R, 0, 2*math.Pi)
		case "linearly narrowing/widening":
			width = func(s float64) float64 { return c.W1 + (c.W2-c.W1)*s/c.L }
		case "archimedean spiral r=b theta constant width":
			pl = geom.Flatten(func(th float64) geom.Point { return geom.Pt(c.B*th*math.Cos(th), c.B*th*math.Sin(th)) }, 0, c.ThetaEnd, 40)
		case "ellipse":
			pl = geom.Flatten(func(u float64) geom.Point { return geom.Pt(c.A*math.Cos(u), c.B*math.Sin(u)) }, 0, 2*math.Pi, 16)
		case "straight, W(s)=20+5 sin(2 pi s/100), L=300":
			pl = geom.Polyline{{}, geom.Pt(300, 0)}
			width = func(s float64) float64 { return 20 + 5*math.Sin(2*math.Pi*s/100) }
		default:
			t.Fatalf("%s: this test does not know the path", c.Path)
		}
		near(t, c.Path, Steering(mustLine(t, pl), width), c.ID, 1e-4*c.ID)
	}
}
