package motif

import (
	"math"

	"unthreaded/path/geom"
)

// rowOfEights is the row offered on the page: eights 2 in wide.
var rowOfEights = row{
	max: 8, usual: 5, rank: 5,
	line: func(n int) (geom.Line, error) {
		return geom.NewLine(FigureEights(n, 2*25.4))
	},
}

// FigureEights returns a row of n lying figure eights, each width mm wide, that
// touch side by side, as one smooth closed line from the left end and back to it:
// out through one half of each eight and home through the other. Each is a
// lemniscate of Bernoulli with half width a = width/2, (x, y) = a (cos t,
// sin t cos t)/(1 + sin^2 t), which is 2 varpi a long with the lemniscate constant
// varpi = 2.622057554 (Weisstein, "Lemniscate", MathWorld; cited from memory), and
// a/sqrt2 high.
func FigureEights(n int, width float64) geom.Polyline {
	a := width / 2
	half := func(i int, from float64) geom.Polyline {
		f := func(t float64) geom.Point {
			s, c := math.Sincos(t)
			return geom.Pt(width*float64(i)+a*c/(1+s*s), a*s*c/(1+s*s))
		}
		return geom.Flatten(f, from, from+math.Pi, 8)
	}
	var out geom.Polyline
	for i := range n {
		out = append(out, half(i, math.Pi)...)
	}
	for i := n - 1; i >= 0; i-- {
		out = append(out, half(i, 0)...)
	}
	return joinNear(toOrigin(out))
}

// joinNear drops points that repeat their predecessor but for rounding, and makes
// the last point the first where it is that near.
func joinNear(pl geom.Polyline) geom.Polyline {
	out := pl[:1]
	for _, p := range pl[1:] {
		if geom.Dist(p, out[len(out)-1]) > 1e-9 {
			out = append(out, p)
		}
	}
	if geom.Dist(out[0], out[len(out)-1]) < 1e-9 {
		out[len(out)-1] = out[0]
	}
	return out
}
