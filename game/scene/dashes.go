package scene

import (
	"image/color"

	"unthreaded/path/geom"
)

// Dashes cuts the chain of points into strokes of the given length with the given
// space between them, in pixels along the chain. A dash that goes round a bend
// keeps the bend.
func Dashes(pts []geom.Point, length, space, width float64, c color.NRGBA) []Item {
	var items []Item
	var dash []geom.Point
	drawing, left := true, length
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		if drawing && dash == nil {
			dash = []geom.Point{a}
		}
		rest := geom.Dist(a, b)
		for rest > left {
			a = geom.Lerp(a, b, left/rest)
			rest -= left
			if drawing {
				items = append(items, Line(width, c, append(dash, a)...))
				dash, left = nil, space
			} else {
				dash, left = []geom.Point{a}, length
			}
			drawing = !drawing
		}
		left -= rest
		if drawing {
			dash = append(dash, b)
		}
	}
	if len(dash) > 1 {
		items = append(items, Line(width, c, dash...))
	}
	return items
}
