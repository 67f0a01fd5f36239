package scene

import (
	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/path/geom"
)

// veiled draws a trace as it was drawn, as ink: without stitches, which would tell how
// even it was before she has said so.
func veiled(sh *game.Sheet, v game.View, pal look.Palette) []Item {
	samples := sh.Rec.Trace().Samples
	pts := make([]geom.Point, len(samples))
	for i, s := range samples {
		pts[i] = v.ToScreen(s.P)
	}
	return []Item{line(inkWidth, pal.Thread, pts...)}
}
