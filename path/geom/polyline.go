package geom

import (
	"fmt"
	"math"
)

// Polyline is a chain of points in mm joined by straight pieces.
type Polyline []Point

// Length returns the sum of the lengths of the pieces in mm; 0 for fewer than
// two points. Cost O(n).
func (pl Polyline) Length() float64 {
	var sum float64
	for i := 1; i < len(pl); i++ {
		sum += Dist(pl[i-1], pl[i])
	}
	return sum
}

// Cumulative returns the arc length in mm from the first point to each point:
// as many values as points, the first 0. Cost O(n).
func (pl Polyline) Cumulative() []float64 {
	cum := make([]float64, len(pl))
	for i := 1; i < len(pl); i++ {
		cum[i] = cum[i-1] + Dist(pl[i-1], pl[i])
	}
	return cum
}

// Reversed returns a copy walked the other way.
func (pl Polyline) Reversed() Polyline {
	out := make(Polyline, len(pl))
	for i, p := range pl {
		out[len(pl)-1-i] = p
	}
	return out
}

// Map returns a copy with f applied to each point.
func (pl Polyline) Map(f func(Point) Point) Polyline {
	out := make(Polyline, len(pl))
	for i, p := range pl {
		out[i] = f(p)
	}
	return out
}

// Bounds returns the corners of the smallest upright box round the points.
// For no points both are the zero point.
func (pl Polyline) Bounds() (lo, hi Point) {
	if len(pl) == 0 {
		return Point{}, Point{}
	}
	lo, hi = pl[0], pl[0]
	for _, p := range pl[1:] {
		lo.X, lo.Y = math.Min(lo.X, p.X), math.Min(lo.Y, p.Y)
		hi.X, hi.Y = math.Max(hi.X, p.X), math.Max(hi.Y, p.Y)
	}
	return lo, hi
}

// samePlace is the distance in mm (a nanometre) below which two points are one:
// rounding leaves such pairs where curves are joined, and the direction of so
// short a piece is noise.
const samePlace = 1e-6

// Compact returns the points without those that repeat their predecessor, since
// a piece without length has no direction.
func (pl Polyline) Compact() Polyline {
	out := make(Polyline, 0, len(pl))
	for _, p := range pl {
		// Written so that a place that is not a number is kept, for Validate to name.
		if len(out) == 0 || !(Dist(p, out[len(out)-1]) <= samePlace) {
			out = append(out, p)
		}
	}
	return out
}

// Validate reports the first point that is not finite, by its index, or a chain
// of fewer than two points.
func (pl Polyline) Validate() error {
	if len(pl) < 2 {
		return fmt.Errorf("a line needs at least 2 points, this one has %d", len(pl))
	}
	for i, p := range pl {
		if !Finite(p) {
			return fmt.Errorf("point %d of the line is not a finite place: (%v, %v)", i, p.X, p.Y)
		}
	}
	return nil
}
