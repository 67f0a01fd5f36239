package stage

import (
	"unthreaded/game/look"
	"unthreaded/game/replay"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
)

// veiled draws a trace as it was drawn, as ink: without stitches, which would tell how
// even it was before she has said so.
func veiled(sh *replay.Sheet, v screen.View, pal look.Palette) []scene.Item {
	samples := sh.Rec.Trace().Samples
	pts := make([]geom.Point, len(samples))
	for i, s := range samples {
		pts[i] = v.ToScreen(s.P)
	}
	return []scene.Item{scene.Line(scene.InkWidth, pal.Thread, pts...)}
}
