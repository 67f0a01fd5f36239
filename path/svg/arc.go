package svg

import (
	"math"

	"unthreaded/path/geom"
)

// ellipse is an ellipse whose first axis is turned by phi radians.
type ellipse struct {
	centre geom.Point
	rx, ry float64
	phi    float64
}

// from returns the image of the point (x, y) in the frame in which the ellipse is
// the unit circle.
func (e ellipse) from(x, y float64) geom.Point {
	sin, cos := math.Sincos(e.phi)
	x, y = e.rx*x, e.ry*y
	return geom.Pt(cos*x-sin*y+e.centre.X, sin*x+cos*y+e.centre.Y)
}

// arcTo appends the elliptical arc from the present point with the radii, the
// turn of the first axis in degrees and the two flags of SVG's path command A, by
// SVG 2, 9.5.1, and SVG 1.1, F.6.2.
func (p *pen) arcTo(rx, ry, degrees float64, large, sweep bool, to geom.Point) {
	if to == p.cur {
		return
	}
	rx, ry = math.Abs(rx), math.Abs(ry)
	// Also where the radii are as good as 0, or the end as good as the start.
	if chord := math.Hypot((to.X-p.cur.X)/rx, (to.Y-p.cur.Y)/ry); !(chord > 1e-100 && chord < 1e100) {
		p.lineTo(to)
		return
	}
	e, t, turn := centre(p.cur, to, rx, ry, radians(math.Mod(degrees, 360)), large, sweep)
	p.sweep(e, t, turn, to)
}

// centre converts an arc from its end points to its ellipse, the parameter of its
// start and the turn to its end, both in radians (SVG 1.1, F.6.5). Radii that are
// too small to reach are enlarged (F.6.6). The formulas are worked out in units of
// the radii, so that radii of any size lose no digits.
func centre(from, to geom.Point, rx, ry, phi float64, large, sweep bool) (e ellipse, t, turn float64) {
	sin, cos := math.Sincos(phi)
	hx, hy := (from.X-to.X)/2, (from.Y-to.Y)/2
	ux, uy := (cos*hx+sin*hy)/rx, (cos*hy-sin*hx)/ry // x1'/rx, y1'/ry of F.6.5.1
	half := math.Hypot(ux, uy)
	if half > 1 {
		rx, ry, ux, uy = rx*half, ry*half, ux/half, uy/half
		half = 1
	}
	k := math.Sqrt(max(0, (1-half)*(1+half))) / half
	if large == sweep {
		k = -k
	}
	cx, cy := k*uy, -k*ux // cx'/rx, cy'/ry of F.6.5.2
	e = ellipse{rx: rx, ry: ry, phi: phi}
	e.centre = geom.Lerp(from, to, 0.5)
	e.centre = e.from(cx, cy)
	t = math.Atan2(uy-cy, ux-cx)
	turn = math.Atan2(-uy-cy, -ux-cx) - t
	if sweep && turn < 0 {
		turn += 2 * math.Pi
	}
	if !sweep && turn > 0 {
		turn -= 2 * math.Pi
	}
	return e, t, turn
}

// quarterError is the greatest distance from the unit circle of the cubic curve in
// place of its quarter, with handles of 4/3 tan(pi/8). The distance shrinks with
// the sixth power of the angle (M. Goldapp, Approximation of circular arcs by cubic
// polynomials, Computer Aided Geometric Design 8 (1991) 227-238).
const quarterError = 2.7253e-4

// arcPieces returns the number of equal cubic curves that keep within tol of an
// arc of the given turn in radians and greatest radius: as many for each quarter
// turn, so that those of a circle meet at its four sides.
func arcPieces(radius, turn, tol float64) int {
	quarters := max(1, math.Ceil(math.Abs(turn)/(math.Pi/2)-1e-9))
	one := math.Abs(turn) / (math.Pi / 2) / quarters
	return int(quarters * max(1, math.Ceil(one*math.Pow(radius*quarterError/tol, 1.0/6))))
}

// sweep appends the arc of e from parameter t over turn, which ends at to, as cubic
// curves within ArcTolerance of it once they are in mm.
func (p *pen) sweep(e ellipse, t, turn float64, to geom.Point) {
	radius := max(e.rx, e.ry) * p.m.stretch()
	if !(radius <= maxRadius) && math.Abs(turn) < math.Pi {
		p.lineTo(to)
		return
	}
	n := arcPieces(min(radius, maxRadius), turn, ArcTolerance)
	step := turn / float64(n)
	h := 4.0 / 3 * math.Tan(step/4)
	for i := 1; i <= n && p.err == nil; i++ {
		s0, c0 := math.Sincos(t + step*float64(i-1))
		s1, c1 := math.Sincos(t + step*float64(i))
		end := e.from(c1, s1)
		if i == n {
			end = to
		}
		p.add(e.from(c0-h*s0, s0+h*c0), e.from(c1+h*s1, s1-h*c1), end)
	}
}

// maxRadius is the radius in mm above which an arc between two places in bounds is
// no farther than ArcTolerance from straight: chord^2/(8 radius).
const maxRadius = 8 * MaxPlace * MaxPlace / (8 * ArcTolerance)
