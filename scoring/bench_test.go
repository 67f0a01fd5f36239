package scoring

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// benchLine is a spiral of about 2 m whose turns lie 10 mm apart.
func benchLine(b testing.TB) geom.Line {
	return mustLine(b, geom.Flatten(func(th float64) geom.Point {
		return geom.Pt(1.59*th*math.Cos(th), 1.59*th*math.Sin(th))
	}, 0, 16*math.Pi, 120))
}

// follows traces all of the line in seconds at 240 Hz, 1 mm to either side, in
// whole pixels.
func follows(l geom.Line, seconds float64) trace.Trace {
	tr := trace.Trace{Device: trace.Mouse, PixelMM: 0.26}
	n := int(seconds * 240)
	for k := range n {
		s := l.Length() * float64(k) / float64(n-1)
		p, d, e := l.At(s), l.Tangent(s), math.Sin(s/19)
		x, y := p.X-e*d.Y, p.Y+e*d.X
		tr.Samples = append(tr.Samples, trace.Sample{
			T: float64(k) / 240, P: geom.Pt(math.Round(x/0.26)*0.26, math.Round(y/0.26)*0.26), Pressure: 0.5,
		})
	}
	return tr
}

// All measures of 10 s at 240 Hz against 2 m of line, and of 2 and 4 times as
// many samples.
func BenchmarkScore(b *testing.B) {
	l := benchLine(b)
	for _, seconds := range []float64{10, 20, 40} {
		tr := follows(l, seconds)
		b.Run(fmt.Sprintf("%d samples", len(tr.Samples)), func(b *testing.B) {
			for b.Loop() {
				if _, err := Score(l, tr, plan()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// The same hand with the shape kept 6 mm and 4 mm beside the line, from the end to the start,
// of another size, and with another figure: the explanations that are tried then are the
// costliest.
func BenchmarkScoreElsewhere(b *testing.B) {
	l := benchLine(b)
	tr := follows(l, 10)
	back := tr
	back.Samples = slices.Clone(tr.Samples)
	for i := range back.Samples {
		back.Samples[i].P = tr.Samples[len(tr.Samples)-1-i].P
	}
	for name, hand := range map[string]trace.Trace{
		"shifted":   moved(tr, func(p geom.Point) geom.Point { return geom.Pt(p.X+6, p.Y-4) }, 0),
		"backwards": back,
		"another":   moved(tr, func(p geom.Point) geom.Point { return geom.Pt(p.X, 40*math.Sin(p.X*p.Y/300)) }, 0),
		"larger":    moved(tr, func(p geom.Point) geom.Point { return geom.Pt(1.2*p.X, 1.2*p.Y) }, 0),
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Score(l, hand, plan()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
