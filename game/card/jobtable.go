package card

import (
	"slices"

	"unthreaded/game/glyph"
	"unthreaded/game/scene"
	"unthreaded/game/sewing"
	"unthreaded/path/geom"
)

// table is the lower part of the card of the job: what stands there goes down the page
// and on to the next.
type table struct {
	j    sewing.Job
	done []Page
	page *Page
	y    float64
	line float64 // mm of a line
}

// rowsFoot is the room in mm under the lines of a part.
const rowsFoot = 2.0

// tabled writes the stages and the bobbins with boxes to tick, then what the figures
// rest on and the cautions.
func tabled(pg *Page, j sewing.Job, y, line float64) []Page {
	t := &table{j: j, page: pg, y: y, line: line}
	t.stages()
	t.bobbins()
	t.notes()
	return append(t.done, *t.page)
}

// room goes on to the next page where h mm do not fit on this one.
func (t *table) room(h float64) {
	if t.y+h <= t.page.H-Margin {
		return
	}
	next := blank(t.j.W, t.j.H)
	t.done = append(t.done, *t.page)
	t.page, t.y = &next, Margin
	t.page.text(fitted(t.j.Whole.Quilt.Name, bodySize, t.page.W-2*Margin), bodySize, scene.Left, ink.Mute, Margin, Margin+2)
	t.y += 6
}

// head writes a heading.
func (t *table) head(text string) {
	t.room(lineMM(headSize) + 3 + t.line)
	c := column{page: t.page, x: Margin, w: t.page.W - 2*Margin, y: t.y, bottom: t.page.H}
	c.head(text)
	t.y = c.y + 1
}

// stageColumns tell where the columns after the name end, as a share of the width.
var stageColumns = []float64{0, 0.54, 0.76, 0.91, 1}

// stages writes a line for each stage.
func (t *table) stages() {
	w, b := t.j.Whole, t.j.Book
	t.head(b.Say("card.stages"))
	wide := t.page.W - 2*Margin
	for i, key := range []string{"", "length", "time", "thread", "bobbins"} {
		if key != "" { // the names need no heading
			t.page.text(b.Say("card.column."+key), smallSize, scene.Right, ink.Mute, Margin+stageColumns[i]*wide, t.y+1)
		}
	}
	t.y += 4.5
	for i, s := range w.Order.Stages {
		t.room(t.line)
		y, p := t.y+t.line/2, w.Sum.Stages[i]
		badgeIn(t.page, i+1, smallSize, min(smallSize/Px*badgeHigh, t.line-0.4), geom.Pt(Margin+3, y), false)
		name := sewing.StageName(b, s)
		if s.Turn {
			name = b.Say("card.turned", name)
		}
		size, told := bodySize, name
		if day := w.Done(i); day != "" {
			told = b.Say("card.ticked", name, sewing.DayText(b, day))
		}
		if glyph.Width(told, size)/Px > stageColumns[1]*wide-30 {
			size = smallSize
		}
		tickBox(t.page, b, w.Done(i), name, size, Margin+8, y)
		for k, text := range []string{b.Amount(sewing.Length(p)), b.Amount(sewing.Span(p.Machine)), b.Amount(sewing.Thread(p.Top)), b.Amount(sewing.Count(p.Changes))} {
			t.page.text(text, bodySize, scene.Right, ink.Ink, Margin+stageColumns[k+1]*wide, y)
		}
		t.y += t.line
	}
	t.y += rowsFoot
}

// bobbins writes the changes of the bobbin, three or two beside each other; one that is
// too wide for that has a line of its own.
func (t *table) bobbins() {
	w, b := t.j.Whole, t.j.Book
	if len(w.Sum.Bobbins) == 0 {
		return
	}
	t.head(b.Say("card.bobbins"))
	texts, wides, broad := make([]string, len(w.Sum.Bobbins)), make([]float64, len(w.Sum.Bobbins)), t.page.W-2*Margin
	for i := range texts {
		text := w.BobbinText(b, i)
		texts[i] = text
		if day := w.Sewn.Ticked(sewing.BobbinTick(i)); day != "" {
			text = b.Say("card.ticked", text, sewing.DayText(b, day))
		}
		wides[i] = glyph.Width(text, smallSize)/Px + boxMM + 4
	}
	cols := 2
	if slices.Max(wides) < broad/3 {
		cols = 3
	}
	slot, at := broad/float64(cols), 0
	for i, text := range texts {
		if at == cols || at > 0 && wides[i] > slot {
			at = 0
		}
		if at == 0 {
			t.room(t.line)
			t.y += t.line
		}
		tickBox(t.page, b, w.Sewn.Ticked(sewing.BobbinTick(i)), text, smallSize, Margin+float64(at)*slot, t.y-t.line/2)
		if at++; wides[i] > slot {
			at = cols
		}
	}
	t.y += rowsFoot
}

// notes writes what the figures rest on, and the cautions.
func (t *table) notes() {
	b := t.j.Book
	text := b.Say("card.rests", sewing.RestsOn(b, t.j.Whole.Assumed))
	care := b.Say("card.foot") + " " + b.Say("card.manual")
	for _, s := range []string{text, care} {
		n := len(wrapped(s, smallSize, t.page.W-2*Margin))
		t.room(float64(n)*lineMM(smallSize) - 3) // it may reach a little into the margin
		c := column{page: t.page, x: Margin, w: t.page.W - 2*Margin, y: t.y, bottom: t.page.H - Margin + 4}
		c.write(s, smallSize, ink.Mute)
		t.y = c.y + 1
	}
}
