package card

import (
	"strconv"

	"unthreaded/game/glyph"
	"unthreaded/game/scene"
	"unthreaded/game/words"
)

// facts writes the figures, the reasons, the cautions and the order in words under
// the drawing, as far as there is room.
func facts(pg *Page, j Job, y float64) {
	b := j.Book
	const gutter = 8.0
	w := (pg.W - 2*Margin - gutter) / 2
	bottom := pg.H - Margin
	left := column{page: pg, x: Margin, w: w, y: y, bottom: bottom}
	right := column{page: pg, x: Margin + w + gutter, w: w, y: y, bottom: bottom}
	left.head(b.Say("card.at-machine"))
	for _, f := range j.Facts {
		left.figure(b.Write(f.Name), b.Amount(f.Value))
	}
	if because := b.Write(j.Desk.Because()); because != "" {
		right.head(b.Say("card.why"))
		right.write(because, bodySize, ink.Ink)
	}
	right.head(b.Say("card.care"))
	for _, c := range j.Cautions {
		right.write(c, smallSize, ink.Ink)
	}
	right.write(b.Say("card.manual"), smallSize, ink.Mute)
	below := column{page: pg, x: Margin, w: pg.W - 2*Margin, y: max(left.y, right.y), bottom: bottom}
	below.head(b.Say("card.order"))
	inColumns(pg, gathered(inWords(j.Desk.Order(), b), b), below.y, bottom, b)
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
func gathered(order []string, b words.Book) []string {
	var out []string
	for i := 0; i < len(order); {
		k := i
		for k+1 < len(order) && order[k+1] == order[i] {
			k++
		}
		number := strconv.Itoa(i + 1)
		if k > i {
			number = b.Say("card.steps", i+1, k+1)
		}
		out, i = append(out, number+"  "+order[i]), k+1
	}
	return out
}

// mostColumns is how many columns the order in words has at most.
const mostColumns = 3

// inColumns writes lines from y down to bottom mm, column by column; what has no
// room is told to be in the drawing.
func inColumns(pg *Page, lines []string, y, bottom float64, b words.Book) {
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
		lines = append(lines[:room-1:room-1], b.Say("card.and-so-on"))
	}
	rows = min(rows, (len(lines)+columns-1)/columns)
	for i, l := range lines {
		x := Margin + float64(i/rows)*(w+gutter)
		pg.text(fitted(l, smallSize, w), smallSize, scene.Left, ink.Ink, x, y+(float64(i%rows)+0.5)*lineMM(smallSize))
	}
}
