package motif

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
)

var orangePeelWork = Work{
	ID:     "orange-peel",
	Pieces: func() []Piece { return OrangePeel(Rect{0, 0, 120, 120}, 3, 3, "") },
}

// orangePeelRow is a border of four blocks of 2 x 2 squares.
var orangePeelRow = Work{
	ID: "orange-peel-row", Row: true,
	Pieces: func() []Piece {
		var all []Piece
		for i := 0; i < 4; i++ {
			all = append(all, OrangePeel(Rect{float64(i) * 50, 0, 50, 50}, 2, 2, fmt.Sprint(i+1))...)
		}
		return all
	},
}

// OrangePeel returns the arcs over a grid of cols x rows squares (or rectangles)
// that fill r: along each side of a square, on its inner side, an arc from corner
// to corner. Where the squares are square with side a, an arc is a quarter circle
// of radius a/sqrt2 and length pi*a/(2*sqrt2); else it is the same arc stretched.
func OrangePeel(r Rect, cols, rows int, block string) []Piece {
	var out []Piece
	w, h := r.W/float64(cols), r.H/float64(rows)
	at := func(i, j int) geom.Point { return geom.Pt(r.X+float64(i)*w, r.Y+float64(j)*h) }
	add := func(p, q geom.Point, side float64) {
		out = append(out, Piece{Name: fmt.Sprintf("arc %d", len(out)+1), Path: peel(p, q, side*w, side*h), Block: block})
	}
	for j := 0; j <= rows; j++ {
		for i := 0; i <= cols; i++ {
			if i < cols && j < rows {
				add(at(i, j), at(i+1, j), 1)
				add(at(i, j), at(i, j+1), 1)
			}
			if i < cols && j > 0 {
				add(at(i, j), at(i+1, j), -1)
			}
			if j < rows && i > 0 {
				add(at(i, j), at(i, j+1), -1)
			}
		}
	}
	return out
}

// peel returns the arc from p to q, one along a side of a grid, that bulges to the
// side of w (for an upright side) or h (for a level one). It is the quarter circle
// through the ends of a unit side, mapped to the grid.
func peel(p, q geom.Point, w, h float64) geom.Polyline {
	level := p.Y == q.Y
	f := func(a float64) geom.Point {
		// The circle round (1/2, -1/2) with radius 1/sqrt2 passes (0, 0) and (1, 0).
		u := 0.5 + math.Sqrt2/2*math.Cos(a)
		v := -0.5 + math.Sqrt2/2*math.Sin(a)
		if level {
			return geom.Pt(p.X+u*(q.X-p.X), p.Y+v*h)
		}
		return geom.Pt(p.X+v*w, p.Y+u*(q.Y-p.Y))
	}
	pl := geom.Flatten(f, 3*math.Pi/4, math.Pi/4, 2)
	pl[0], pl[len(pl)-1] = p, q // exact, so that arcs meet in one junction
	return pl
}
