package motif

import "unthreaded/path/geom"

// squareSpiral is the one offered on the page: lines 3/8 in apart.
var squareSpiral = row{
	max: 8, usual: 4, rank: 6,
	line: func(n int) (geom.Line, error) {
		return SquareSpiral(n, 0.375*25.4)
	},
}

// SquareSpiral returns n turns of a square spiral from the middle outwards, its
// lines spacing mm apart, with a dot at every corner. Its sides measure 1, 1, 2,
// 2, ..., 2n, 2n times spacing, 2n(2n+1) in all (sum of the first 2n numbers,
// twice).
func SquareSpiral(n int, spacing float64) (geom.Line, error) {
	at := geom.Pt(0, 0)
	path := geom.Polyline{at}
	turns := [4]geom.Point{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}}
	for side := range 4 * n {
		step := float64(side/2+1) * spacing
		at = geom.Pt(at.X+step*turns[side%4].X, at.Y+step*turns[side%4].Y)
		path = append(path, at)
	}
	l, err := geom.NewLine(toOrigin(path))
	if err != nil {
		return geom.Line{}, err
	}
	return l.WithDots(l.Cumulative())
}
