package machine

import (
	"math"

	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/path/geom"
)

// proofItems show the first page of a card as it will be printed, or while that is made
// the empty sheet.
func (r Room) proofItems(pal look.Palette) []scene.Item {
	w, h := r.proofBox()
	x, y := math.Round((r.Screen.W-w)/2), math.Round((r.Screen.H-h)/2)
	paper := look.Of(look.Light)
	white := paper.Paper
	white.R, white.G, white.B = 255, 255, 255
	items := []scene.Item{scene.Rect(x+3, y+4, w, h, scene.Mix(pal.Cloth, pal.Ink, 0.25)), scene.Rect(x, y, w, h, white)}
	if img := r.proofSeen(); img != nil {
		items = append(items, scene.Item{Shape: scene.Picture, Image: img, Width: 1, Points: []geom.Point{geom.Pt(x, y), geom.Pt(x+w, y+h)}})
	} else {
		items = append(items, scene.Text(r.Book().Say("machine.seen.laying"), geom.Pt(x+w/2, y+h/2), paper.Mute))
	}
	return append(items, scene.Line(1, pal.Mute, geom.Pt(x, y), geom.Pt(x+w, y), geom.Pt(x+w, y+h), geom.Pt(x, y+h), geom.Pt(x, y)))
}
