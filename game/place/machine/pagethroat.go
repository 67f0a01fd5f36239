package machine

import (
	"fmt"
	"slices"
	"strconv"

	"unthreaded/game/place/machine/bench"
	"unthreaded/game/words"
	"unthreaded/path/machine"
)

// throat fills in the room for the quilt, and returns the sentence.
func (w writer) throat() string {
	o := w.out
	o.On.Throat = true
	o.Fields = w.fields("throat-width", "throat-height")
	if _, laid := w.b.Quilt(); !laid {
		o.Fields = w.fields("along", "across", "rows", "throat-width", "throat-height")
	}
	o.More, o.MoreName = w.fields("hand-room", "thickness", "left", "behind", "front"), "Hand, sandwich and table"
	w.cautions("rest")
	if high := w.b.Overfull(); high > 0 {
		o.Note = fmt.Sprintf("%s this high take %s, more than the quilt is across.", words.Count(w.b.Job.Rows, "row", "rows"), w.length(high))
	}
	orders, err := w.b.Orders()
	if err != nil {
		return upper(err.Error()) + "."
	}
	for i, r := range orders {
		o.Orders = append(o.Orders, Row{ID: strconv.Itoa(i + 1), Value: upper(string(r.Kind)), Note: w.verdict(r)})
	}
	w.place(orders[0])
	return w.throatSentence(orders)
}

// verdict says how an order fits through the throat.
func (w writer) verdict(r machine.RowOrder) string {
	text := fmt.Sprintf("thickest roll %s. ", w.length(r.WorstRoll))
	switch {
	case len(r.NoRoll) == 0:
		text += "Every row fits rolled"
	case len(r.NoBunch) == 0:
		text += fmt.Sprintf("Rolled it does not fit in %s, bunched loosely it does", w.rowsOf(r, r.NoRoll))
	default:
		text += fmt.Sprintf("Rolled it does not fit in %s, bunched not in %s", w.rowsOf(r, r.NoRoll), w.rowsOf(r, r.NoBunch))
	}
	if r.Trapped > 0 {
		text += fmt.Sprintf("; %s between rows sewn already, where slack cannot leave", words.Count(r.Trapped, "row lies", "rows lie"))
	}
	return upper(text) + "."
}

// rowsOf names the rows at places of an order: "row 3" or "rows 4 to 7".
func (w writer) rowsOf(r machine.RowOrder, places []int) string {
	rows := make([]int, len(places))
	for i, p := range places {
		rows[i] = r.Fits[p].Row
	}
	slices.Sort(rows)
	names := make([]string, len(rows))
	for i, k := range rows {
		names[i] = w.rowName(k)
	}
	return rowList(names)
}

func (w writer) throatSentence(orders []machine.RowOrder) string {
	best := orders[0]
	plain := orders[slices.IndexFunc(orders, func(o machine.RowOrder) bool { return o.Kind == machine.FirstToLast })]
	switch {
	case len(best.NoRoll) == 0 && len(plain.NoRoll) == 0:
		return fmt.Sprintf("The quilt fits rolled in every row. Best %s.", best.Kind)
	case len(best.NoRoll) == 0:
		return fmt.Sprintf("Sewn %s, every row fits rolled. Without turning, %s would not.", best.Kind, w.rowsOf(plain, plain.NoRoll))
	case len(best.NoBunch) == 0:
		return fmt.Sprintf("Sewn %s, every row fits: bunched loosely in %s, rolled elsewhere.", best.Kind, w.rowsOf(best, best.NoRoll))
	}
	return fmt.Sprintf("In no order does all of it fit. Sewn %s, %s stay too thick. Quilt it in parts, or with a thinner batting.", best.Kind, w.rowsOf(best, best.NoBunch))
}

// place tells about the row that is looked at.
func (w writer) place(r machine.RowOrder) {
	f := r.Fits[min(w.b.Place, len(r.Fits)-1)]
	way := "does not go through"
	switch {
	case f.Rolls:
		way = "goes through rolled"
	case f.Bunches:
		way = "goes through bunched loosely"
	}
	text := fmt.Sprintf("%d of %d: %s. %s lies right of the needle, a roll of %s, and %s.",
		w.b.Place+1, len(r.Fits), w.rowName(f.Row), upper(w.length(f.Right)), w.length(f.Roll), way)
	if hangs, err := w.b.Top().Support(w.b.Mine.Table(), []machine.Fit{f}); err == nil {
		h := hangs[0]
		if w.b.Layout().Slant {
			w.out.PlaceNow = text + fmt.Sprintf(" The quilt weighs %s; its corners hang over the table first.", weight(h.Total, w.inches))
			return
		}
		text += fmt.Sprintf(" Beyond the table hang %s on the left, %s behind and %s in front: %s of %s.",
			w.length(h.Left), w.length(h.Behind), w.length(h.Front), weight(h.Mass, w.inches), weight(h.Total, w.inches))
		if h.Mass > h.Total/4 {
			text += " Set more table there, or carry it on your lap and a chair."
		}
	}
	w.out.PlaceNow = text
}

// gramsPerPound is exact (international yard and pound agreement, 1959).
const gramsPerPound = 453.59237

func weight(g float64, inches bool) string {
	if inches {
		return fmt.Sprintf("%.1f lb", g/gramsPerPound)
	}
	return fmt.Sprintf("%.1f kg", g/1000)
}

// marks fills in dots, ruler and the way from row to row, and returns the sentence.
func (w writer) marks() string {
	o := w.out
	o.On.Marks = true
	w.rows()
	o.HasRuler = w.b.Plan.Ruled()
	if !o.HasRuler {
		w.cautions("eyes")
		return "No line of this plan is marked for a ruler. Mark the lines themselves, with the template on the card."
	}
	o.Fields = w.fields("spacing", "offset", "ruler")
	o.Sides = []Option{{ID: "right", Name: "on the right of the line"}, {ID: "left", Name: "on the left of the line"}}
	if o.Side = "right"; w.b.Job.OnLeft {
		o.Side = "left"
	}
	if q, err := machine.RulerQuestion(w.b.Mine.Ruler); err == nil {
		o.Question, o.Why = q.Text, q.Why
	}
	w.cautions("ruler-foot-only", "ruler-fit", "ruler-hold", "eyes")
	marks, err := w.b.Marks()
	if err != nil {
		return "On this side no ruler lies along it: " + err.Error() + "."
	}
	line := marks[min(w.b.Line, len(marks)-1)]
	o.MarkText = fmt.Sprintf("Line %d of %d, %s long with %s. The ruler's edge lies %s on the %s of it.",
		w.b.Line+1, len(marks), w.length(line.To-line.From), words.Count(len(line.Marks), "dot", "dots"), words.Small(w.b.Mine.Offset), o.Side)
	return fmt.Sprintf("%s, %d dots at most %s apart.", upper(words.Count(len(marks), "ruler line", "ruler lines")), len(bench.Dots(marks)), w.length(w.b.Job.Spacing))
}

// rows lists the rows in the order of sewing with the way of the needle.
func (w writer) rows() {
	orders, err := w.b.Orders()
	if err != nil {
		return
	}
	path, err := w.b.Moves(orders[0])
	if err != nil {
		return
	}
	for i, f := range orders[0].Fits {
		from := "begin at the left end"
		if path.FromB[i] {
			from = "begin at the right end"
		}
		text := fmt.Sprintf("%s: %s", upper(w.rowName(f.Row)), from)
		if i > 0 && f.Turned != orders[0].Fits[i-1].Turned {
			text += ", after turning the quilt half way"
		}
		if i > 0 {
			text += fmt.Sprintf("; the needle moves on %s", w.length(path.Moves[i-1].Length))
		}
		w.out.Rows = append(w.out.Rows, Row{ID: strconv.Itoa(i + 1), Value: text + "."})
	}
}
