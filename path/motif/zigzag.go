package motif

import (
	"unthreaded/path/geom"
)

// rulerZigzag is the row offered on the page: dots 3/4 in apart, sides 2 in apart.
var rulerZigzag = row{
	max: 10, usual: 4, rank: 2,
	line: func(n int) (geom.Line, error) {
		return Zigzag(n, 0.75*25.4, 2*25.4)
	},
}

// Zigzag returns 2n straight lines between two parallel sides height mm apart,
// from dot to dot; the dots lie spacing mm apart along the row, on the lower and
// the upper side in turn, and each is marked on the line.
func Zigzag(n int, spacing, height float64) (geom.Line, error) {
	var pl geom.Polyline
	for i := 0; i <= 2*n; i++ {
		y := height
		if i%2 == 1 {
			y = 0
		}
		pl = append(pl, geom.Pt(float64(i)*spacing, y))
	}
	l, err := geom.NewLine(pl)
	if err != nil {
		return geom.Line{}, err
	}
	return l.WithDots(l.Cumulative())
}
