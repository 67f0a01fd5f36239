package scene

import (
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/screen"
	"unthreaded/path/geom"
)

// NumberSize is that of the numbers of moves in CSS pixels, numberRoom the least distance
// between the numbers of dots.
const NumberSize, numberRoom = 13.0, 34.0

func OnScreen(pl geom.Polyline, v screen.View) []geom.Point {
	out := make([]geom.Point, len(pl))
	for i, p := range pl {
		out[i] = v.ToScreen(p)
	}
	return out
}

// Mix returns the colour a share t of the way from a to b.
func Mix(a, b color.NRGBA, t float64) color.NRGBA {
	m := func(x, y uint8) uint8 { return uint8(math.Round(float64(x) + t*(float64(y)-float64(x)))) }
	return color.NRGBA{R: m(a.R, b.R), G: m(a.G, b.G), B: m(a.B, b.B), A: 255}
}

// Aside shifts a chain of points by d to the right of its direction.
func Aside(pts []geom.Point, d float64) []geom.Point {
	if d == 0 || len(pts) < 2 {
		return pts
	}
	out := make([]geom.Point, len(pts))
	for i := range pts {
		a, b := pts[max(0, i-1)], pts[min(len(pts)-1, i+1)]
		u := r2.Unit(r2.Sub(b, a))
		out[i] = r2.Add(pts[i], r2.Scale(d, geom.Pt(-u.Y, u.X)))
	}
	return out
}
