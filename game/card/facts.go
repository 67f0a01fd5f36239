package card

import (
	"fmt"

	"unthreaded/game"
	"unthreaded/game/bench"
	"unthreaded/game/glyph"
	"unthreaded/game/scene"
	"unthreaded/game/words"
)

// facts writes the figures, the reasons, the cautions and the order in words under
// the drawing, as far as there is room.
func facts(pg *Page, m game.Model, y float64) {
	const gutter = 8.0
	w := (pg.W - 2*Margin - gutter) / 2
	bottom := pg.H - Margin
	left := column{page: pg, x: Margin, w: w, y: y, bottom: bottom}
	right := column{page: pg, x: Margin + w + gutter, w: w, y: y, bottom: bottom}
	figures(&left, m)
	if because := m.Book().Write(m.Desk.Because()); because != "" {
		right.head("Why something is added")
		right.write(because, bodySize, ink.Ink)
	}
	right.head("Take care")
	for _, c := range m.Bench.Items() {
		if c.Caution {
			right.write(c.Text, smallSize, ink.Ink)
		}
	}
	right.write("The manual of your machine has the last word.", smallSize, ink.Mute)
	below := column{page: pg, x: Margin, w: pg.W - 2*Margin, y: max(left.y, right.y), bottom: bottom}
	below.head("The order in words")
	inColumns(pg, gathered(inWords(m.Desk.Order(), m.Book())), below.y, bottom)
}

// inWords writes messages.
func inWords(all []words.Msg, b words.Book) []string {
	out := make([]string, len(all))
	for i, m := range all {
		out[i] = b.Write(m)
	}
	return out
}

// gathered numbers the steps in words; steps that read alike and follow each other
// come as one.
func gathered(order []string) []string {
	var out []string
	for i := 0; i < len(order); {
		k := i
		for k+1 < len(order) && order[k+1] == order[i] {
			k++
		}
		number := fmt.Sprint(i + 1)
		if k > i {
			number += fmt.Sprintf(" to %d", k+1)
		}
		out, i = append(out, number+"  "+order[i]), k+1
	}
	return out
}

// mostColumns is how many columns the order in words has at most.
const mostColumns = 3

// inColumns writes lines from y down to bottom mm, column by column; what has no
// room is told to be in the drawing.
func inColumns(pg *Page, lines []string, y, bottom float64) {
	const gutter = 5.0
	widest := 0.0
	for _, l := range lines {
		widest = max(widest, glyph.Width(glyph.Shown(l), smallSize)/Px)
	}
	columns := max(1, min(mostColumns, int((pg.W-2*Margin+gutter)/(widest+gutter))))
	w := (pg.W - 2*Margin - gutter*float64(columns-1)) / float64(columns)
	rows := int((bottom - y) / lineMM(smallSize))
	if rows < 1 {
		return
	}
	if room := rows * columns; len(lines) > room {
		lines = append(lines[:room-1:room-1], "and so on, by the numbers above")
	}
	rows = min(rows, (len(lines)+columns-1)/columns)
	for i, l := range lines {
		x := Margin + float64(i/rows)*(w+gutter)
		pg.text(fitted(l, smallSize, w), smallSize, scene.Left, ink.Ink, x, y+(float64(i%rows)+0.5)*lineMM(smallSize))
	}
}

// figures writes how the machine is set and what the plan takes.
func figures(c *column, m game.Model) {
	s, b := m.Settings, m.Bench
	inches := s.Units == game.Inches
	c.head("At the machine")
	c.figure("Foot", b.Method().Name())
	c.figure("Needle speed", fmt.Sprintf("%.0f stitches a minute", s.SPM))
	c.figure("Stitches", words.StitchInBoth(s.StitchMM))
	c.figure("Hand", words.InBoth(s.HandSpeed()))
	r := m.Desk.Route()
	c.figure("Length", words.Length(b.Plan.Work.Length(), inches))
	if r.RetraceMM > 0 {
		c.figure("of it sewn twice", words.Length(r.RetraceMM, inches))
	}
	if parts, err := b.Parts(s.HandSpeed(), s.StitchMM); err == nil {
		c.figure("Time", "about "+words.Duration(parts[0].Time.Total))
		c.figure("Thread, above and below", words.Thread(parts[0].Thread.Top, inches)+" each")
	}
	if f, err := b.Bobbins(s.StitchMM); err == nil && len(f.Due) > 0 {
		c.figure("Next bobbin", due(b, f.Due[0], inches))
	}
	if b.Plan.Ruled() {
		c.figure("Ruler's edge", words.Small(b.Mine.Offset)+" beside the line")
	}
}

func due(b bench.Bench, d bench.Due, inches bool) string {
	once := "block"
	if b.Plan.Row {
		once = "row"
	}
	return fmt.Sprintf("in %s %d, %s along", once, d.Time, words.Length(d.At, inches))
}
