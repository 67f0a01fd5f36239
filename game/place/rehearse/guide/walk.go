// Package guide is what goes along with a hand while it traces: the ideal needle,
// the count before the start, the ticks of its stitches, its speed, and the dots
// it should stop on. Lengths are in mm, times in s on the clock of the pointer.
// Nothing here looks at the trace once it is finished: package scoring does.
package guide

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// longestLeap is the number of steps that a hand can make from one sample to the
// next; what is longer is a pointer that was somewhere else.
const longestLeap = 50

// Walk steps along a movement like a pair of dividers: a step is full where the
// hand is StepMM, in a straight line, from where the last one was. A hand that
// trembles on one spot makes none.
type Walk struct {
	StepMM float64

	foot, at geom.Point
	begun    bool
}

// To goes on to p. It returns at which shares of the way from the place before,
// ascending in (0, 1], a step was full. Cost O(steps).
func (w Walk) To(p geom.Point) (Walk, []float64) {
	if !w.begun || !(w.StepMM > 0) || geom.Dist(w.at, p) > longestLeap*w.StepMM {
		w.foot, w.at, w.begun = p, p, true
		return w, nil
	}
	var full []float64
	for {
		f, ok := leaving(w.foot, w.StepMM, w.at, p)
		if !ok {
			break
		}
		full = append(full, f)
		w.foot = geom.Lerp(w.at, p, f)
	}
	w.at = p
	return w, full
}

// leaving returns the share of the way from a to b at which it leaves the circle of
// radius r round c: the larger root of |a + f (b-a) - c| = r.
func leaving(c geom.Point, r float64, a, b geom.Point) (f float64, ok bool) {
	d, off := r2.Sub(b, a), r2.Sub(a, c)
	dd, half := r2.Dot(d, d), r2.Dot(d, off)
	root := half*half - dd*(r2.Dot(off, off)-r*r)
	if dd == 0 || root < 0 {
		return 0, false
	}
	f = (math.Sqrt(root) - half) / dd
	return f, f > 0 && f <= 1
}
