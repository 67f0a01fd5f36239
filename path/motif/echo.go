package motif

import (
	"fmt"

	"unthreaded/path/geom"
)

var echoWork = Work{
	ID: "echo-square",
	Pieces: func() []Piece {
		r := Rect{0, 0, 120, 120}
		return append(EchoSquares(r.Inset(10), 12.5),
			Piece{Name: "upright-seam", Path: geom.Polyline{geom.Pt(60, 0), geom.Pt(60, 120)}, Seam: true},
			Piece{Name: "level-seam", Path: geom.Polyline{geom.Pt(0, 60), geom.Pt(120, 60)}, Seam: true})
	},
}

// EchoSquares returns closed lines along the sides of r, spacing mm within them,
// twice spacing within them, and so on, for as long as both sides measure at least
// spacing, which must be positive. Each is 8*spacing shorter than the one before.
func EchoSquares(r Rect, spacing float64) []Piece {
	var out []Piece
	for k := 0; ; k++ {
		in := r.Inset(float64(k) * spacing)
		if in.W < spacing || in.H < spacing {
			return out
		}
		path := geom.Polyline{
			geom.Pt(in.X, in.Y), geom.Pt(in.X+in.W, in.Y),
			geom.Pt(in.X+in.W, in.Y+in.H), geom.Pt(in.X, in.Y+in.H), geom.Pt(in.X, in.Y),
		}
		out = append(out, Piece{Name: fmt.Sprintf("square %d", k+1), Path: path, Ruler: true})
	}
}
