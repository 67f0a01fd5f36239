package card

import (
	"fmt"

	"unthreaded/game/glyph"
	"unthreaded/game/scene"
	"unthreaded/game/sewing"
	"unthreaded/game/words"
	"unthreaded/path/quilt/order"
)

// whole returns the pages of a card of the whole quilt.
func whole(j sewing.Job, what sewing.Kind) ([]Page, error) {
	if len(j.Whole.Order.Stages) == 0 {
		return nil, fmt.Errorf("no quilt is planned")
	}
	if what == sewing.StageCard {
		if !j.Whole.Has(j.Stage) {
			return nil, fmt.Errorf("the order has no stage %d", j.Stage+1)
		}
		return []Page{StagePage(j, j.Stage)}, nil
	}
	out := JobPages(j)
	if what == sewing.AllCards {
		for i := range j.Whole.Order.Stages {
			out = append(out, StagePage(j, i))
		}
	}
	return out, nil
}

// JobPages is the card of the whole job: the quilt with its stages numbered, the totals,
// what has to be at hand, the stages and the changes of the bobbin with boxes to tick.
// It is one page but for quilts of very many rows.
func JobPages(j sewing.Job) []Page {
	out, in := jobLaid(j)
	topPicture(&out[0], j, in)
	return out
}

// jobLaid lays the card out but for the picture, whose place it returns: as large as what
// is written leaves room for.
func jobLaid(j sewing.Job) ([]Page, rect) {
	left := 0.56 * (j.W - 2*Margin)
	in := rect{Margin, Margin + titleRoom, left, 0}
	for _, try := range []struct{ share, line float64 }{{0.46, 6}, {0.42, 6}, {0.38, 5.6}, {0.34, 5.4}, {0.30, 5.2}, {0.26, 4.8}, {0.26, 4.5}} {
		in.h = try.share * j.H
		if out := jobPages(j, in, try.line); len(out) == 1 {
			return out, in
		}
	}
	in.h = 0.38 * j.H // over two pages there is room
	return jobPages(j, in, 5.6), in
}

// jobPages lays the card out but for the picture, which has its place, with lines of so
// many mm.
func jobPages(j sewing.Job, picture rect, line float64) []Page {
	w, b := j.Whole, j.Book
	pg := blank(j.W, j.H)
	size := w.Quilt.Size()
	kind := b.Say("card.title", b.Say("card.job"), words.SizeMM(size.W), words.SizeMM(size.H))
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
func totals(c *column, j sewing.Job) {
	w, b := j.Whole, j.Book
	c.head(b.Say("card.in-all"))
	for _, f := range append(sewing.Figures(w.Sum.All), sewing.Evenings(w.Sum.All)) {
		c.figure(b.Write(f.Name), b.Amount(f.Value))
	}
	if l := w.Left; l != nil {
		c.head(b.Say("card.left", l.Done, l.Of))
		for _, f := range sewing.Remaining(*l) {
			c.figure(b.Write(f.Name), b.Amount(f.Value))
		}
	}
	c.head(b.Say("card.at-hand"))
	for _, f := range sewing.AtHand(w.Sum) {
		c.figure(b.Write(f.Name), b.Amount(f.Value))
	}
}

// topPicture draws the quilt with the numbers of its stages round it.
func topPicture(pg *Page, j sewing.Job, in rect) {
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
	v.path(pg, 0.4, ink.Ink, edgeOf(w))
	drawStageNumbers(w, pg, v)
}
