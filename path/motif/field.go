package motif

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// field is the convex space that a motif fills: a shape less its margin.
type field struct {
	shape  Shape
	margin float64
	// corners run clockwise to the eye; a circle has none. ways are the unit
	// directions of the sides that begin in them.
	corners, ways []geom.Point
	// middle and radius are those of a largest circle in the field.
	middle geom.Point
	radius float64
}

func newField(s Shape, margin float64) field {
	f := field{shape: s, margin: margin, middle: s.middle(), radius: s.inradius() - margin}
	if s.Kind != Circle {
		f = f.with(s.insetCorners(margin))
	}
	return f
}

// with returns the field with other corners.
func (f field) with(corners []geom.Point) field {
	f.corners, f.ways = corners, make([]geom.Point, len(corners))
	for i, a := range corners {
		f.ways[i] = r2.Unit(r2.Sub(corners[(i+1)%len(corners)], a))
	}
	return f
}

// inset returns the field less d mm more, and whether anything is left.
func (f field) inset(d float64) (field, bool) {
	if !(d < f.radius) {
		return field{}, false
	}
	return newField(f.shape, f.margin+d), true
}

// depth returns how far p lies inside the field, in mm: the distance to the
// nearest side, negative outside.
func (f field) depth(p geom.Point) float64 {
	if f.corners == nil {
		return f.radius - geom.Dist(p, f.middle)
	}
	least := math.Inf(1)
	for i, a := range f.corners {
		// Clockwise to the eye with y downwards: from a side to the inside is a
		// positive turn.
		least = math.Min(least, r2.Cross(f.ways[i], r2.Sub(p, a)))
	}
	return least
}

// deepest returns the least depth of the points of a line: below 0 where it leaves
// the field.
func (f field) deepest(pl geom.Polyline) float64 {
	least := math.Inf(1)
	for _, p := range pl {
		least = math.Min(least, f.depth(p))
	}
	return least
}

// outline returns the closed outline of the field.
func (f field) outline() geom.Polyline {
	if f.corners == nil {
		return ring(f.middle, f.radius)
	}
	return closed(f.corners)
}

// area returns the area in mm^2.
func (f field) area() float64 {
	if f.corners == nil {
		return math.Pi * f.radius * f.radius
	}
	return area(f.corners)
}

// bounds returns the corners of the upright box round the field.
func (f field) bounds() (lo, hi geom.Point) {
	if f.corners == nil {
		d := geom.Pt(f.radius, f.radius)
		return r2.Sub(f.middle, d), r2.Add(f.middle, d)
	}
	return geom.Polyline(f.corners).Bounds()
}

// clip returns the range of t for which p + t d lies in the field; lo > hi when
// the line misses it. d must have length 1.
func (f field) clip(p, d geom.Point) (lo, hi float64) {
	if f.corners == nil {
		m := r2.Sub(p, f.middle)
		b, c := r2.Dot(m, d), r2.Norm2(m)-f.radius*f.radius
		root := b*b - c
		if root < 0 {
			return 1, -1
		}
		return -b - math.Sqrt(root), -b + math.Sqrt(root)
	}
	lo, hi = math.Inf(-1), math.Inf(1)
	for i, a := range f.corners {
		u := f.ways[i]
		slope, at := r2.Cross(u, d), r2.Cross(u, r2.Sub(p, a))
		switch {
		case math.Abs(slope) < 1e-12:
			if at < -1e-9 {
				return 1, -1
			}
		case slope > 0:
			lo = math.Max(lo, -at/slope)
		default:
			hi = math.Min(hi, -at/slope)
		}
	}
	return lo, hi
}

// fine reports a measure so small that the line would be too long to handle: at
// most limit squares with that side may fit in the field.
func (f field) fine(what string, size float64, limit int) error {
	if f.area() <= size*size*float64(limit) {
		return nil
	}
	least := math.Ceil(math.Sqrt(f.area()/float64(limit))*10) / 10
	return &Refusal{TooFine, what, f.shape, size, least,
		fmt.Errorf("the %s of %.4g mm is too fine for the %s: take at least %.4g mm", what, size, f.shape.describe(), least)}
}

// tooLarge is the error for a measure that leaves no room; most is the largest
// that fits, or less than 0 when none is known to.
func (f field) tooLarge(what string, size, most float64) error {
	most = math.Floor(most*10) / 10
	if most <= 0 {
		return &Refusal{NoRoom, what, f.shape, f.margin, 0,
			fmt.Errorf("the %s leaves no room for it within the margin of %.4g mm: take a smaller margin or a larger block", f.shape.describe(), f.margin)}
	}
	return &Refusal{TooLarge, what, f.shape, size, most,
		fmt.Errorf("the %s of %.4g mm leaves no room in the %s with a margin of %.4g mm: take at most %.4g mm", what, size, f.shape.describe(), f.margin, most)}
}
