package card

import (
	"math"
	"strconv"

	"unthreaded/game/glyph"
	"unthreaded/game/scene"
	"unthreaded/game/sewing"
	"unthreaded/path/geom"
	"unthreaded/path/quilt/order"
)

// Boxes for the places of a stage: the height of a line of them, and how many lines a page
// has room for.
const (
	placeLine  = 6.0
	placeLines = 3
)

// stagePlaces writes a box to tick for each place of a stage, or each seam, by the number
// that it has in the picture; a stage of one place has the box of the stage. Of more than
// fit into the lines every second, third, ... place has one, and the last.
func stagePlaces(pg *Page, j sewing.Job, stage int, y float64) float64 {
	w := j.Whole
	legs := w.Order.Stages[stage].Legs
	if len(legs) < 2 {
		return y
	}
	label := j.Book.Say("card.places")
	pg.text(label, smallSize, scene.Left, ink.Mute, Margin, y+3)
	left := Margin + glyph.Width(label, smallSize)/Px + 4
	slot := boxMM + 2.5 + glyph.Width(strconv.Itoa(len(legs)), smallSize)/Px + 2.5
	cols := int((pg.W - Margin - left) / slot)
	step := int(math.Ceil(float64(len(legs)) / float64(placeLines*cols)))
	whole := w.Sewn.Ticked(order.Tick{Kind: order.StageTick, Stage: w.Order.Stages[stage].ID}) != ""
	n := 0
	for k := range legs {
		if (k+1)%step != 0 && k != len(legs)-1 {
			continue
		}
		x, at := left+slot*float64(n%cols), y+3+placeLine*float64(n/cols)
		pg.box(0.3, ink.Ink, x, at-boxMM/2, boxMM, boxMM)
		if whole || w.Sewn.Ticked(w.Order.TickOf(stage, k)) != "" {
			tickMark(pg, x, at)
		}
		pg.text(strconv.Itoa(k+1), smallSize, scene.Left, ink.Ink, x+boxMM+1.2, at)
		n++
	}
	return y + placeLine*float64((n+cols-1)/cols) + 1
}

// tickMark is the mark in a box that begins at x, its middle at y mm.
func tickMark(pg *Page, x, y float64) {
	pg.rule(0.6, ink.Thread, geom.Pt(x+0.7, y), geom.Pt(x+1.6, y+1.2), geom.Pt(x+3.4, y-1.4))
}
