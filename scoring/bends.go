package scoring

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// bendStep is the spacing in mm at which the curvature of a line is known.
const bendStep = 1.0

// straight is the curvature in 1/mm below which a line counts as straight, that
// of a circle of 200 mm radius.
const straight = 1.0 / 200

// tight is the curvature in 1/mm above which the hand's own curve need not be
// that of the line: a radius of 3 mm is no more than hands stray.
const tight = 1.0 / 3

// curved tells whether curvature k, of either sign, is that of a curve that a
// hand can be judged by.
func curved(k float64) bool { return math.Abs(k) > straight && math.Abs(k) < tight }

// bends is the curvature of a line in 1/mm every step mm from its start,
// positive clockwise to the eye. It means nothing at the corners themselves, which
// the measures leave out.
type bends struct {
	step  float64
	kappa []float64
}

// newBends takes the curvature from circles through three points of the line, as
// far apart as the bend and the next corner allow: chords of a flattened curve
// spoil a short reach, and a long one does not fit into a tight curve. The error is about 2 *
// geom.Sagitta / reach^2, or 4 % at a radius of 4 mm and less elsewhere; below 2
// mm of radius the circle grows too large. Cost O(length).
func newBends(line geom.Line) bends {
	b := bends{step: line.Length() / math.Ceil(line.Length()/bendStep)}
	pts := line.Resample(b.step)
	b.kappa = make([]float64, len(pts))
	for i := range pts {
		room := max(b.step, distance(line.Corners, float64(i)*b.step))
		for _, reach := range []int{8, 4, 2, 1} {
			k := max(reach, min(len(pts)-1-reach, i))
			if k-reach < 0 || k+reach >= len(pts) || float64(reach)*b.step > room {
				continue
			}
			b.kappa[i] = menger(pts[k-reach], pts[k], pts[k+reach])
			if math.Abs(b.kappa[i])*float64(reach)*b.step <= 0.5 {
				break
			}
		}
	}
	return b
}

// at returns the curvature at s mm along the line.
func (b bends) at(s float64) float64 {
	return b.kappa[max(0, min(len(b.kappa)-1, int(math.Round(s/b.step))))]
}

// tightAt tells whether the line bends too tightly for a hand within 3 mm, the
// radius of such a bend, of s mm along it.
func (b bends) tightAt(s float64) bool {
	for d := -1 / tight; d <= 1/tight; d += b.step {
		if math.Abs(b.at(s+d)) >= tight {
			return true
		}
	}
	return false
}

// menger returns the curvature of the circle through a, b, c: 4 times the area
// over the product of the sides.
func menger(a, b, c geom.Point) float64 {
	d := math.Sqrt(r2.Norm2(r2.Sub(b, a)) * r2.Norm2(r2.Sub(c, b)) * r2.Norm2(r2.Sub(a, c)))
	if d == 0 {
		return 0
	}
	return 2 * r2.Cross(r2.Sub(b, a), r2.Sub(c, b)) / d
}
