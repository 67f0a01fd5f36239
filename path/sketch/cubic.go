package sketch

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// reparameterisations bounds the rounds of Newton's method in fitCubic; four is
// the number in Schneider's program.
const reparameterisations = 4

// fitCubic returns the cubic from the first to the last of at least two points that
// leaves in unit direction out and arrives against unit direction back (both point
// away from the ends, into the curve), its handles as long as least squares want
// them: P. J. Schneider, An Algorithm for Automatically Fitting Digitized Curves,
// Graphics Gems (1990). It also returns the largest distance in mm of a point from
// the place of its parameter on the curve, and the index of that point. Rounds of
// reparameterisation end once that distance is at most tol. Cost O(points).
func fitCubic(pts []geom.Point, out, back geom.Point, tol float64) (c [4]geom.Point, worst float64, at int) {
	u, length := chordLength(pts)
	c = leastSquares(pts, u, length, out, back)
	worst, at = farthest(pts, u, c)
	for range reparameterisations {
		if worst <= tol {
			break
		}
		reparameterise(pts, u, c)
		next := leastSquares(pts, u, length, out, back)
		w, k := farthest(pts, u, next)
		if w >= worst {
			break
		}
		c, worst, at = next, w, k
	}
	return c, worst, at
}

// chordLength gives each point its share of the length of the polyline, and that
// length.
func chordLength(pts []geom.Point) (u []float64, length float64) {
	u = geom.Polyline(pts).Cumulative()
	length = u[len(u)-1]
	if length > 0 {
		for i := range u {
			u[i] /= length
		}
	}
	return u, length
}

// leastSquares solves the normal equations for the two lengths of handle. Where
// they are as good as singular, or a handle would be negative, as good as nothing or
// longer than the points' polyline of the given length, both are a third of the
// chord (Schneider after Wu and Barsky).
func leastSquares(pts []geom.Point, u []float64, length float64, out, back geom.Point) [4]geom.Point {
	first, last := pts[0], pts[len(pts)-1]
	var c00, c01, c11, x0, x1 float64
	for i, p := range pts {
		b0, b1, b2, b3 := bernstein(u[i])
		a0, a1 := r2.Scale(b1, out), r2.Scale(b2, back)
		c00 += r2.Dot(a0, a0)
		c01 += r2.Dot(a0, a1)
		c11 += r2.Dot(a1, a1)
		rest := r2.Sub(p, r2.Add(r2.Scale(b0+b1, first), r2.Scale(b2+b3, last)))
		x0 += r2.Dot(a0, rest)
		x1 += r2.Dot(a1, rest)
	}
	chord := geom.Dist(first, last)
	l0, l1 := chord/3, chord/3
	if det := c00*c11 - c01*c01; det > 1e-12*c00*c11 {
		s0, s1 := (x0*c11-x1*c01)/det, (c00*x1-c01*x0)/det
		if least := 1e-6 * chord; s0 > least && s1 > least && s0 < length && s1 < length {
			l0, l1 = s0, s1
		}
	}
	return [4]geom.Point{first, r2.Add(first, r2.Scale(l0, out)), r2.Add(last, r2.Scale(l1, back)), last}
}

func bernstein(t float64) (b0, b1, b2, b3 float64) {
	u := 1 - t
	return u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t
}

func onCubic(c [4]geom.Point, t float64) geom.Point {
	b0, b1, b2, b3 := bernstein(t)
	return geom.Pt(b0*c[0].X+b1*c[1].X+b2*c[2].X+b3*c[3].X, b0*c[0].Y+b1*c[1].Y+b2*c[2].Y+b3*c[3].Y)
}

// farthest returns the largest distance of an inner point from its place, and its
// index.
func farthest(pts []geom.Point, u []float64, c [4]geom.Point) (worst float64, at int) {
	at = len(pts) / 2
	for i := 1; i < len(pts)-1; i++ {
		if d := geom.Dist(pts[i], onCubic(c, u[i])); d > worst {
			worst, at = d, i
		}
	}
	return worst, at
}

// reparameterise moves each parameter by one step of Newton's method towards the
// place on the curve that is nearest to its point.
func reparameterise(pts []geom.Point, u []float64, c [4]geom.Point) {
	d1 := [3]geom.Point{r2.Scale(3, r2.Sub(c[1], c[0])), r2.Scale(3, r2.Sub(c[2], c[1])), r2.Scale(3, r2.Sub(c[3], c[2]))}
	d2 := [2]geom.Point{r2.Scale(2, r2.Sub(d1[1], d1[0])), r2.Scale(2, r2.Sub(d1[2], d1[1]))}
	for i, p := range pts {
		t := u[i]
		v := geom.Lerp(geom.Lerp(d1[0], d1[1], t), geom.Lerp(d1[1], d1[2], t), t)
		off := r2.Sub(onCubic(c, t), p)
		slope := r2.Dot(v, v) + r2.Dot(off, geom.Lerp(d2[0], d2[1], t))
		if slope > 0 {
			u[i] = math.Max(0, math.Min(1, t-r2.Dot(off, v)/slope))
		}
	}
}
