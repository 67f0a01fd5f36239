package geom

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Spot is a place on a spline: parameter T in [0, 1] of piece Piece.
type Spot struct {
	Piece int
	T     float64
	// P is the point there, and Dist how far from it the asked point lies, in mm.
	P    Point
	Dist float64
}

// Nearest returns the place on the spline that is nearest to p; s must hold a
// piece. The curve lies in the box of its control points (Farin, ch. 4: convex
// hull property), so parts whose box is farther away than the best place so far
// are left out and the others halved until they are straight within 1e-5 mm; the
// last steps are Newton's. Cost O(pieces) boxes and some 100 halvings near p.
func (s Spline) Nearest(p Point) Spot {
	best := Spot{P: s[0], Dist: Dist(p, s[0])}
	for i := 0; i < s.Pieces(); i++ {
		near := nearestPart{p: p, piece: i, best: &best}
		near.visit(s.controls(i), 0, 1, maxHalvings)
	}
	s.polish(p, &best)
	return best
}

type nearestPart struct {
	p     Point
	piece int
	best  *Spot
}

// flatEnough is the distance in mm of the inner control points from the chord at
// their thirds, under which a part counts as its chord.
const flatEnough = 1e-5

func (n nearestPart) visit(c [4]Point, t0, t1 float64, depth int) {
	if boxDistance(n.p, c) >= n.best.Dist {
		return
	}
	third, third2 := Lerp(c[0], c[3], 1.0/3), Lerp(c[0], c[3], 2.0/3)
	if depth == 0 || (Dist(c[1], third) <= flatEnough && Dist(c[2], third2) <= flatEnough) {
		u, q := NearestOnSegment(n.p, c[0], c[3])
		if d := Dist(n.p, q); d < n.best.Dist {
			*n.best = Spot{Piece: n.piece, T: t0 + u*(t1-t0), P: q, Dist: d}
		}
		return
	}
	left, right := deCasteljau(c, 0.5)
	m := (t0 + t1) / 2
	if Dist(n.p, c[0]) <= Dist(n.p, c[3]) {
		n.visit(left, t0, m, depth-1)
		n.visit(right, m, t1, depth-1)
		return
	}
	n.visit(right, m, t1, depth-1)
	n.visit(left, t0, m, depth-1)
}

// boxDistance is the distance from p to the upright box round the control points.
func boxDistance(p Point, c [4]Point) float64 {
	lo, hi := Polyline(c[:]).Bounds()
	return math.Hypot(math.Max(0, math.Max(lo.X-p.X, p.X-hi.X)), math.Max(0, math.Max(lo.Y-p.Y, p.Y-hi.Y)))
}

// polish moves the place by Newton's method to where the way to p stands at right
// angles to the curve, as long as that brings it nearer, and takes the point from
// the curve itself.
func (s Spline) polish(p Point, spot *Spot) {
	c := s.controls(spot.Piece)
	spot.P = s.At(spot.Piece, spot.T)
	spot.Dist = Dist(p, spot.P)
	for range 4 {
		v, w := velocity(c, spot.T), acceleration(c, spot.T)
		off := r2.Sub(spot.P, p)
		slope := r2.Dot(v, v) + r2.Dot(off, w)
		if slope <= 0 {
			return
		}
		t := math.Max(0, math.Min(1, spot.T-r2.Dot(off, v)/slope))
		q := s.At(spot.Piece, t)
		if Dist(p, q) >= spot.Dist {
			return
		}
		spot.T, spot.P, spot.Dist = t, q, Dist(p, q)
	}
}

// acceleration is the second derivative of the cubic with control points p.
func acceleration(p [4]Point, t float64) Point {
	a := r2.Add(r2.Sub(p[0], r2.Scale(2, p[1])), p[2])
	b := r2.Add(r2.Sub(p[1], r2.Scale(2, p[2])), p[3])
	return r2.Scale(6, Lerp(a, b, t))
}
