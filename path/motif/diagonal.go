package motif

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
)

var diagonalWork = Work{
	ID: "diagonal-crosshatch",
	Pieces: func() []Piece {
		r := Rect{0, 0, 120, 120}
		return append(r.Outline(""), DiagonalCrosshatch(r, 24)...)
	},
}

// DiagonalCrosshatch returns slanting ruler lines both ways over r. They run from
// dot to dot; the dots divide the sides evenly, as coarsely as lets neighbouring
// lines be at most spacing mm apart, which must be positive. In a square the lines run at 45 degrees; else
// they follow the diagonals of the cells, w x h, that the dots make, and are
// w*h/sqrt(w^2+h^2) apart, the height of a right triangle on its hypotenuse.
func DiagonalCrosshatch(r Rect, spacing float64) []Piece {
	cols, rows := parts(r.W, spacing*math.Sqrt2), parts(r.H, spacing*math.Sqrt2)
	at := func(i, j int) geom.Point {
		return geom.Pt(r.X+r.W*float64(i)/float64(cols), r.Y+r.H*float64(j)/float64(rows))
	}
	var out []Piece
	// One line falls to the right from each dot on the left and the upper side,
	// and its mirror image to the left.
	line := func(i, j int) {
		n := min(cols-i, rows-j)
		for _, mirrored := range []bool{false, true} {
			p, q := at(i, j), at(i+n, j+n)
			if mirrored {
				p, q = at(cols-i, j), at(cols-i-n, j+n)
			}
			out = append(out, Piece{Name: fmt.Sprintf("line %d", len(out)+1), Path: geom.Polyline{p, q}, Ruler: true})
		}
	}
	for j := rows - 1; j > 0; j-- {
		line(0, j)
	}
	for i := range cols {
		line(i, 0)
	}
	return out
}
