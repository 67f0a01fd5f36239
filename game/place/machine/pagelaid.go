package machine

import (
	"strconv"
	"strings"

	"unthreaded/game/place/machine/bench"
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
	p := LaidPart{Asks: len(w.b.Quilts) > 0}
	for _, q := range w.b.Quilts {
		p.From = append(p.From, Option{ID: q.ID, Name: w.book.Say("machine.from-quilt", q.Name)})
	}
	p.From, p.Now = append(p.From, Option{ID: "typed", Name: w.book.Say("machine.typed")}), "typed"
	q, from := w.b.Quilt()
	switch {
	case from:
		p.Now, p.Text = q.ID, w.laidText(q.Layout)
	case w.b.QuiltLost():
		p.Text = w.book.Say("machine.lost")
	case !p.Asks && len(w.r.Quilts) > 0:
		p.Text = w.book.Say("machine.in-none")
	}
	w.out.Laid = p
}

// laidText says how the plan lies in a quilt.
func (w writer) laidText(l bench.Layout) string {
	names := make([]string, len(l.Rows))
	for i, r := range l.Rows {
		names[i] = r.Name
	}
	text := w.book.Say("machine.laid", w.length(l.Along), w.length(l.Across), l.Times(), w.rowList(names), l.Slant)
	if l.Turn {
		text += " " + w.book.Say("machine.laid-turned")
	}
	if l.Beside > 0 {
		text += " " + w.book.Say("machine.laid-beside", l.Beside)
	}
	if l.Other > 0 {
		text += " " + w.book.Say("machine.laid-other", l.Other)
	}
	return text + " " + w.book.Say("machine.laid-else")
}

// rowName names a row of the layout.
func (w writer) rowName(i int) string { return w.named(w.b.Layout().Rows[i].Name) }

// named puts a row's name into words: "row 3", "border 1 upper".
func (w writer) named(name string) string {
	part := strings.Fields(name)
	text := w.book.Say("machine.row."+part[0], part[1])
	if len(part) > 2 {
		text = w.book.Say("machine.row-side."+part[2], text)
	}
	return text
}

// rowList lists names of rows, in order: "row 3", "rows 1, 4 to 7", "row 2, sashing 1".
func (w writer) rowList(names []string) string {
	var parts []string
	for i := 0; i < len(names); {
		word, _, numbered := numberedRow(names[i])
		if !numbered {
			parts, i = append(parts, w.named(names[i])), i+1
			continue
		}
		k := i
		var numbers []int
		for ; k < len(names); k++ {
			also, n, ok := numberedRow(names[k])
			if !ok || also != word {
				break
			}
			numbers = append(numbers, n)
		}
		if k > i+1 && word == "row" {
			word = "rows"
		}
		parts, i = append(parts, w.book.Say("machine.row."+word, w.runs(numbers))), k
	}
	return strings.Join(parts, ", ")
}

// numberedRow splits a name into its word and its number.
func numberedRow(name string) (word string, n int, ok bool) {
	word, number, found := strings.Cut(name, " ")
	n, err := strconv.Atoi(number)
	return word, n, found && err == nil
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
