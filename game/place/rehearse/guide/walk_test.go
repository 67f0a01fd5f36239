package guide

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// Along a straight line each full step is one tick, at its own place: a way of n
// steps gives n, however it is sampled.
func TestTicksOnAStraightLine(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		w := Walk{StepMM: 2.54}
		x, ticks := 0.0, []float64{}
		w, _ = w.To(geom.Pt(0, 3))
		for range rapid.IntRange(1, 60).Draw(rt, "samples") {
			dx := rapid.Float64Range(0.01, 9).Draw(rt, "dx")
			next, full := w.To(geom.Pt(x+dx, 3))
			for _, f := range full {
				ticks = append(ticks, x+f*dx)
			}
			w, x = next, x+dx
		}
		if want := int(x/2.54 + 1e-9); len(ticks) != want {
			rt.Fatalf("%d ticks on %.3f mm, want %d", len(ticks), x, want)
		}
		for i, s := range ticks {
			if math.Abs(s-2.54*float64(i+1)) > 1e-6 {
				rt.Fatalf("tick %d at %.6f mm, want %.6f", i, s, 2.54*float64(i+1))
			}
		}
	})
}

// Round a circle of radius r the dividers step off chords: a full turn takes
// pi / asin(step / 2r) of them (a regular polygon's side is 2 r sin(pi/n)).
func TestTicksRoundACircle(t *testing.T) {
	const r, step = 20.0, 2.0
	w := Walk{StepMM: step}
	n := 0
	for i := 0; i <= 20000; i++ {
		a := 2 * math.Pi * float64(i) / 20000
		var full []float64
		w, full = w.To(geom.Pt(r*math.Cos(a), r*math.Sin(a)))
		n += len(full)
	}
	if want := int(math.Pi / math.Asin(step/(2*r))); n != want {
		t.Errorf("%d ticks round the circle, want %d", n, want)
	}
}

// A hand that trembles makes no tick, nor does a pointer that leaps.
func TestNoTickWithoutWay(t *testing.T) {
	w := Walk{StepMM: 2.5}
	for i := range 1000 {
		var full []float64
		if w, full = w.To(geom.Pt(math.Sin(float64(i)), math.Cos(1.7*float64(i)))); len(full) > 0 {
			t.Fatalf("a tick while trembling by 1 mm, sample %d", i)
		}
	}
	if _, full := w.To(geom.Pt(500, 0)); len(full) > 0 {
		t.Errorf("%d ticks for a leap of half a metre", len(full))
	}
}
