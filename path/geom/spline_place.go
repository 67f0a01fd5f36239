package geom

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// At returns the point of piece i at parameter t in [0, 1].
func (s Spline) At(i int, t float64) Point {
	left, _ := deCasteljau(s.controls(i), t)
	return left[3]
}

func (s Spline) controls(i int) [4]Point { return [4]Point(s[3*i : 3*i+4]) }

// deCasteljau cuts a cubic at t by repeated linear interpolation between its
// control points (Farin, Curves and Surfaces for CAGD, ch. 4). The parts share
// the place at t.
func deCasteljau(p [4]Point, t float64) (left, right [4]Point) {
	a, b, c := Lerp(p[0], p[1], t), Lerp(p[1], p[2], t), Lerp(p[2], p[3], t)
	d, e := Lerp(a, b, t), Lerp(b, c, t)
	m := Lerp(d, e, t)
	return [4]Point{p[0], a, d, m}, [4]Point{m, e, c, p[3]}
}

// Tangent returns the unit direction of travel on piece i at parameter t, that of
// arriving there where it jumps. Where a handle has no length, the next control
// point that lies elsewhere gives the direction; a piece without length gives the
// zero vector.
func (s Spline) Tangent(i int, t float64) Point {
	p := s.controls(i)
	if t <= 0 {
		for _, q := range p[1:] {
			if Dist(p[0], q) > samePlace {
				return r2.Unit(r2.Sub(q, p[0]))
			}
		}
		return Point{}
	}
	left, _ := deCasteljau(p, t)
	for k := 2; k >= 0; k-- {
		if Dist(left[k], left[3]) > samePlace {
			return r2.Unit(r2.Sub(left[3], left[k]))
		}
	}
	return Point{}
}

// Split cuts the spline on piece i at t in [0, 1] into two that meet there. It
// fails where one of them would hold nothing, at either end of the spline.
func (s Spline) Split(i int, t float64) (before, after Spline, err error) {
	if err := s.checkPlace(i, t); err != nil {
		return nil, nil, err
	}
	switch {
	case t == 0:
		before, after = s[:3*i+1], s[3*i:]
	case t == 1:
		before, after = s[:3*i+4], s[3*i+3:]
	default:
		l, r := deCasteljau(s.controls(i), t)
		before = append(append(Spline{}, s[:3*i]...), l[:]...)
		after = append(append(Spline{}, r[:]...), s[3*i+4:]...)
	}
	if before.Pieces() == 0 || after.Pieces() == 0 {
		return nil, nil, fmt.Errorf("piece %d at %v is an end of the line: nothing to cut off", i, t)
	}
	return append(Spline{}, before...), append(Spline{}, after...), nil
}

func (s Spline) checkPlace(i int, t float64) error {
	if i < 0 || i >= s.Pieces() {
		return fmt.Errorf("piece %d of a line of %d pieces", i, s.Pieces())
	}
	if !(t >= 0 && t <= 1) {
		return fmt.Errorf("piece %d: parameter %v is not within 0 to 1", i, t)
	}
	return nil
}

// closeTo is the distance in mm below which the ends of a spline are one place,
// as for Line.Closed.
const closeTo = 1e-3

// Closed tells whether the spline ends where it starts, within 1 micrometre, and
// goes somewhere in between.
func (s Spline) Closed() bool {
	return s.Pieces() > 0 && Dist(s[0], s[len(s)-1]) < closeTo && s.Length() > closeTo
}

// Nodes returns the points in which the pieces begin and end: one more than there
// are pieces, so that a closed spline gives its first node again as the last.
func (s Spline) Nodes() Polyline {
	var out Polyline
	for i := 0; i < len(s); i += 3 {
		out = append(out, s[i])
	}
	return out
}

// Length returns the arc length in mm, to about 1e-9 of it (see PieceLength).
func (s Spline) Length() float64 {
	var sum float64
	for i := 0; i < s.Pieces(); i++ {
		sum += s.PieceLength(i)
	}
	return sum
}

// Bounds returns the corners of the smallest upright box round the curve itself,
// whose control points may lie outside. For no points both are the zero point.
func (s Spline) Bounds() (lo, hi Point) {
	lo, hi = s.Nodes().Bounds()
	for i := 0; i < s.Pieces(); i++ {
		p := s.controls(i)
		for _, t := range append(turnsBack(p[0].X, p[1].X, p[2].X, p[3].X), turnsBack(p[0].Y, p[1].Y, p[2].Y, p[3].Y)...) {
			q := s.At(i, t)
			lo.X, lo.Y = math.Min(lo.X, q.X), math.Min(lo.Y, q.Y)
			hi.X, hi.Y = math.Max(hi.X, q.X), math.Max(hi.Y, q.Y)
		}
	}
	return lo, hi
}

// turnsBack returns the parameters inside (0, 1) at which the derivative of the
// cubic with these Bernstein coefficients is zero: a quadratic with coefficients
// u, 2v, w, solved in the form that loses no digits (Press et al., Numerical
// Recipes, 5.6).
func turnsBack(a, b, c, d float64) []float64 {
	p0, p1, p2 := b-a, c-b, d-c
	u, v, w := p0-2*p1+p2, p1-p0, p0
	disc := v*v - u*w
	if disc < 0 {
		return nil
	}
	q := -(v + math.Copysign(math.Sqrt(disc), v))
	var out []float64
	for _, t := range []float64{q / u, w / q} {
		if t > 0 && t < 1 {
			out = append(out, t)
		}
	}
	return out
}
