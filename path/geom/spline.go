package geom

import (
	"fmt"
)

// Spline is a chain of cubic Bezier curves in mm, as in the path data of SVG: point
// 0 is the start, and each piece adds two control points and its end, so that n
// pieces have 3n+1 points. A straight piece has its control points at its thirds.
// The zero value holds no piece.
type Spline []Point

// Straight returns the spline of straight pieces through the points of pl; nil for
// fewer than two points.
func Straight(pl Polyline) Spline {
	if len(pl) < 2 {
		return nil
	}
	s := Spline{pl[0]}
	for _, p := range pl[1:] {
		s = s.LineTo(p)
	}
	return s
}

// LineTo returns the spline with a straight piece to p added; s must have a start.
func (s Spline) LineTo(p Point) Spline {
	from := s[len(s)-1]
	return append(s, Lerp(from, p, 1.0/3), Lerp(from, p, 2.0/3), p)
}

// Validate reports a number of points that makes no spline, and the first point
// that is not finite, by its index.
func (s Spline) Validate() error {
	if len(s)%3 != 1 || len(s) < 4 {
		return fmt.Errorf("a spline of %d points: it takes 3n+1, at least 4", len(s))
	}
	for i, p := range s {
		if !Finite(p) {
			return fmt.Errorf("point %d is not finite: %v", i, p)
		}
	}
	return nil
}

// Pieces returns the number of cubic curves.
func (s Spline) Pieces() int { return max(0, (len(s)-1)/3) }

// Piece returns the four points of curve i.
func (s Spline) Piece(i int) (p0, p1, p2, p3 Point) {
	q := s[3*i : 3*i+4]
	return q[0], q[1], q[2], q[3]
}

// IsStraight tells whether piece i is straight within tol mm: both control points
// lie on the segment between its ends.
func (s Spline) IsStraight(i int, tol float64) bool {
	a, b, c, d := s.Piece(i)
	for _, p := range []Point{b, c} {
		if _, q := NearestOnSegment(p, a, d); Dist(p, q) > tol {
			return false
		}
	}
	return true
}

// Flatten returns the polyline along the spline, within Sagitta of it.
func (s Spline) Flatten() Polyline {
	if len(s) == 0 {
		return nil
	}
	out := Polyline{s[0]}
	for i := 0; i < s.Pieces(); i++ {
		a, b, c, d := s.Piece(i)
		if s.IsStraight(i, 1e-9) {
			out = append(out, d)
			continue
		}
		out = append(out, Bezier(a, b, c, d)[1:]...)
	}
	return out
}

// Map returns a copy with f applied to each point; f must be affine for the
// result to be the image of the curve.
func (s Spline) Map(f func(Point) Point) Spline { return Spline(Polyline(s).Map(f)) }

// Reversed returns a copy walked the other way.
func (s Spline) Reversed() Spline { return Spline(Polyline(s).Reversed()) }
