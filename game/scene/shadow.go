package scene

import (
	"unthreaded/game/look"
	"unthreaded/path/geom"
)

// shadowReach is how far in pixels the soft shadow of a quilt on the table reaches,
// shadowDark its darkness at the edge.
const shadowReach, shadowDark = 12, 0.14

// Shadow is the soft shadow that a quilt with this outline throws on the table, in steps of
// two pixels that grow darker towards it; the quilt itself is drawn over it.
func Shadow(outline []geom.Point, pal look.Palette) []Item {
	below := moved(shadowReach/3, append([]geom.Point(nil), outline...)...)
	var items []Item
	for d := shadowReach; d > 0; d -= 2 {
		near := 1 - float64(d)/(shadowReach+2)
		items = append(items, Line(float64(2*d), Mix(pal.Cloth, black, shadowDark*near*near), below...))
	}
	return items
}
