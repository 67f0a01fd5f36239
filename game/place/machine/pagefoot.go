package machine

import (
	"fmt"
	"slices"
	"strconv"

	"unthreaded/game/place"
	"unthreaded/game/words"
	"unthreaded/path/machine"
)

// foot fills in the method and the foot, and returns the sentence.
func (w writer) foot() string {
	w.out.On.Foot = true
	a, chosen := w.b.Plan.Advice, w.b.Method()
	for _, m := range machine.Methods() {
		row := ChoiceRow{ID: string(m), Name: w.book.Say("machine.foot." + string(m)), Note: w.book.Say("machine.foot-note." + string(m)), Picked: m == chosen}
		if m == a.Method {
			row.Note = w.book.Say("machine.advised", row.Note)
		}
		w.out.Methods = append(w.out.Methods, row)
	}
	for _, r := range a.Reasons {
		w.out.Reasons = append(w.out.Reasons, Row{ID: w.book.Say("machine.figure." + string(r.Figure)), Value: w.figure(r.Figure, r.Unit, r.Value), Note: w.against(r)})
	}
	for i, c := range a.Changes {
		w.out.Changes = append(w.out.Changes, Row{ID: strconv.Itoa(i), Value: w.book.Say("machine.change", w.book.Say("machine.foot."+string(c.To)), w.needs(c))})
	}
	w.feet()
	w.cautions("power", "ruler-foot-only")
	w.out.Overruled = chosen != a.Method
	if !w.out.Overruled {
		return w.book.Say("machine.foot-advised", w.book.Say("machine.foot."+string(chosen)), w.strongest(a))
	}
	for i, r := range w.b.Against() {
		w.out.Against = append(w.out.Against, Row{ID: strconv.Itoa(i), Value: w.spoken(r)})
	}
	return w.book.Say("machine.foot-chosen", w.book.Say("machine.foot."+string(chosen)), w.book.Say("machine.foot-in."+string(a.Method)))
}

// feet tells which feet the whole quilt asks for, where she takes the rows from one.
func (w writer) feet() {
	q, ok := w.b.Quilt()
	if !ok {
		return
	}
	for _, f := range q.Feet {
		var stages words.And
		for _, i := range f.Stages[:min(len(f.Stages), mostStagesNamed)] {
			stages = append(stages, place.StageName(q.Order.Stages[i]))
		}
		if more := len(f.Stages) - len(stages); more > 0 {
			stages = append(stages, words.Of("machine.more-stages", more))
		}
		w.out.Feet = append(w.out.Feet, Row{
			ID: w.book.Say("machine.foot." + string(f.Method)), Value: w.book.Amount(words.ThreadMM(f.MM)), Note: w.book.Amount(stages),
		})
	}
	w.out.HasFeet = len(w.out.Feet) > 0
}

// mostStagesNamed is how many stages are named where there are many.
const mostStagesNamed = 4

// strongest is the reason that decides for the advice: of those that speak for it the one
// that speaks for the fewest other feet, the first of several on the list.
func (w writer) strongest(a machine.Advice) string {
	fewest, out := len(machine.Methods()), ""
	for _, r := range a.Reasons {
		if slices.Contains(r.Favours, a.Method) && len(r.Favours) < fewest {
			fewest, out = len(r.Favours), w.reason(r)
		}
	}
	return out
}

// reason says what a figure means.
func (w writer) reason(r machine.Reason) string {
	side := "broken"
	if r.Holds {
		side = "kept"
	}
	if r.Figure == machine.RulerLineCount && r.Holds {
		return w.book.Say("machine.ruler-lines-marked", int(r.Value))
	}
	return w.book.Say("machine.reason." + string(r.Figure) + "." + side)
}

// figure writes a figure of the advice, by its name and unit: lines are counted, the
// rest without a unit are shares.
func (w writer) figure(name machine.Figure, unit string, v float64) string {
	switch unit {
	case "mm":
		if v >= machine.StraightRadius {
			return w.book.Say("machine.no-curve")
		}
		return w.length(v)
	case "per m":
		if w.inches {
			return w.book.Say("machine.turns-yard", words.Decimal{Value: v * 36 * machine.MMPerInch / 1000, Digits: 1})
		}
		return w.book.Say("machine.turns-metre", words.Decimal{Value: v, Digits: 1})
	}
	if name == machine.RulerLineCount {
		return fmt.Sprintf("%.0f", v)
	}
	return w.book.Amount(words.Share(v))
}

// against writes a reason with the limit that it was held against.
func (w writer) against(r machine.Reason) string {
	var feet words.Or
	for _, m := range r.Favours {
		feet = append(feet, words.Of("machine.foot-in."+string(m)))
	}
	return w.book.Say("machine.limit", w.figure(r.Figure, r.Unit, r.Limit), w.reason(r), feet)
}

func (w writer) spoken(r machine.Reason) string {
	return w.book.Say("machine.against", w.reason(r), w.book.Say("machine.figure."+string(r.Figure)), w.figure(r.Figure, r.Unit, r.Value), w.figure(r.Figure, r.Unit, r.Limit))
}

// needs says what would lead to another method.
func (w writer) needs(c machine.Change) string {
	var parts words.And
	for _, n := range c.Needs {
		way := "down"
		if n.Rise {
			way = "up"
		}
		need := words.Of("machine.need." + string(n.Figure) + "." + way)
		parts = append(parts, words.Of("machine.need", need, n.Rise, w.figure(n.Figure, n.Unit, n.Limit), w.figure(n.Figure, n.Unit, n.Now)))
	}
	return w.book.Amount(parts)
}
