package motif

import (
	"math"

	"unthreaded/path/geom"
)

// rowOfWaves is the row offered on the page: waves 2 in long, 1 1/2 in high.
var rowOfWaves = row{
	max: 10, usual: 5, rank: 4,
	line: func(n int) (geom.Line, error) {
		return geom.NewLine(Waves(n, 2*25.4, 1.5*25.4))
	},
}

// Waves returns n waves of a sine line, each spacing mm long and height mm from
// crest to trough. With k = pi*height/spacing, the steepest slope, a wave is
// 2 spacing/pi * sqrt(1+k^2) * E(m) long, m = k^2/(1+k^2).
func Waves(n int, spacing, height float64) geom.Polyline {
	f := func(x float64) geom.Point { return geom.Pt(x, -height/2*math.Sin(2*math.Pi*x/spacing)) }
	return toOrigin(geom.Flatten(f, 0, float64(n)*spacing, 8*n))
}
