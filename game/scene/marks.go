package scene

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/look"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
)

// Beside returns the place d pixels to the right of the line at s.
func Beside(l geom.Line, s, d float64, v screen.View) geom.Point {
	u := l.Tangent(s)
	return r2.Add(v.ToScreen(l.At(s)), r2.Scale(d, geom.Pt(-u.Y, u.X)))
}

func Free(p geom.Point, taken []geom.Point) bool {
	for _, q := range taken {
		if geom.Dist(p, q) < numberRoom {
			return false
		}
	}
	return true
}

func Number(n int, at geom.Point, pal look.Palette) []Item {
	text := fmt.Sprint(n)
	l := Text(text, at, pal.Ink)
	l.Width = NumberSize
	half := 4 * float64(len(text)-1)
	ground := Line(19, pal.Cloth, geom.Pt(at.X-half, at.Y), geom.Pt(at.X+half, at.Y))
	return []Item{ground, l}
}

// WithinScreen moves a centred label so that it is not cut off; a letter is taken
// for 0.6 em wide.
func WithinScreen(l Item, s screen.Cloth) Item {
	half := 0.3 * l.Width * float64(len(l.Text))
	p := l.Points[0]
	p.X = math.Max(half+4, math.Min(s.W-half-4, p.X))
	p.Y = math.Max(l.Width, math.Min(s.H-s.Strip-l.Width, p.Y))
	l.Points = []geom.Point{p}
	return l
}
