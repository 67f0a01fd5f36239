package motif

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// linkedSwirls is the row offered on the page: 38 mm (1 1/2 in) swirls.
var linkedSwirls = row{
	max: 8, usual: 4, rank: 1,
	line: func(n int) (geom.Line, error) {
		return geom.NewLine(LinkedSwirls(n, SwirlShape{Diameter: 38, Turns: 1.25, Gap: 8}))
	},
}

// SwirlShape is the shape of one swirl: an Archimedean spiral r = b theta walked
// inwards and, turned by half a turn, outwards again.
type SwirlShape struct {
	// Diameter of the swirl in mm.
	Diameter float64
	// Turns of each of the two arms; at least 1/2.
	Turns float64
	// Gap between neighbours in mm, bridged by a half circle.
	Gap float64
}

// pitch is b of r = b theta in mm per radian. Neighbouring lines lie pi*b apart.
func (s SwirlShape) pitch() float64 { return s.Diameter / 2 / (2 * math.Pi * s.Turns) }

// LinkedSwirls returns a row of n swirls as one continuous path with a continuous
// tangent. Every other swirl is mirrored top to bottom, so that the half circles
// that link them lie over and under the row in turn. The length is
// n*b*(T*sqrt(1+T^2)+asinh T) + (n-1)*pi*Gap/2 with T = 2*pi*Turns (the arc
// length of an Archimedean spiral, twice for each swirl).
func LinkedSwirls(n int, s SwirlShape) geom.Polyline {
	theta := 2 * math.Pi * s.Turns
	end := swirlPoint(s, theta, theta)
	dx := 2*end.X + s.Gap
	var out geom.Polyline
	for i := 0; i < n; i++ {
		flip := 1.0
		if i%2 == 1 {
			flip = -1
		}
		at := func(u float64) geom.Point {
			p := swirlPoint(s, theta, u)
			return geom.Pt(p.X+float64(i)*dx, flip*p.Y)
		}
		out = append(out, geom.Flatten(at, -theta, 0, 16)...)
		out = append(out, geom.Flatten(at, 0, theta, 16)...)
		if i < n-1 {
			p := at(theta)
			centre := geom.Pt(p.X+s.Gap/2, p.Y)
			out = append(out, geom.Arc(centre, s.Gap/2, math.Pi, math.Pi+flip*math.Pi)...)
		}
	}
	return toOrigin(out.Compact())
}

// swirlPoint returns the point of one swirl round the origin at u in
// [-theta, theta]: inwards for u < 0, outwards for u > 0. It leaves at the right,
// going straight up, and by its symmetry enters at the left, going up too.
func swirlPoint(s SwirlShape, theta, u float64) geom.Point {
	b := s.pitch()
	p := geom.Pt(-b*u*math.Cos(u), b*math.Abs(u)*math.Sin(u))
	// The end direction of r = b theta lies atan(theta) ahead of the radius; the
	// turn below makes it point straight up (y grows downwards).
	heading := math.Pi - (theta + math.Atan(theta))
	return r2.Rotate(p, -math.Pi/2-heading, geom.Point{})
}
