package machine

import (
	"slices"
	"strconv"

	"unthreaded/game/place/machine/bench"
	"unthreaded/game/sewing"
	"unthreaded/game/words"
	"unthreaded/path/machine"
	"unthreaded/path/quilt/order"
)

// throat fills in the room for the quilt, and returns the sentence.
func (w writer) throat() string {
	o := w.out
	o.On.Throat = true
	o.Fields = w.fields("throat-width", "throat-height")
	if _, laid := w.b.Quilt(); !laid {
		o.Fields = w.fields("along", "across", "rows", "throat-width", "throat-height")
	}
	o.More, o.MoreName = w.fields("hand-room", "thickness", "loose", "left", "behind", "front"), w.book.Say("machine.hand-table")
	w.cautions("rest")
	if high := w.b.Overfull(); high > 0 {
		o.Note = w.book.Say("machine.overfull", w.b.Job.Rows, w.length(high))
	}
	orders, err := w.b.Orders()
	if err != nil {
		return w.book.Say("machine.cannot")
	}
	_, laid := w.b.Quilt()
	for i, r := range orders {
		o.Orders = append(o.Orders, OrderRow{ID: string(r.Kind), Name: upper(w.order(r)), Note: w.verdict(r), Use: laid && i > 0})
	}
	w.place(orders[0])
	w.seams()
	return w.throatSentence(orders)
}

// seams tells how the ditch and the borders go through the throat.
func (w writer) seams() {
	l, _ := w.b.Laid()
	for _, s := range w.b.Seams() {
		stage := l.Order.Stages[s.Stage]
		text := w.book.Say("machine.seam-fits", w.length(s.Fit.Right), w.length(s.Fit.Roll), w.book.Say("machine.way."+wayThrough(s.Fit)))
		w.out.Seams = append(w.out.Seams, FigureRow{ID: sewing.StageName(w.book, stage), Value: text})
	}
	w.out.HasSeams = len(w.out.Seams) > 0
}

// wayThrough is the code of how a part of the quilt goes through.
func wayThrough(f machine.Fit) string {
	switch {
	case f.Rolls:
		return "rolls"
	case f.Bunches:
		return "bunches"
	}
	return "not"
}

// verdict says how an order fits through the throat.
func (w writer) verdict(r machine.RowOrder) string {
	roll, trapped := w.length(r.WorstRoll), words.Of("machine.trapped", r.Trapped)
	switch {
	case len(r.NoRoll) == 0:
		return w.book.Say("machine.rolled-all", roll, trapped)
	case len(r.NoBunch) == 0:
		return w.book.Say("machine.bunched-some", roll, trapped, w.rowsOf(r, r.NoRoll))
	}
	return w.book.Say("machine.neither-some", roll, trapped, w.rowsOf(r, r.NoRoll), w.rowsOf(r, r.NoBunch))
}

// order is what an order is called.
func (w writer) order(r machine.RowOrder) string {
	if r.Kind == "" {
		return w.book.Say("machine.own-order")
	}
	return w.book.Say("machine.order." + string(r.Kind))
}

// rowsOf names the rows at places of an order: "row 3" or "rows 4 to 7".
func (w writer) rowsOf(r machine.RowOrder, places []int) string {
	rows := make([]int, len(places))
	for i, p := range places {
		rows[i] = r.Fits[p].Row
	}
	slices.Sort(rows)
	list := make([]bench.Row, len(rows))
	for i, k := range rows {
		list[i] = w.b.Layout().Rows[k]
	}
	return w.rowList(list)
}

func (w writer) throatSentence(orders []machine.RowOrder) string {
	best := orders[0]
	_, laid := w.b.Quilt()
	if laid && len(best.NoRoll) == 0 {
		return w.book.Say("machine.throat-yours", w.order(best))
	}
	plain := orders[slices.IndexFunc(orders, func(o machine.RowOrder) bool { return o.Kind == machine.FirstToLast })]
	switch {
	case len(best.NoRoll) == 0 && len(plain.NoRoll) == 0:
		return w.book.Say("machine.throat-fits", w.order(best))
	case len(best.NoRoll) == 0:
		return w.book.Say("machine.throat-turn", w.order(best), w.rowsOf(plain, plain.NoRoll))
	case len(best.NoBunch) == 0:
		return w.book.Say("machine.throat-bunch", w.order(best), w.rowsOf(best, best.NoRoll))
	}
	return w.book.Say("machine.throat-not", w.order(best), w.rowsOf(best, best.NoBunch))
}

// place tells about the row that is looked at.
func (w writer) place(r machine.RowOrder) {
	f := r.Fits[min(w.b.Place, len(r.Fits)-1)]
	text := w.book.Say("machine.place", w.b.Place+1, len(r.Fits), w.rowName(f.Row), w.length(f.Right), w.length(f.Roll), w.book.Say("machine.way."+wayThrough(f)))
	if hangs, err := w.b.Top().Support(w.b.Mine.Table(), []machine.Fit{f}); err == nil {
		h := hangs[0]
		if w.b.Layout().Slant {
			w.out.PlaceNow = text + " " + w.book.Say("machine.weighs", w.weight(h.Total))
			return
		}
		text += " " + w.book.Say("machine.hangs", w.length(h.Left), w.length(h.Behind), w.length(h.Front), w.weight(h.Mass), w.weight(h.Total))
		if h.Mass > h.Total/4 {
			text += " " + w.book.Say("machine.carry")
		}
	}
	w.out.PlaceNow = text
}

// gramsPerPound is exact (international yard and pound agreement, 1959).
const gramsPerPound = 453.59237

func (w writer) weight(g float64) string {
	if w.inches {
		return w.book.Say("machine.pounds", words.Decimal{Value: g / gramsPerPound, Digits: 1})
	}
	return w.book.Say("machine.kilograms", words.Decimal{Value: g / 1000, Digits: 1})
}

// marks fills in dots, ruler and the way from row to row, and returns the sentence.
func (w writer) marks() string {
	o := w.out
	o.On.Marks = true
	w.rows()
	o.HasRuler = w.b.Plan.Ruled()
	if !o.HasRuler {
		w.cautions("eyes")
		return w.book.Say("machine.no-ruler")
	}
	o.Fields = w.fields("spacing", "offset", "ruler")
	o.Sides = []Option{{ID: "right", Name: w.book.Say("machine.side.right")}, {ID: "left", Name: w.book.Say("machine.side.left")}}
	if o.Side = "right"; w.b.Job.OnLeft {
		o.Side = "left"
	}
	// Whether a ruler fits is asked of its makers, and never said here.
	if o.Question, o.Why = w.book.Say("machine.ask-fit"), w.book.Say("machine.ask-why"); w.b.Mine.Ruler > 0 {
		o.Question = w.book.Say("machine.ask-thickness", w.b.Mine.Ruler)
	}
	w.cautions("ruler-foot-only", "ruler-fit", "ruler-hold", "eyes")
	marks, err := w.b.Marks()
	if err != nil {
		return w.book.Say("machine.no-side")
	}
	line := marks[min(w.b.Line, len(marks)-1)]
	o.MarkText = w.book.Say("machine.line", w.b.Line+1, len(marks), w.length(line.To-line.From), len(line.Marks), words.SmallMM(w.b.Mine.Offset), o.Side)
	return w.book.Say("machine.ruler-lines", len(marks), len(bench.Dots(marks)), w.length(w.b.Job.Spacing))
}

// rows lists the stages of the quilt in the order of sewing with the way of the needle.
func (w writer) rows() {
	l, laid := w.b.Laid()
	w.out.HasRows = laid
	for i, s := range l.Order.Stages {
		name := sewing.StageName(w.book, s)
		moved := ""
		if come := s.Legs[0].Come.Path.Length(); i > 0 && come > 0 {
			moved = w.book.Say("machine.moves-on", w.length(come), s.Legs[0].Come.Stop)
		}
		text := w.book.Say("machine.row-from", name, s.FarEnd, s.Turn, moved)
		if s.Kind == order.Ditch || s.Kind == order.Border {
			text = w.book.Say("machine.round-from", name, s.Turn, moved)
		}
		w.out.Rows = append(w.out.Rows, Row{ID: strconv.Itoa(i + 1), Value: text})
	}
}
