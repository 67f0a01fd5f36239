package scene

import (
	"fmt"
	"math"
	"time"

	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/game/weeks"
	"unthreaded/path/geom"
)

// Sizes in CSS pixels of a piece on the cloth.
const (
	pieceRow  = 84.0
	pieceTop  = 64.0
	pieceSide = 24.0
)

// sewnPieces are the pieces noted, the newest first: for each a row of stitches as rehearsed
// in chalk and one as sewn in thread, at true scale to each other.
func sewnPieces(m game.Model, pal look.Palette) []Item {
	pieces := m.Back.Sewn.Pieces
	w, h := m.Screen.W, m.Screen.H-m.Screen.Strip
	if len(pieces) == 0 {
		return spoken(m, pal, "What you sewed will lie here beside what you rehearsed.")
	}
	pieces = pieces[:min(len(pieces), max(1, int((h-pieceTop)/pieceRow)))]
	longest := 0.0
	for _, p := range pieces {
		longest = math.Max(longest, math.Max(p.StitchMM(), p.RehearsedMM))
	}
	// Twice true size, or smaller, so that eight stitches fit.
	scale := math.Min(2*m.Screen.TrueSize(), (w-2*pieceSide)/(8*longest))
	items := []Item{left("Chalk: as rehearsed. Thread: as sewn.", pieceSide, 28, 16, pal)}
	for i, p := range pieces {
		items = append(items, sewnPiece(p, pieceTop+pieceRow*float64(i), w-pieceSide, scale, pal)...)
	}
	return items
}

// sewnPiece is one piece at the height y, its stitches going to the right edge.
func sewnPiece(p weeks.Sewn, y, edge, scale float64, pal look.Palette) []Item {
	when := p.Day
	if t, err := time.Parse(time.DateOnly, p.Day); err == nil {
		when = t.Format("2 Jan 2006")
	}
	it := label(fmt.Sprintf("%s: sewn stitches %s as long as rehearsed", when, percentText(p.StitchMM()/p.RehearsedMM)), geom.Pt(pieceSide, y), pal.Mute)
	it.Align = Left
	items := []Item{it}
	for k, mm := range []float64{p.RehearsedMM, p.StitchMM()} {
		ink := pal.Chalk
		if k == 1 {
			ink = pal.Thread
		}
		at := y + 22 + 20*float64(k)
		for x := pieceSide; x+mm*scale <= edge; x += mm * scale {
			a, b := drawIn(geom.Pt(x, at), geom.Pt(x+mm*scale, at), holeSpace)
			items = append(items, line(stitchWidth, ink, a, b))
		}
	}
	return items
}
