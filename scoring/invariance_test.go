package scoring

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// figures are the measures that are compared, with the noise each may have when
// the same movement is recorded at another rate or in whole pixels of 0.26 mm.
func figures(rep Report) []struct {
	name  string
	f     Figure
	noise float64
} {
	return []struct {
		name  string
		f     Figure
		noise float64
	}{
		{"speed CV", rep.Evenness.SpeedCV, 0.015},
		{"spacing CV", rep.Evenness.SpacingCV, 0.015},
		{"stitch, mm", rep.Evenness.StitchMM, 0.02},
		{"near target", rep.Evenness.NearTarget, 0.08},
		{"mean error, mm", rep.Lateral.MeanError, 0.05},
		{"offset, mm", rep.Lateral.Offset, 0.05},
		{"spread, mm", rep.Lateral.Spread, 0.05},
		{"95th percentile, mm", rep.Lateral.P95, 0.12},
		{"largest error, mm", rep.Lateral.Max, 0.25},
		{"mean overshoot, mm", rep.Turns.MeanOvershoot, 0.25},
		{"exponent", rep.Slowing.Exponent, 0.02},
		{"SPARC", rep.SPARC, 0.1},
		{"coverage", rep.Coverage, 0.01},
		{"Frechet distance, mm", rep.Order.Frechet, 0.4},
		{"wobble, share", rep.Wobble.Share, 0.02},
		{"wobble, Hz", rep.Wobble.Hz, 0.1},
		{"pace", rep.Pace.Ratio, 0.02},
	}
}

// movementOf samples the same hand, uneven and wavering, at any rate.
func movementOf(t testing.TB, l geom.Line, rate float64) trace.Trace {
	pace := func(t, s float64) float64 { return cruise * (1 + 0.15*math.Sin(9*t)) }
	return sew(waver(t, l, 1.2), rate, pace, nil)
}

func moved(tr trace.Trace, move func(geom.Point) geom.Point, pixel float64) trace.Trace {
	out := tr
	out.PixelMM = pixel
	out.Samples = append([]trace.Sample(nil), tr.Samples...)
	for i, s := range tr.Samples {
		p := move(s.P)
		if pixel > 0 {
			p = geom.Pt(math.Round(p.X/pixel)*pixel, math.Round(p.Y/pixel)*pixel)
		}
		out.Samples[i].P = p
	}
	return out
}

// variant is one way of recording the same movement along the same line.
type variant struct {
	name        string
	rate, pixel float64
	mirror      float64
	split       bool
	move        func(geom.Point) geom.Point
}

func drawVariant(rt *rapid.T) variant {
	v := variant{
		name:   rapid.SampledFrom([]string{"loops", "spiral", "steps"}).Draw(rt, "line"),
		rate:   rapid.SampledFrom([]float64{60, 120, 240}).Draw(rt, "rate"),
		pixel:  rapid.SampledFrom([]float64{0, 0.26}).Draw(rt, "pixel"),
		mirror: rapid.SampledFrom([]float64{1, -1}).Draw(rt, "mirror"),
		split:  rapid.Bool().Draw(rt, "split"),
	}
	angle, shift := rapid.Float64Range(-3, 3).Draw(rt, "angle"), rapid.Float64Range(-500, 500).Draw(rt, "shift")
	v.move = func(p geom.Point) geom.Point {
		return r2.Add(r2.Rotate(geom.Pt(p.X, v.mirror*p.Y), angle, geom.Point{}), geom.Pt(shift, -shift/3))
	}
	return v
}

func (v variant) line(t testing.TB, l geom.Line) geom.Line {
	path := l.Path().Map(v.move)
	if v.split {
		path = splitPieces(path)
	}
	out, err := mustLine(t, path).WithDots(l.Dots)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// The same movement recorded at 60, 120 or 240 Hz, in whole pixels or not, moved,
// turned or mirrored together with the line, and with the pieces of the line
// split, has the same figures within their noise, and the same faults.
func TestFiguresAreInvariant(t *testing.T) {
	lines := map[string]geom.Line{"loops": loops(t), "spiral": spiral(t), "steps": steps(t)}
	recorded := map[string]map[float64]trace.Trace{}
	base := map[string]Report{}
	for name, l := range lines {
		recorded[name] = map[float64]trace.Trace{}
		for _, rate := range []float64{60, 120, 240} {
			recorded[name][rate] = movementOf(t, l, rate)
		}
		base[name] = score(t, l, recorded[name][240], plan())
	}
	rapid.Check(t, func(rt *rapid.T) {
		v := drawVariant(rt)
		rep := score(t, v.line(t, lines[v.name]), moved(recorded[v.name][v.rate], v.move, v.pixel), plan())
		v.compare(rt, rep, base[v.name])
	})
}

func (v variant) compare(rt *rapid.T, rep, base Report) {
	want := figures(base)
	for i, got := range figures(rep) {
		w := want[i].f
		if got.name == "offset, mm" {
			w.Value *= v.mirror
		}
		if v.rate == 60 && v.pixel > 0 {
			got.noise *= 2 // a slow mouse: rounding alone makes a CV of 0.05
		}
		if got.f.Defined != w.Defined || math.Abs(got.f.Value-w.Value) > got.noise {
			rt.Errorf("%s: %s is %.4f (%v), was %.4f (%v); its noise is %v",
				v.name, got.name, got.f.Value, got.f.Defined, w.Value, w.Defined, got.noise)
		}
	}
	if kinds(rep) != kinds(base) {
		rt.Errorf("%s: faults %s, were %s", v.name, kinds(rep), kinds(base))
	}
}

func kinds(rep Report) (s string) {
	for _, f := range rep.Faults {
		s += string(f.Kind) + ". "
	}
	return s
}

func splitPieces(pl geom.Polyline) geom.Polyline {
	out := geom.Polyline{pl[0]}
	for i := 1; i < len(pl); i++ {
		out = append(out, geom.Lerp(pl[i-1], pl[i], 0.37), pl[i])
	}
	return out
}

// Moving the cloth under the needle is scored as drawing with a pencil is: the
// pointer goes the other way, the needle's way on the cloth is the same.
func TestPencilAndClothAlike(t *testing.T) {
	l := loops(t)
	pencil := movementOf(t, l, 120)
	cloth := moved(pencil, func(p geom.Point) geom.Point { return geom.Pt(300-p.X, 200-p.Y) }, 0)
	a := score(t, l, pencil, plan())
	b := score(t, l, onCloth(cloth, pencil.Samples[0].P), plan())
	want := figures(a)
	for i, got := range figures(b) {
		tol := 1e-6
		if got.name == "Frechet distance, mm" {
			tol = 2 * thinning // it is found by halving
		}
		near(t, got.name, got.f.Value, want[i].f.Value, tol)
	}
}

// onCloth returns the trace that the needle leaves on the cloth when the hand
// moves the cloth under a needle that stands still, from the trace of the
// pointer: pushing the cloth right makes the line grow to the left. start is the
// place of the needle on the cloth in mm at the first sample. Both ways of
// moving are scored alike from there on.
func onCloth(pointer trace.Trace, start geom.Point) trace.Trace {
	out := pointer
	out.Samples = append([]trace.Sample(nil), pointer.Samples...)
	for i, s := range pointer.Samples {
		out.Samples[i].P = trace.UnderNeedle(start, pointer.Samples[0].P, s.P)
	}
	return out
}
