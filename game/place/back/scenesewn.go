package back

import (
	"math"
	"slices"

	"unthreaded/game/look"
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/path/geom"
)

// Sizes in CSS pixels of a piece on the cloth.
const (
	pieceHigh  = 98.0
	pieceTop   = 66.0
	pieceSide  = 16.0
	pieceName  = 82.0 // before each row of stitches
	pieceCount = 92.0 // behind it
	pieceWide  = 640.0
	sewnWidth  = 5.0
	sewnSpace  = 4.8 // left free at each end of a stitch
)

// sewnPieces are the pieces noted, the newest first: for each an inch, or 20 mm, of the
// stitches as rehearsed in chalk and as sewn in thread, so large that they can be counted.
func (r Room) sewnPieces(pal look.Palette) []scene.Item {
	pieces := slices.DeleteFunc(slices.Clone(r.Sewn.Pieces), func(s weeks.Sewn) bool { return !s.Believed() })
	w, h := r.Screen.W, r.Screen.H-r.Screen.Strip
	if len(pieces) == 0 {
		return r.spoken(pal, r.Book().Say("back.scene.sewn"))
	}
	b := r.Book()
	inch := span{mm: 20, x: pieceSide + pieceName, book: b}
	if b.Inches {
		inch.mm = screen.MMPerInch
	}
	title := b.Say("back.scene.enlarged", b.Inches)
	inch.wide = math.Max(60, math.Min(pieceWide, w-2*pieceSide-pieceName-pieceCount))
	items := []scene.Item{scene.TextLeft(title, pieceSide, 28, 16, pal)}
	for i, p := range pieces[:min(len(pieces), max(1, int((h-pieceTop+30)/pieceHigh)))] {
		y := pieceTop + pieceHigh*float64(i)
		text := b.Say("back.scene.piece", when(p, r.Weeks.Zone()), p.Name != "", p.Name)
		items = append(items, scene.TextLeft(text, pieceSide, y, scene.Fitting(text, scene.LabelSize, w-2*pieceSide), pal))
		items = append(items, inch.row(b.Say("back.scene.rehearsed", p.Traces), p.RehearsedMM, y+28, chalkStitch, pal)...)
		items = append(items, inch.row(b.Say("back.scene.sewn-row"), p.StitchMM(), y+56, threadStitch, pal)...)
	}
	return items
}

// span is a length of mm that is drawn wide pixels wide from x on.
type span struct {
	mm, x, wide float64
	book        words.Book
}

// row is a row of stitches of a length in mm along the span at the height y, with what it
// is before it and their number behind it; the last is cut where that ends.
func (r span) row(name string, mm, y float64, stitch func(a, b geom.Point, pal look.Palette) []scene.Item, pal look.Palette) []scene.Item {
	end := r.x + r.wide
	items := []scene.Item{
		scene.TextLeft(name, pieceSide, y, scene.LabelSize, pal),
		scene.TextLeft(r.book.Amount(words.StitchMM(mm)), end+10, y, scene.LabelSize, pal),
	}
	for _, x := range []float64{r.x, end} {
		items = append(items, scene.Line(1.2, pal.Mute, geom.Pt(x, y-9), geom.Pt(x, y+9)))
	}
	step := mm * r.wide / r.mm
	for k := 0; float64(k)*step < r.wide-1; k++ {
		a := geom.Pt(r.x+float64(k)*step, y)
		items = append(items, stitch(a, geom.Pt(math.Min(a.X+step, end), y), pal)...)
	}
	return items
}

// chalkStitch is a stitch that was rehearsed: a hollow one.
func chalkStitch(a, b geom.Point, pal look.Palette) []scene.Item {
	a, b = scene.DrawIn(a, b, sewnSpace)
	return []scene.Item{scene.Line(sewnWidth+1, pal.Chalk, a, b), scene.Line(sewnWidth-2, pal.Cloth, a, b)}
}

// threadStitch is one that was sewn.
func threadStitch(a, b geom.Point, pal look.Palette) []scene.Item {
	a, b = scene.DrawIn(a, b, sewnSpace)
	return []scene.Item{scene.Line(sewnWidth+1, pal.Thread, a, b)}
}
