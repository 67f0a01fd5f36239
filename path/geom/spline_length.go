package geom

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// The nodes and weights of Gauss-Legendre quadrature with 5 points on [-1, 1]
// (Abramowitz & Stegun, Handbook of Mathematical Functions, table 25.4).
var (
	gaussNodes   = [5]float64{0, -0.538469310105683, 0.538469310105683, -0.906179845938664, 0.906179845938664}
	gaussWeights = [5]float64{0.568888888888889, 0.478628670499366, 0.478628670499366, 0.236926885056189, 0.236926885056189}
)

// maxHalvings bounds the halving of a piece that has a cusp; what is left then is
// shorter than a billionth of the piece's control polygon.
const maxHalvings = 30

// tame tells whether quadrature can be trusted on a part: the legs of its control
// polygon all point the same way within 37 degrees (cosine 0.8), so that the speed,
// whose control points they are, stays clear of the zero that a cusp or a fold has.
func tame(c [4]Point) bool {
	a, b, d := r2.Sub(c[1], c[0]), r2.Sub(c[2], c[1]), r2.Sub(c[3], c[2])
	for _, p := range [][2]Point{{a, b}, {b, d}, {a, d}} {
		if r2.Dot(p[0], p[1]) < 0.8*r2.Norm(p[0])*r2.Norm(p[1]) {
			return false
		}
	}
	return true
}

// PieceLength returns the arc length of piece i in mm to about 1e-9 of its control
// polygon: parts are halved until they are tame and Gauss-Legendre quadrature of the
// speed over both halves agrees with that over the whole.
func (s Spline) PieceLength(i int) float64 {
	c := s.controls(i)
	return partLength(c, 1e-10*Polyline(c[:]).Length(), maxHalvings)
}

func partLength(c [4]Point, tol float64, depth int) float64 {
	left, right := deCasteljau(c, 0.5)
	if depth == 0 || tame(c) || Polyline(c[:]).Length() <= tol {
		if halves := gauss(left) + gauss(right); depth == 0 || math.Abs(halves-gauss(c)) <= tol {
			return halves
		}
	}
	return partLength(left, tol, depth-1) + partLength(right, tol, depth-1)
}

func gauss(c [4]Point) float64 {
	var sum float64
	for k, x := range gaussNodes {
		sum += gaussWeights[k] * r2.Norm(velocity(c, (1+x)/2))
	}
	return sum / 2
}

// velocity is the derivative of the cubic with control points p.
func velocity(p [4]Point, t float64) Point {
	u := 1 - t
	a, b, c := 3*u*u, 6*u*t, 3*t*t
	return Point{
		X: a*(p[1].X-p[0].X) + b*(p[2].X-p[1].X) + c*(p[3].X-p[2].X),
		Y: a*(p[1].Y-p[0].Y) + b*(p[2].Y-p[1].Y) + c*(p[3].Y-p[2].Y),
	}
}
