package motif

import (
	"math"

	"unthreaded/path/geom"
)

var diamondsWork = Work{
	ID:     "diamonds",
	Pieces: func() []Piece { return Diamonds(Rect{0, 0, 200, 50}, 5) },
}

// Diamonds returns a row of count diamonds that touch at their points and fill r:
// an upper and a lower zigzag of ruler lines. Each is sqrt(W^2 + (count*H)^2) long
// (Pythagoras: 2 count sides with legs W/(2 count) and H/2).
func Diamonds(r Rect, count int) []Piece {
	upper, lower := geom.Polyline{geom.Pt(r.X, r.Y+r.H/2)}, geom.Polyline{geom.Pt(r.X, r.Y+r.H/2)}
	for i := range count {
		mid := r.X + r.W*(float64(i)+0.5)/float64(count)
		end := geom.Pt(r.X+r.W*float64(i+1)/float64(count), r.Y+r.H/2)
		upper = append(upper, geom.Pt(mid, r.Y), end)
		lower = append(lower, geom.Pt(mid, r.Y+r.H), end)
	}
	length := math.Hypot(r.W, float64(count)*r.H)
	return []Piece{
		{Name: "upper-zigzag", Path: upper, Length: length, Ruler: true},
		{Name: "lower-zigzag", Path: lower, Length: length, Ruler: true},
	}
}
