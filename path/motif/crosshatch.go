package motif

import (
	"fmt"

	"unthreaded/path/geom"
)

var crosshatchWork = Work{
	ID: "crosshatch",
	Pieces: func() []Piece {
		r := Rect{0, 0, 120, 120}
		return append(r.Outline(""), Crosshatch(r, 20)...)
	},
}

// Crosshatch returns level and upright ruler lines from side to side of r, spaced
// evenly at most spacing mm apart, none on the sides themselves.
func Crosshatch(r Rect, spacing float64) []Piece {
	var out []Piece
	line := func(p, q geom.Point) {
		out = append(out, Piece{Name: fmt.Sprintf("line %d", len(out)+1), Path: geom.Polyline{p, q}, Ruler: true})
	}
	n := parts(r.W, spacing)
	for i := 1; i < n; i++ {
		x := r.X + r.W*float64(i)/float64(n)
		line(geom.Pt(x, r.Y), geom.Pt(x, r.Y+r.H))
	}
	n = parts(r.H, spacing)
	for j := 1; j < n; j++ {
		y := r.Y + r.H*float64(j)/float64(n)
		line(geom.Pt(r.X, y), geom.Pt(r.X+r.W, y))
	}
	return out
}

// parts returns into how many equal parts, none longer than most, a length is cut.
func parts(length, most float64) int {
	n := 1
	for length/float64(n) > most+1e-9 {
		n++
	}
	return n
}
