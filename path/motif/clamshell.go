package motif

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
)

var clamshellWork = Work{
	ID: "clamshell",
	Pieces: func() []Piece {
		r := Rect{0, 0, 120, 120}
		return append(r.Outline(""), Clamshell(r, 30)...)
	},
}

// Clamshell returns rows of half circles of one size, at most size mm wide (size > 0), that
// fill the width of r and as much of its height as full rows do, in its middle.
// Every other row is half a shell further and has a quarter circle at either end.
// Row by row, a shell's top is where two shells of the row above meet. A row of
// width W is W*pi/2 long, whatever the size (half the circumference, pi*d/2, for
// each diameter d).
func Clamshell(r Rect, size float64) []Piece {
	cols := parts(r.W, size)
	radius := r.W / float64(cols) / 2
	rows := int(r.H/radius + 1e-9)
	top := r.Y + (r.H-float64(rows)*radius)/2
	var out []Piece
	for j := range rows {
		y := top + float64(j+1)*radius
		var row geom.Polyline
		// In quarter circles, so that the tops are vertices; the ends of quarters
		// are set exactly, so that rows meet in one point.
		for q := range 2 * cols {
			x0, x1 := r.X+float64(q)*radius, r.X+float64(q+1)*radius
			rising := (q+j)%2 == 0
			centre, from, left, right := geom.Pt(x1, y), math.Pi, geom.Pt(x0, y), geom.Pt(x1, y-radius)
			if !rising {
				centre, from, left, right = geom.Pt(x0, y), -math.Pi/2, geom.Pt(x0, y-radius), geom.Pt(x1, y)
			}
			arc := geom.Arc(centre, radius, from, from+math.Pi/2)
			arc[0], arc[len(arc)-1] = left, right
			row = append(row, arc...)
		}
		out = append(out, Piece{
			Name: fmt.Sprintf("row %d", j+1), Path: row.Compact(), Length: r.W * math.Pi / 2,
		})
	}
	return out
}
