package card

import (
	"math"

	"unthreaded/game/glyph"
	"unthreaded/game/scene"
	"unthreaded/game/sewing"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
	"unthreaded/path/route/steps"
)

// Heights and sizes in mm on the page of a stage.
const (
	thumbMM    = 30.0
	footMM     = 12.0
	bandMM     = 15.0
	captionMM  = 10.0
	mostBlocks = 6 // how many different blocks a page shows
)

// StagePage is the card of a stage: where it lies, how it is gone through, the five
// figures that count, and the moves of each different block once.
func StagePage(j sewing.Job, stage int) Page {
	pg := blank(j.W, j.H)
	w := j.Whole
	d := drawnOf(w, stage)
	y := stageHead(&pg, j, stage)
	bottom := pg.H - Margin - footMM
	blocks := programsOf(w, stage)
	height := 0.40 * (bottom - y)
	if w.Order.Stages[stage].Kind == order.Ditch {
		blocks, height = nil, bottom-y-2*bandMM-3*lineMM(bodySize)-placeLines*placeLine
	}
	y = stagePicture(&pg, j, stage, d, rect{Margin, y, pg.W - 2*Margin, height})
	y = marks(&pg, j, stage, d, y)
	y = stageFigures(&pg, j, stage, y+2)
	y = stagePlaces(&pg, j, stage, y)
	y = stageBobbins(&pg, j, stage, y)
	switch {
	case w.Order.Stages[stage].Line:
		lineDetail(&pg, j, d, stage, rect{Margin, y, pg.W - 2*Margin, bottom - y})
	case len(blocks) > 0:
		differentBlocks(&pg, j, d, blocks, turnOf(w, stage), rect{Margin, y, pg.W - 2*Margin, bottom - y})
	}
	foot(&pg, j)
	return pg
}

// stageHead writes what the stage is, and shows where it lies.
func stageHead(pg *Page, j sewing.Job, stage int) float64 {
	w, b := j.Whole, j.Book
	s := w.Order.Stages[stage]
	thumb := rect{pg.W - Margin - thumbMM, Margin, thumbMM, thumbMM}
	v := viewOf(0, edgeOf(w), thumb)
	if s.Kind == order.Ditch || s.Kind == order.Border {
		v.path(pg, 0.3, ink.Mute, edgeOf(w))
	}
	here := drawnOf(w, stage)
	for k, c := range here.cells {
		if c.ID != "" && c.Kind != quilt.BorderLine {
			fill(pg, v, c.Outline())
			continue
		}
		v.path(pg, 0.5, ink.Thread, here.moves[k][0].Path)
	}
	v.path(pg, 0.4, ink.Ink, edgeOf(w))
	c := column{page: pg, x: Margin, w: pg.W - 2*Margin - thumbMM - 6, y: Margin - 1, bottom: pg.H}
	c.write(sewing.StageName(b, s), titleSize, ink.Ink)
	c.write(b.Say("card.stage-of", w.Quilt.Name, stage+1, len(w.Order.Stages)), bodySize, ink.Mute)
	c.y += 1
	for _, text := range howSewn(b, s) {
		c.write(text, bodySize, ink.Ink)
	}
	tickBox(pg, b, w.Done(stage), b.Say("card.sewn-on"), bodySize, Margin, c.y+5)
	return max(c.y+9, Margin+thumbMM+2)
}

// fill tints a convex place of the top.
func fill(pg *Page, v topView, outline geom.Polyline) {
	px := outline.Map(v.onPage).Map(func(p geom.Point) geom.Point { return at(p.X, p.Y) })
	pg.add(scene.Item{Shape: scene.Fill, Colour: scene.Mix(ink.Paper, ink.Thread, 0.35), Points: px[:len(px)-1]})
}

// howSewn says how a stage is gone through.
func howSewn(b words.Book, s order.Stage) []string {
	var out []string
	if s.Turn {
		out = append(out, b.Say("card.turn-first"))
	}
	if s.Turned {
		out = append(out, b.Say("card.lies-turned"))
	}
	switch {
	case s.Kind == order.EdgeRow:
		return append(out, b.Say("card.how.edge-row"))
	case s.Line:
		return append(out, b.Say("card.how.line"))
	case s.Kind == order.Ditch || s.Kind == order.Border:
		return append(out, b.Say("card.how."+string(s.Kind)))
	}
	return append(out, b.Say("card.passes-of."+string(s.Passes)), b.Say("card.way-of."+string(s.Way)))
}

// stagePicture shows the stage as large as fits, a number for each of its places.
func stagePicture(pg *Page, j sewing.Job, stage int, d drawn, in rect) float64 {
	w := j.Whole
	s := w.Order.Stages[stage]
	rowLike := s.Kind != order.Ditch && s.Kind != order.Border
	const room = 6.0 // for arrows and the marks of start and end
	pts := placesOf(w, stage, d)
	v := viewOf(turnOf(w, stage), pts, rect{in.x + room, in.y + room, in.w - 2*room, in.h - 2*room})
	lo, hi := pts.Map(v.onPage).Bounds()
	v.move.Y -= lo.Y - in.y - room // begin at the top of what there is
	hi.Y -= lo.Y - in.y - room
	if !rowLike {
		for _, c := range w.Quilt.Cells() {
			v.path(pg, 0.15, ink.Line, c.Outline())
		}
	}
	for k := range d.moves {
		if d.cells[k].ID != "" {
			v.path(pg, 0.2, ink.Mute, d.cells[k].Outline())
		}
	}
	for k, moves := range d.moves {
		if len(d.comes[k].Path) > 1 && k > 0 {
			v.sewn(pg, 0.35, d.comes[k])
		}
		for _, m := range moves {
			v.sewn(pg, 0.35, m)
		}
	}
	size, below := numberSize(d), 0.0
	if rowLike && hi.Y-in.y-room < badgeRoom(size) {
		below = badgeRoom(size)/2 + 1.5 // too low to hold them: they stand under it
	}
	if !s.Line { // one place needs no number
		numbers(pg, v, d, size, below)
	}
	if rowLike {
		along(pg, v, s, d, in.y+room/2, hi.Y+room/2+2*below)
	}
	startAndEnd(pg, v, d)
	return hi.Y + room + 2*below
}

// numbers puts the number of each leg on its place, once for a place that is visited
// twice, as far as they have room, or so many mm below their places; seams have an arrow
// head as well.
func numbers(pg *Page, v topView, d drawn, size, below float64) {
	var taken []geom.Point
	seen := map[string]bool{}
	for k, c := range d.cells {
		if c.ID != "" && seen[c.ID] {
			continue
		}
		seen[c.ID] = true
		if c.ID == "" && k < 2 {
			v.arrow(pg, 3, 0.5, ink.Ink, d.moves[k][0].Path)
		}
		p := v.onPage(d.middle(k))
		if below > 0 {
			_, hi := c.Outline().Map(v.onPage).Bounds()
			p.Y = hi.Y + below
		}
		free := true
		for _, q := range taken {
			free = free && geom.Dist(p, q) > badgeRoom(size)
		}
		if !free && c.ID != "" {
			continue
		}
		taken = append(taken, p)
		badge(pg, k+1, size, p, false)
	}
}

// numberSize is the size of the numbers in pixels: smaller where there are many.
func numberSize(d drawn) float64 {
	if len(d.cells) > 12 {
		return smallSize
	}
	return headSize
}

// along draws the way through a row over it, and the way home under it.
func along(pg *Page, v topView, s order.Stage, d drawn, over, under float64) {
	for pass, y := range []float64{over, under} {
		var ends []geom.Point
		for k, l := range s.Legs {
			if l.Pass == pass && d.cells[k].ID != "" {
				ends = append(ends, v.onPage(d.middle(k)))
			}
		}
		if len(ends) < 2 {
			continue
		}
		a, b := geom.Pt(ends[0].X, y), geom.Pt(ends[len(ends)-1].X, y)
		pg.rule(0.4, ink.Ink, a, b)
		head(pg, 3, ink.Ink, b, geom.Pt(math.Copysign(1, b.X-a.X), 0))
	}
}

// startAndEnd marks where the needle begins, with a disc, and where it leaves, with a
// ring.
func startAndEnd(pg *Page, v topView, d drawn) {
	last := d.moves[len(d.moves)-1]
	first := v.onPage(d.moves[0][0].Path[0])
	path := last[len(last)-1].Path
	end := v.onPage(path[len(path)-1])
	if d.cells[0].ID == "" {
		return // the numbers stand there
	}
	pg.rule(0.5, ink.Ink, geom.Arc(end, 1.7, 0, 2*math.Pi)...)
	pg.rule(2.4, ink.Ink, first)
}

// stageFigures writes the five figures that count, one beside the other.
func stageFigures(pg *Page, j sewing.Job, stage int, y float64) float64 {
	p := j.Whole.Sum.Stages[stage]
	facts := sewing.Figures(p)
	facts = append(facts[:1:1], facts[2:]...) // five are enough: without the stitches
	// The time takes most of the room.
	shares := []float64{0.16, 0.30, 0.24, 0.17, 0.13}
	x := Margin
	for i, f := range facts {
		w := shares[i] * (pg.W - 2*Margin)
		pg.text(fitted(j.Book.Amount(f.Value), headSize, w-2), headSize, scene.Left, ink.Ink, x, y+4)
		pg.text(fitted(j.Book.Write(f.Name), smallSize, w-2), smallSize, scene.Left, ink.Mute, x, y+9.5)
		x += w
	}
	return y + bandMM
}

// stageBobbins writes where in the stage the bobbin is changed, with boxes to tick.
func stageBobbins(pg *Page, j sewing.Job, stage int, y float64) float64 {
	w, x := j.Whole, Margin
	const most = 2 // lines
	lines := 0
	for n, i := range bobbinsOf(w, stage) {
		text := w.BobbinText(j.Book, i)
		wide := 6 + glyph.Width(text, bodySize)/Px + 6
		if x > Margin && x+wide > pg.W-Margin {
			x, lines = Margin, lines+1
		}
		if lines == most {
			pg.text(j.Book.Say("card.bobbins-more", len(bobbinsOf(w, stage))-n), bodySize, scene.Left, ink.Mute, x, y+10)
			return y + 14
		}
		if x == Margin && n > 0 {
			y += 7
		}
		tickBox(pg, j.Book, w.Sewn.Ticked(sewing.BobbinTick(i)), text, bodySize, x, y+3)
		x += wide
	}
	if x > Margin {
		y += 7
	}
	return y
}

// boxMM is the side of a box to tick.
const boxMM = 4.0

// tickBox is a box to tick with its text, its middle height at y mm; ticked where there
// is a day, which is written behind.
func tickBox(pg *Page, b words.Book, day, text string, size, x, y float64) {
	pg.box(0.3, ink.Ink, x, y-boxMM/2, boxMM, boxMM)
	if day != "" {
		tickMark(pg, x, y)
		text = b.Say("card.ticked", text, sewing.DayText(b, day))
	}
	pg.text(text, size, scene.Left, ink.Ink, x+boxMM+2, y)
}

// marks explains what is drawn beside the lines that are sewn, and returns where that
// ends.
func marks(pg *Page, j sewing.Job, stage int, d drawn, y float64) float64 {
	kinds := map[steps.MoveKind]bool{}
	for k, moves := range d.moves {
		for _, m := range moves {
			kinds[m.Kind] = true
		}
		if k > 0 && len(d.comes[k].Path) > 1 {
			kinds[d.comes[k].Kind] = true
		}
	}
	x, mid := Margin, y+2
	entry := func(text string, wide float64) {
		pg.text(text, smallSize, scene.Left, ink.Mute, x+wide+2, mid)
		x += wide + 7 + glyph.Width(text, smallSize)/Px
	}
	if d.cells[0].ID != "" {
		pg.rule(2.4, ink.Ink, geom.Pt(x+1.5, mid))
		entry(j.Book.Say("card.mark.begin"), 3)
		pg.rule(0.5, ink.Ink, geom.Arc(geom.Pt(x+1.7, mid), 1.7, 0, 2*math.Pi)...)
		entry(j.Book.Say("card.mark.end"), 3.4)
	}
	paper := topView{scale: 1}
	for _, m := range []struct {
		kind steps.MoveKind
		text string
	}{{steps.AgainMove, j.Book.Say("card.line.again")}, {steps.DitchMove, j.Book.Say("card.line.hidden")}, {steps.StopMove, j.Book.Say("card.mark.stop")}} {
		if kinds[m.kind] {
			paper.sewn(pg, 0.45, steps.Move{Kind: m.kind, Path: geom.Polyline{geom.Pt(x, mid), geom.Pt(x+9, mid)}})
			entry(m.text, 9)
		}
	}
	return y + 5
}

// foot writes the cautions and that the manual has the last word.
func foot(pg *Page, j sewing.Job) {
	c := column{page: pg, x: Margin, w: pg.W - 2*Margin, y: pg.H - Margin - footMM + 3, bottom: pg.H - Margin + 2}
	c.write(j.Book.Say("card.foot")+" "+j.Book.Say("card.manual"), smallSize, ink.Mute)
}
