package machine

import (
	"strconv"
	"strings"

	"unthreaded/game/place"
	"unthreaded/game/place/machine/bench"
	"unthreaded/path/quilt/order"
)

// LaidPart is about where the size and the rows of the quilt come from.
type LaidPart struct {
	// Asks tells that they can be taken from a quilt; Text says what they are, or why
	// they are typed.
	Asks bool     `json:"asks"`
	From []Option `json:"from"`
	Now  string   `json:"now"`
	Text string   `json:"text"`
}

// laid fills in where the size and the rows come from.
func (w writer) laid() {
	l, any := w.b.Laid()
	p := LaidPart{Asks: any, Now: "typed"}
	if any {
		p.From = append(p.From, Option{ID: l.Quilt.ID, Name: w.book.Say("machine.from-quilt", l.Quilt.Name)})
	}
	p.From = append(p.From, Option{ID: "typed", Name: w.book.Say("machine.typed")})
	switch q, from := w.b.Quilt(); {
	case from:
		p.Now = q.Quilt.ID
		p.Text = w.book.Say("machine.laid", w.length(q.Layout.Along), w.length(q.Layout.Across), len(q.Layout.Rows), q.Layout.Slant)
	case w.b.QuiltLost():
		p.Text = w.book.Say("machine.lost")
	}
	w.out.Laid = p
}

// rowName names a row of the layout.
func (w writer) rowName(i int) string { return w.named(w.b.Layout().Rows[i]) }

func (w writer) named(r bench.Row) string {
	return w.book.Write(place.StageName(order.Stage{Kind: r.Kind, Number: r.Number}))
}

// rowList lists rows in the order of the top: "row 3", "rows 1, 4 to 7, sashing strip 2".
func (w writer) rowList(rows []bench.Row) string {
	var parts []string
	for i := 0; i < len(rows); {
		k := i
		var numbers []int
		for ; k < len(rows) && rows[k].Kind == rows[i].Kind; k++ {
			numbers = append(numbers, rows[k].Number)
		}
		text := w.named(rows[i])
		if k > i+1 {
			text = w.book.Say("machine.rows."+string(rows[i].Kind), w.runs(numbers))
		}
		parts, i = append(parts, text), k
	}
	return strings.Join(parts, ", ")
}

// runs writes ascending numbers: "1, 4 to 7".
func (w writer) runs(numbers []int) string {
	var out []string
	for i := 0; i < len(numbers); {
		k := i
		for k+1 < len(numbers) && numbers[k+1] == numbers[k]+1 {
			k++
		}
		text := strconv.Itoa(numbers[i])
		if k > i {
			text = w.book.Say("machine.run", numbers[i], numbers[k])
		}
		out, i = append(out, text), k+1
	}
	return strings.Join(out, ", ")
}
