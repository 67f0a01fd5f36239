package sketch

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
)

// Affine is a move of the plane that keeps straight lines straight and parallels
// parallel: x' = A x + C y + E, y' = B x + D y + F, the order of the letters being
// that of matrix(a, b, c, d, e, f) in SVG. Use it on a line as s.Map(m.Apply).
type Affine struct{ A, B, C, D, E, F float64 }

// Apply returns the image of p.
func (m Affine) Apply(p geom.Point) geom.Point {
	return geom.Pt(m.A*p.X+m.C*p.Y+m.E, m.B*p.X+m.D*p.Y+m.F)
}

// Then returns the move that does m first and next after it.
func (m Affine) Then(next Affine) Affine {
	x, y := next.linear(geom.Pt(m.A, m.B)), next.linear(geom.Pt(m.C, m.D))
	o := next.Apply(geom.Pt(m.E, m.F))
	return Affine{x.X, x.Y, y.X, y.Y, o.X, o.Y}
}

func (m Affine) linear(v geom.Point) geom.Point {
	return geom.Pt(m.A*v.X+m.C*v.Y, m.B*v.X+m.D*v.Y)
}

// Translate moves by (dx, dy) mm.
func Translate(dx, dy float64) Affine { return Affine{1, 0, 0, 1, dx, dy} }

// Rotate turns about a point by an angle in radians, clockwise to the eye.
func Rotate(angle float64, about geom.Point) Affine {
	s, c := math.Sincos(angle)
	return around(Affine{A: c, B: s, C: -s, D: c}, about)
}

// Scale stretches by the factors sx and sy away from a point that stays.
func Scale(sx, sy float64, about geom.Point) Affine { return around(Affine{A: sx, D: sy}, about) }

// around lets the linear map m keep the point p.
func around(m Affine, p geom.Point) Affine {
	q := m.linear(p)
	m.E, m.F = p.X-q.X, p.Y-q.Y
	return m
}

// MirrorUpright mirrors left to right, about the vertical line at x.
func MirrorUpright(x float64) Affine { return Affine{-1, 0, 0, 1, 2 * x, 0} }

// MirrorLevel mirrors top to bottom, about the level line at y.
func MirrorLevel(y float64) Affine { return Affine{1, 0, 0, -1, 0, 2 * y} }

// FitBox returns the move that brings lines into the upright box from lo to hi less
// a margin on all sides: scaled alike both ways as large as goes, and centred.
// Lines without any extent are centred only. It fails where the margin leaves
// nothing of the box.
func FitBox(lines []geom.Spline, lo, hi geom.Point, margin float64) (Affine, error) {
	w, h := hi.X-lo.X-2*margin, hi.Y-lo.Y-2*margin
	if !(w > 0 && h > 0) {
		return Affine{}, fmt.Errorf("a margin of %.2f mm leaves nothing of a box of %.2f by %.2f mm", margin, hi.X-lo.X, hi.Y-lo.Y)
	}
	var corners geom.Polyline
	for i, s := range lines {
		if err := s.Validate(); err != nil {
			return Affine{}, fmt.Errorf("line %d: %w", i, err)
		}
		a, b := s.Bounds()
		corners = append(corners, a, b)
	}
	if len(corners) == 0 {
		return Affine{}, fmt.Errorf("no lines to fit")
	}
	a, b := corners.Bounds()
	factor := math.Min(w/(b.X-a.X), h/(b.Y-a.Y))
	if math.IsInf(factor, 0) || math.IsNaN(factor) {
		factor = 1
	}
	middle, target := geom.Lerp(a, b, 0.5), geom.Lerp(lo, hi, 0.5)
	return Scale(factor, factor, middle).Then(Translate(target.X-middle.X, target.Y-middle.Y)), nil
}
