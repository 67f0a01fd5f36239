// Package geom holds the plane geometry that everything else stands on: points,
// polylines and lines to be sewn, measured in millimetres. The y axis grows
// downwards, as on the screen, so a positive angle turns clockwise to the eye.
package geom

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Point is a place on the cloth in millimetres. It is gonum's vector, so that
// r2.Add, r2.Sub, r2.Dot and r2.Norm serve as its arithmetic.
type Point = r2.Vec

// Pt returns the point (x, y) in mm.
func Pt(x, y float64) Point { return Point{X: x, Y: y} }

// Dist returns the straight distance between p and q in mm.
func Dist(p, q Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// Lerp returns the point at share t of the way from p (t = 0) to q (t = 1).
func Lerp(p, q Point, t float64) Point {
	return Point{X: p.X + t*(q.X-p.X), Y: p.Y + t*(q.Y-p.Y)}
}

// Finite tells whether both coordinates are finite numbers.
func Finite(p Point) bool {
	return !math.IsNaN(p.X) && !math.IsInf(p.X, 0) && !math.IsNaN(p.Y) && !math.IsInf(p.Y, 0)
}

// TurnAngle returns the signed angle in radians, in (-pi, pi], by which a
// traveller turns who walks a to b and then b to c. It is 0 where either leg has
// no length.
func TurnAngle(a, b, c Point) float64 {
	u, v := r2.Sub(b, a), r2.Sub(c, b)
	if u == (Point{}) || v == (Point{}) {
		return 0
	}
	return math.Atan2(r2.Cross(u, v), r2.Dot(u, v))
}

// NearestOnSegment returns the share t in [0, 1] along the segment a-b of the
// point nearest to p, and that point. A segment without length gives t = 0.
func NearestOnSegment(p, a, b Point) (t float64, q Point) {
	d := r2.Sub(b, a)
	n := r2.Norm2(d)
	if n == 0 {
		return 0, a
	}
	t = math.Max(0, math.Min(1, r2.Dot(r2.Sub(p, a), d)/n))
	return t, Lerp(a, b, t)
}
