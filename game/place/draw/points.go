package draw

import (
	"image/color"

	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
)

// crowded in pixels is how near the points of a line lie where not all are shown:
// they would cover the line. Shown larger, they come apart.
const crowded = 9.0

// points are squares for corners and rings for smooth points, the one chosen full;
// its handles are small dots on thin stalks.
func points(l quilt.Line, node int, v screen.View, pal look.Palette) []scene.Item {
	var items []scene.Item
	last := 0
	for k := 0; k <= l.Path.Pieces(); k++ {
		at := v.ToScreen(l.Path[3*k])
		if k > 0 && k != node && geom.Dist(at, v.ToScreen(l.Path[3*last])) < crowded {
			continue
		}
		last = k
		if k == node {
			items = append(items, handles(l.Path, k, v, pal)...)
		}
		joint, err := sketch.JointAt(l.Path, k)
		switch {
		case err == nil && joint == sketch.Smooth:
			items = append(items, scene.Line(12, pal.Thread, at), scene.Line(8, pal.Cloth, at))
		default:
			items = append(items, square(at, 6, pal.Thread), square(at, 4, pal.Cloth))
		}
		if k == node {
			items = append(items, scene.Line(8, pal.Thread, at))
		}
	}
	return items
}

func handles(s geom.Spline, k int, v screen.View, pal look.Palette) []scene.Item {
	var items []scene.Item
	at := v.ToScreen(s[3*k])
	for _, piece := range []int{k - 1, k} {
		if piece < 0 || piece >= s.Pieces() || s.IsStraight(piece, 0.01) {
			continue
		}
		i := 3*k - 1
		if piece == k {
			i = 3*k + 1
		}
		end := v.ToScreen(s[i])
		items = append(items, scene.Line(1.4, pal.Thread, at, end), scene.Line(11, pal.Cloth, end), scene.Line(8, pal.Thread, end))
	}
	return items
}

func square(at geom.Point, half float64, c color.NRGBA) scene.Item {
	return scene.Rect(at.X-half, at.Y-half, 2*half, 2*half, c)
}
