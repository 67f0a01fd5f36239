package card

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

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

// blockPart is a different block with the part of the page that it has.
type blockPart struct {
	used
	turn  float64
	level bool // laid level though it stands upright on the quilt
	in    rect
}

// differentBlocks shows the moves of each different block of the stage once, as large
// as all have room.
func differentBlocks(pg *Page, j sewing.Job, d drawn, blocks []used, turn float64, in rect) {
	c := column{page: pg, x: in.x, w: in.w, y: in.y, bottom: in.y + in.h}
	c.head(j.Book.Say("card.moves", len(blocks)))
	more := len(blocks) - mostBlocks
	if more > 0 {
		blocks = blocks[:mostBlocks]
		c.write(j.Book.Say("card.blocks-more", more), smallSize, ink.Mute)
	}
	in.h, in.y = in.y+in.h-c.y-1, c.y+1
	for _, p := range parted(d, blocks, turn, in) {
		blockMoves(pg, j, d, p)
	}
}

// Strips are laid level, so that they are large: those longer than so many times their
// breadth take half of the page's width, the longest all of it.
const (
	stripFrom = 3.0
	longFrom  = 8.0
)

// parted shares the room out: long strips over the whole width and short ones two
// beside each other come first, blocks in as many columns as make them largest.
func parted(d drawn, blocks []used, turn float64, in rect) []blockPart {
	var long, strips, rest, out []blockPart
	size := func(p blockPart) (w, h float64) {
		lo, hi := d.cells[p.legs[0]].Outline().Map(topView{turn: p.turn, scale: 1}.onPage).Bounds()
		return hi.X - lo.X, hi.Y - lo.Y
	}
	for _, u := range blocks {
		p := blockPart{used: u, turn: turn}
		w, h := size(p)
		if h > stripFrom*w {
			p.turn, p.level = turn-math.Pi/2, true
			w, h = h, w
		}
		switch {
		case w > longFrom*h:
			long = append(long, p)
		case w > stripFrom*h:
			strips = append(strips, p)
		default:
			rest = append(rest, p)
		}
	}
	row := func(list []blockPart, cols int) {
		for i, p := range list {
			w, h := size(p)
			wide := in.w / float64(cols)
			p.in = rect{in.x + float64(i%cols)*wide, in.y, wide, min(28, h/w*(wide-2*blockEdge)) + 2*blockEdge + captionMM}
			out = append(out, p)
			if i%cols == cols-1 || i == len(list)-1 {
				in.y, in.h = in.y+p.in.h, in.h-p.in.h
			}
		}
	}
	row(long, 1)
	row(strips, 2)
	if len(rest) == 0 {
		return out
	}
	best, cols := 0.0, 1
	for n := 1; n <= min(4, len(rest)); n++ {
		least := math.Inf(1)
		for _, p := range rest {
			w, h := size(p)
			rows := (len(rest) + n - 1) / n
			least = min(least, (in.w/float64(n)-2*blockEdge)/w, (in.h/float64(rows)-2*blockEdge-captionMM)/h)
		}
		if least > best {
			best, cols = least, n
		}
	}
	rows := (len(rest) + cols - 1) / cols
	w, h := in.w/float64(cols), in.h/float64(rows)
	for i, p := range rest {
		p.in = rect{in.x + float64(i%cols)*w, in.y + float64(i/cols)*h, w, h}
		out = append(out, p)
	}
	return out
}

// blockEdge is the room in mm round a block's picture, for numbers at its edge.
const blockEdge = 5.5

// blockMoves draws the moves of a program where it is sewn first, numbered, and says
// in which places it is sewn.
func blockMoves(pg *Page, j sewing.Job, d drawn, p blockPart) {
	leg, moves := p.legs[0], d.moves[p.legs[0]]
	room := rect{p.in.x + blockEdge, p.in.y + blockEdge, max(1, p.in.w-2*blockEdge), max(1, p.in.h-2*blockEdge-captionMM)}
	v := viewOf(p.turn, d.cells[leg].Outline(), room)
	v.path(pg, 0.2, ink.Mute, d.cells[leg].Outline())
	width := max(0.35, min(0.7, v.scale*1.2))
	mm := 0.0
	for _, m := range moves {
		v.sewn(pg, width, m)
		mm += m.Length
	}
	moveNumbers(pg, v, moves)
	end := moves[len(moves)-1].Path
	pg.rule(0.5, ink.Ink, geom.Arc(v.onPage(end[len(end)-1]), 2, 0, 2*math.Pi)...)
	pg.rule(2.8, ink.Ink, v.onPage(moves[0].Path[0]))
	text := j.Book.Say("card.block-moves", legList(j.Book, p.legs), len(p.legs), len(moves), words.LengthMM(mm))
	if p.level {
		text = j.Book.Say("card.level", text)
	}
	lo, hi := d.cells[leg].Outline().Map(v.onPage).Bounds()
	c := column{page: pg, x: max(p.in.x, lo.X-4), y: hi.Y + blockEdge, bottom: p.in.y + p.in.h + 1}
	c.w = p.in.x + p.in.w - c.x
	c.write(text, smallSize, ink.Ink)
}

// moveNumbers numbers the moves as far as the numbers have room, each with an arrow
// head; a single move has no number.
func moveNumbers(pg *Page, v topView, moves []steps.Move) {
	last := moves[len(moves)-1].Path
	taken := []geom.Point{v.onPage(moves[0].Path[0]), v.onPage(last[len(last)-1])}
	free := func(p geom.Point, room float64) bool {
		for _, q := range taken {
			if geom.Dist(p, q) < room {
				return false
			}
		}
		return true
	}
	for i, m := range moves {
		l, err := geom.NewLine(m.Path.Map(v.onPage))
		if err != nil || m.Kind == steps.StopMove {
			continue
		}
		tip := l.At(0.62 * l.Length())
		for _, side := range []float64{3.2, -3.2} {
			s := 0.4 * l.Length()
			u := l.Tangent(s)
			p := r2.Add(l.At(s), r2.Scale(side, geom.Pt(-u.Y, u.X)))
			if !free(p, badgeRoom(smallSize)) || !free(tip, 3.2) {
				continue
			}
			taken = append(taken, p)
			if len(moves) > 1 {
				badge(pg, i+1, smallSize, p, false)
			}
			if l.Length() > 4 {
				taken = append(taken, tip)
				v.arrow(pg, 3, 0.62, ink.Thread, m.Path)
			}
			break
		}
	}
}

// legList names the legs: "1, 3 to 5".
func legList(b words.Book, legs []int) string {
	var out words.List
	for i := 0; i < len(legs); {
		k := i
		for k+1 < len(legs) && legs[k+1] == legs[k]+1 {
			k++
		}
		if k > i+1 {
			out = append(out, words.Span{Low: legs[i] + 1, High: legs[k] + 1})
			i = k + 1
			continue
		}
		out, i = append(out, legs[i]+1), i+1
	}
	return b.Amount(out)
}

// foot writes the cautions and that the manual has the last word.
func foot(pg *Page, j sewing.Job) {
	c := column{page: pg, x: Margin, w: pg.W - 2*Margin, y: pg.H - Margin - footMM + 3, bottom: pg.H - Margin + 2}
	c.write(j.Book.Say("card.foot")+" "+j.Book.Say("card.manual"), smallSize, ink.Mute)
}
