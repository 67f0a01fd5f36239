package motif

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
)

// Each star has starTips points, and each of its lines goes to the starStep-th
// point from its own: the star polygon {8/3} of geometry.
const (
	starTips = 8
	starStep = 3
)

var starChainWork = Work{
	ID:     "star-chain",
	Pieces: func() []Piece { return StarChain(Rect{0, 0, 240, 60}, 4) },
}

// StarChain returns a row of count stars that touch at their points, as large as
// fits in the middle of r. A star of radius R is one closed line of 8 chords, each
// 2 R sin(3 pi/8) long, that cross at 16 places (star polygon {n/d}: chords of
// 2 R sin(pi d/n), n(d-1) crossings; Coxeter, Regular Polytopes, 2.8).
func StarChain(r Rect, count int) []Piece {
	radius := math.Min(r.W/float64(2*count), r.H/2)
	left := r.X + (r.W-2*radius*float64(count))/2
	var out []Piece
	for i := range count {
		centre := geom.Pt(left+radius*float64(2*i+1), r.Y+r.H/2)
		var star geom.Polyline
		for k := 0; k <= starTips; k++ {
			a := math.Pi + 2*math.Pi*float64(k*starStep%starTips)/starTips
			star = append(star, geom.Pt(centre.X+radius*math.Cos(a), centre.Y+radius*math.Sin(a)))
		}
		out = append(out, Piece{
			Name: fmt.Sprintf("star %d", i+1), Path: star, Ruler: true,
			Length: starTips * 2 * radius * math.Sin(math.Pi*starStep/starTips),
		})
	}
	return out
}
