package card

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/glyph"
	"unthreaded/game/plan"
	"unthreaded/game/scene"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

// whole returns the pages of a card of the whole quilt.
func whole(j Job, what Kind) ([]Page, error) {
	if len(j.Whole.Order.Stages) == 0 {
		return nil, fmt.Errorf("no quilt is planned")
	}
	if what == StageCard {
		if !j.Whole.Has(j.Stage) {
			return nil, fmt.Errorf("the order has no stage %d", j.Stage+1)
		}
		return []Page{StagePage(j, j.Stage)}, nil
	}
	out := JobPages(j)
	if what == AllCards {
		for i := range j.Whole.Order.Stages {
			out = append(out, StagePage(j, i))
		}
	}
	return out, nil
}

// JobPages is the card of the whole job: the quilt with its stages numbered, the totals,
// what has to be at hand, the stages and the changes of the bobbin with boxes to tick.
// It is one page but for quilts of very many rows: the picture is as large as that
// leaves room for.
func JobPages(j Job) []Page {
	left := 0.56 * (j.W - 2*Margin)
	in := rect{Margin, Margin + titleRoom, left, 0}
	var out []Page
	for _, try := range []struct{ share, line float64 }{{0.46, 6}, {0.42, 6}, {0.38, 5.6}, {0.34, 5.4}, {0.30, 5.2}, {0.26, 4.8}, {0.26, 4.5}} {
		in.h = try.share * j.H
		if out = jobPages(j, in, try.line); len(out) == 1 {
			break
		}
	}
	if len(out) > 1 { // then there is room
		in.h = 0.38 * j.H
		out = jobPages(j, in, 5.6)
	}
	topPicture(&out[0], j, in)
	return out
}

// jobPages lays the card out but for the picture, which has its place, with lines of so
// many mm.
func jobPages(j Job, picture rect, line float64) []Page {
	w, b := j.Whole, j.Book
	pg := blank(j.W, j.H)
	size := w.Quilt.Size()
	kind := b.Say("card.title", b.Say("card.job"), words.LengthMM(size.W), words.LengthMM(size.H))
	room := pg.W - 2*Margin - glyph.Width(kind, bodySize)/Px - 6
	pg.text(fitted(w.Quilt.Name, titleSize, room), titleSize, scene.Left, ink.Ink, Margin, Margin+5)
	pg.text(kind, bodySize, scene.Right, ink.Mute, pg.W-Margin, Margin+6)
	x := picture.x + picture.w + 6
	c := column{page: &pg, x: x, w: pg.W - Margin - x, y: picture.y - 2, bottom: pg.H - Margin}
	totals(&c, j)
	_, high := wholeView(w, picture)
	return tabled(&pg, j, max(picture.y+high, c.y)+1, line)
}

// totals writes what all adds up to, what is left, and what has to be at hand.
func totals(c *column, j Job) {
	w, b := j.Whole, j.Book
	c.head(b.Say("card.in-all"))
	for _, f := range append(Figures(w.Sum.All), Evenings(w.Sum.All)) {
		c.figure(b.Write(f.Name), b.Amount(f.Value))
	}
	if l := w.Left; l != nil {
		c.head(b.Say("card.left", l.Done, l.Of))
		for _, f := range Remaining(*l) {
			c.figure(b.Write(f.Name), b.Amount(f.Value))
		}
	}
	c.head(b.Say("card.at-hand"))
	for _, f := range AtHand(w.Sum) {
		c.figure(b.Write(f.Name), b.Amount(f.Value))
	}
}

// Remaining is what is left in time and thread.
func Remaining(l order.Left) []plan.Fact {
	all := Figures(l.Job.All)
	return []plan.Fact{all[2], all[3]}
}

// Evenings is how many evenings a job takes, whole ones.
func Evenings(p machine.JobPart) plan.Fact {
	return plan.Fact{
		Name:  words.Of("card.sum.evenings"),
		Value: words.Span{Low: int(math.Ceil(p.Evenings.Low)), High: int(math.Ceil(p.Evenings.High))},
	}
}

// wholeView shows the whole top with room round it for numbers, at the upper end of a
// part of a page; high is what it takes of that.
func wholeView(w Whole, in rect) (v topView, high float64) {
	const room = 7.0
	v = viewOf(0, w.edge(), rect{in.x + room, in.y + room, in.w - 2*room, in.h - 2*room})
	lo, hi := w.edge().Map(v.onPage).Bounds()
	v.move.Y -= lo.Y - in.y - room
	return v, hi.Y - lo.Y + 2*room
}

// topPicture draws the quilt with the numbers of its stages round it.
func topPicture(pg *Page, j Job, in rect) {
	w := j.Whole
	v, _ := wholeView(w, in)
	for _, c := range w.Quilt.Cells() {
		v.path(pg, 0.12, ink.Mute, c.Outline())
	}
	for i, s := range w.Order.Stages {
		for _, m := range w.Order.Moves(i) {
			switch {
			case m.Come:
			case s.Kind == order.Ditch:
				v.path(pg, 0.5, ink.Short, m.Path)
			default:
				v.path(pg, 0.18, ink.Chalk, m.Path)
			}
		}
	}
	v.path(pg, 0.4, ink.Ink, w.edge())
	w.stageNumbers(pg, v)
}

// stageNumbers puts the numbers of the stages at the edge of the quilt, where a row
// begins or a seam runs out; those that have no room there farther out.
func (w Whole) stageNumbers(pg *Page, v topView) {
	var taken []geom.Point
	for i := range w.Order.Stages {
		p, out := w.edgePlace(i, v)
		for range 3 {
			free := true
			for _, q := range taken {
				free = free && geom.Dist(p, q) > badgeRoom(smallSize)*0.8
			}
			if free {
				break
			}
			p = r2.Add(p, r2.Scale(badgeRoom(smallSize), out))
		}
		taken = append(taken, p)
		badge(pg, i+1, smallSize, p, w.Done(i) != "")
	}
}

// edgePlace returns where on the page the number of a stage stands, and the direction
// away from the quilt.
func (w Whole) edgePlace(stage int, v topView) (p, out geom.Point) {
	const off = 3.4
	s := w.Order.Stages[stage]
	lo, hi := w.edge().Map(v.onPage).Bounds()
	onPoint := w.Quilt.Setting == quilt.OnPoint && s.Kind != order.EdgeRow
	switch s.Kind {
	case order.Border:
		return geom.Pt((lo.X+hi.X)/2+8*float64(s.Number-1), lo.Y-off), geom.Pt(1, 0)
	case order.Ditch:
		path := w.Order.Programs[s.Legs[0].Program].Paths[0]
		a, b := v.onPage(s.Legs[0].Where.Apply(path[0])), v.onPage(s.Legs[0].Where.Apply(path[len(path)-1]))
		if s.Number == 2 && !onPoint {
			return geom.Pt(a.X, hi.Y+off), geom.Pt(0, 1)
		}
		if a.X < b.X {
			a = b
		}
		return geom.Pt(hi.X+off, a.Y), geom.Pt(1, 0)
	}
	q := v.onPage(w.rowEnd(stage))
	if s.Kind == order.EdgeRow && s.FarEnd { // rows go to and fro: each has its number where it begins
		return geom.Pt(hi.X+off, q.Y), geom.Pt(1, 0)
	}
	if onPoint && q.X-lo.X > hi.Y-q.Y { // the row begins at the lower edge
		return geom.Pt(q.X, hi.Y+off), geom.Pt(0, 1)
	}
	return geom.Pt(lo.X-off, q.Y), geom.Pt(-1, 0)
}

// rowEnd is the middle of the place of a row that lies farthest to the left, on point
// to the lower left.
func (w Whole) rowEnd(stage int) geom.Point {
	cells := w.cells()
	best, mid := math.Inf(1), geom.Point{}
	for _, l := range w.Order.Stages[stage].Legs {
		lo, hi := cells[l.Cell].Outline().Bounds()
		m := geom.Lerp(lo, hi, 0.5)
		along := m.X
		if w.Quilt.Setting == quilt.OnPoint {
			along -= m.Y
		}
		if along < best {
			best, mid = along, m
		}
	}
	return mid
}
