package card

import (
	"strconv"

	"unthreaded/game/glyph"
	"unthreaded/game/plan"
	"unthreaded/game/scene"
	"unthreaded/game/sewing"
	"unthreaded/game/words"
)

// facts writes the figures, the reasons and the cautions under the drawing, and the order
// in words where all of it has room: a part of it leads nobody on. It tells whether it did.
func facts(pg *Page, j sewing.Job, y float64) bool {
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
	lines := gathered(j.Desk.Order(), b)
	room := rect{Margin, below.y + 3 + lineMM(headSize), below.w, 0}
	room.h = bottom - room.y
	columns := columnsOf(lines, room)
	if columns*int(room.h/lineMM(smallSize)) < len(lines) {
		return false
	}
	below.head(b.Say("card.order"))
	inColumns(pg, lines, columns, room)
	return true
}

// gathered writes the order with its numbers; moves that read alike and follow each other
// come as one.
func gathered(order []plan.Told, b words.Book) []string {
	var out []string
	text := make([]string, len(order))
	for i, t := range order {
		text[i] = b.Write(t.Text)
	}
	for i := 0; i < len(order); {
		k := i
		for k+1 < len(order) && text[k+1] == text[i] && order[k+1].Number == order[k].Number+1 {
			k++
		}
		line := text[i]
		switch {
		case k > i:
			line = b.Say("card.steps", order[i].Number, order[k].Number) + "  " + line
		case order[i].Number > 0:
			line = strconv.Itoa(order[i].Number) + "  " + line
		}
		out, i = append(out, line), k+1
	}
	return out
}

// mostColumns is how many columns the order in words has at most.
const mostColumns = 3

// between is the room in mm between two columns.
const between = 5.0

// columnsOf returns how many columns of such lines lie beside each other.
func columnsOf(lines []string, in rect) int {
	widest := 0.0
	for _, l := range lines {
		widest = max(widest, glyph.Width(glyph.Shown(l), smallSize)/Px)
	}
	return max(1, min(mostColumns, int((in.w+between)/(widest+between))))
}

// inColumns writes lines column by column.
func inColumns(pg *Page, lines []string, columns int, in rect) {
	w := (in.w - between*float64(columns-1)) / float64(columns)
	rows := (len(lines) + columns - 1) / columns
	for i, l := range lines {
		x := in.x + float64(i/rows)*(w+between)
		pg.text(fitted(l, smallSize, w), smallSize, scene.Left, ink.Ink, x, in.y+(float64(i%rows)+0.5)*lineMM(smallSize))
	}
}
