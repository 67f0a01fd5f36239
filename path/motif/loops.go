package motif

import (
	"math"

	"unthreaded/path/geom"
)

// rowOfLoops is the row offered on the page: loops 1 1/4 in apart, 1 1/2 in high.
var rowOfLoops = row{
	max: 10, usual: 5, rank: 3,
	line: func(n int) (geom.Line, error) {
		return geom.NewLine(Loops(n, 1.25*25.4, 1.5*25.4))
	},
}

// Loops returns a row of n loops, spacing mm from loop to loop and height mm high,
// as one smooth line from left to right. height must be more than spacing/pi, or
// there is no loop. It is the prolate trochoid x = R t - d sin t, y = -d cos t
// with R = spacing/(2 pi) and d = height/2, from t = -pi to (2n-1) pi. A loop is as
// long as the ellipse with half axes d+R and d-R is round: 4 (d+R) E(m),
// m = 4 R d/(d+R)^2.
func Loops(n int, spacing, height float64) geom.Polyline {
	r, d := spacing/(2*math.Pi), height/2
	f := func(t float64) geom.Point { return geom.Pt(r*t-d*math.Sin(t), -d*math.Cos(t)) }
	return toOrigin(geom.Flatten(f, -math.Pi, float64(2*n-1)*math.Pi, 8*n))
}
