package scene

import (
	"math"

	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/path/geom"
)

// proofItems show the first page of a card as it will be printed, or while that is made
// the empty sheet.
func proofItems(m game.Model, pal look.Palette) []Item {
	w, h := m.ProofBox()
	x, y := math.Round((m.Screen.W-w)/2), math.Round((m.Screen.H-h)/2)
	paper := look.Of(look.Light)
	white := paper.Paper
	white.R, white.G, white.B = 255, 255, 255
	items := []Item{rect(x+3, y+4, w, h, mix(pal.Cloth, pal.Ink, 0.25)), rect(x, y, w, h, white)}
	if img := m.ProofSeen(); img != nil {
		items = append(items, Item{Shape: Picture, Image: img, Width: 1, Points: []geom.Point{geom.Pt(x, y), geom.Pt(x+w, y+h)}})
	} else {
		items = append(items, label("Laying out the page", geom.Pt(x+w/2, y+h/2), paper.Mute))
	}
	return append(items, line(1, pal.Mute, geom.Pt(x, y), geom.Pt(x+w, y), geom.Pt(x+w, y+h), geom.Pt(x, y+h), geom.Pt(x, y)))
}
