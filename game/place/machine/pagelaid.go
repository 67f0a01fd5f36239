package machine

import (
	"fmt"
	"strconv"
	"strings"

	"unthreaded/game/place/machine/bench"
	"unthreaded/game/words"
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
		p.From = append(p.From, Option{ID: q.ID, Name: fmt.Sprintf("from my quilt %q", q.Name)})
	}
	p.From, p.Now = append(p.From, Option{ID: "typed", Name: "typed"}), "typed"
	q, from := w.b.Quilt()
	switch {
	case from:
		p.Now, p.Text = q.ID, w.laidText(q.Layout)
	case w.b.QuiltLost():
		p.Text = "The quilt that the rows were taken from no longer holds this plan, so what is typed counts."
	case !p.Asks && len(w.r.Quilts) > 0:
		p.Text = "This plan lies in none of your quilts, so their rows are typed here."
	}
	w.out.Laid = p
}

// laidText says how the plan lies in a quilt.
func (w writer) laidText(l bench.Layout) string {
	size := fmt.Sprintf("%s along the rows, %s across", w.length(l.Along), w.length(l.Across))
	if l.Slant {
		size = fmt.Sprintf("aslant, from corner to corner %s along the rows and %s across", w.length(l.Along), w.length(l.Across))
	}
	names := make([]string, len(l.Rows))
	for i, r := range l.Rows {
		names[i] = r.Name
	}
	text := fmt.Sprintf("%s. It is sewn %s, in %s.", upper(size), words.Count(l.Times(), "time", "times"), rowList(names))
	if l.Turn {
		text += " The left side of a border counts with the upper and the right with the lower, as they lie when the quilt is turned by a quarter."
	}
	if l.Beside > 0 {
		text += fmt.Sprintf(" %d of these lie in a border, beside the rows.", l.Beside)
	}
	if l.Other > 0 {
		text += fmt.Sprintf(" %s at another size, where the line is another; plan those by themselves.", words.Count(l.Other, "place holds it", "places hold it"))
	}
	return text + " What else is in the quilt comes on top."
}

// rowName names a row of the layout.
func (w writer) rowName(i int) string { return w.b.Layout().Rows[i].Name }

// rowList lists names of rows, in order: "row 3", "rows 1, 4 to 7", "row 2, sashing 1".
func rowList(names []string) string {
	var parts []string
	for i := 0; i < len(names); {
		word, _, numbered := numberedRow(names[i])
		if !numbered {
			parts, i = append(parts, names[i]), i+1
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
		parts, i = append(parts, word+" "+runs(numbers)), k
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
func runs(numbers []int) string {
	var out []string
	for i := 0; i < len(numbers); {
		k := i
		for k+1 < len(numbers) && numbers[k+1] == numbers[k]+1 {
			k++
		}
		text := strconv.Itoa(numbers[i])
		if k > i {
			text += " to " + strconv.Itoa(numbers[k])
		}
		out, i = append(out, text), k+1
	}
	return strings.Join(out, ", ")
}
