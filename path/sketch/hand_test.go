package sketch

import (
	"math"
	"math/rand/v2"
	"testing"

	"unthreaded/path/geom"
)

// hand draws along a true line as a pointer would report it: samples at uneven
// spaces of spacing mm on the mean, each off by normal jitter of standard deviation
// jitter mm both ways. The same seed draws the same stroke.
func hand(t testing.TB, truth geom.Polyline, spacing, jitter float64, seed uint64) geom.Polyline {
	t.Helper()
	l, err := geom.NewLine(truth)
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(seed, 7))
	var out geom.Polyline
	for s := 0.0; s < l.Length(); s += spacing * (0.3 + 1.4*r.Float64()) {
		out = append(out, l.At(s))
	}
	out = append(out, l.At(l.Length()))
	return out.Map(func(p geom.Point) geom.Point {
		return geom.Pt(p.X+jitter*r.NormFloat64(), p.Y+jitter*r.NormFloat64())
	})
}

// The curves with closed forms that hands are let loose on.
func circle(r float64) geom.Polyline { return geom.Arc(geom.Pt(60, 60), r, 0.4, 0.4+2*math.Pi) }

func sine(height, period float64, periods int) geom.Polyline {
	f := func(x float64) geom.Point { return geom.Pt(x, height*math.Sin(2*math.Pi*x/period)) }
	return geom.Flatten(f, 0, period*float64(periods), 8*periods)
}

func spiral(b, turns float64) geom.Polyline {
	f := func(a float64) geom.Point { return geom.Pt(b*a*math.Cos(a), b*a*math.Sin(a)) }
	return geom.Flatten(f, 1, 2*math.Pi*turns, int(8*turns))
}

// farApart returns the largest distance between two lines, looked at both ways.
func farApart(a, b geom.Polyline) float64 {
	la, _ := geom.NewLine(a)
	lb, _ := geom.NewLine(b)
	w1, _ := distances(la.Resample(0.25), newBoxes(b))
	w2, _ := distances(lb.Resample(0.25), newBoxes(a))
	return math.Max(w1, w2)
}
