package machine

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"unthreaded/game/words"
	"unthreaded/path/machine"
)

// foot fills in the method and the foot, and returns the sentence.
func (w writer) foot() string {
	w.out.On.Foot = true
	a, chosen := w.b.Plan.Advice, w.b.Method()
	for _, m := range machine.Methods() {
		row := ChoiceRow{ID: string(m), Name: upper(m.Name()), Note: methodNotes[m], Picked: m == chosen}
		if m == a.Method {
			row.Note = "Advised. " + row.Note
		}
		w.out.Methods = append(w.out.Methods, row)
	}
	for _, r := range a.Reasons {
		w.out.Reasons = append(w.out.Reasons, Row{ID: upper(r.Figure), Value: w.figure(r.Figure, r.Unit, r.Value), Note: w.against(r)})
	}
	for i, c := range a.Changes {
		w.out.Changes = append(w.out.Changes, Row{ID: strconv.Itoa(i), Value: upper(c.To.Name()) + ": " + w.needs(c)})
	}
	w.cautions("power", "ruler-foot-only")
	w.out.Overruled = chosen != a.Method
	if !w.out.Overruled {
		return upper(chosen.Name()) + ". " + strongest(a)
	}
	for i, r := range w.b.Against() {
		w.out.Against = append(w.out.Against, Row{ID: strconv.Itoa(i), Value: w.spoken(r)})
	}
	return fmt.Sprintf("%s, your choice. Advised is the %s.", upper(chosen.Name()), a.Method.Name())
}

var methodNotes = map[machine.Method]string{
	machine.WalkingFoot: "Feed dogs up; the machine moves the layers, you turn the quilt.",
	machine.FreeMotion:  "Feed dogs down; your hands move the quilt every way.",
	machine.RulerFoot:   "Feed dogs down; your hands lead the foot along a ruler.",
}

// strongest is the reason that speaks for the advice, the first on the list.
func strongest(a machine.Advice) string {
	for _, r := range a.Reasons {
		if slices.Contains(r.Favours, a.Method) && len(r.Favours) < len(machine.Methods()) {
			return r.Text
		}
	}
	return ""
}

// figure writes a figure of the advice, by its name and unit: lines are counted, the
// rest without a unit are shares.
func (w writer) figure(name, unit string, v float64) string {
	switch unit {
	case "mm":
		if v >= machine.StraightRadius {
			return "no curve"
		}
		return w.length(v)
	case "per m":
		if w.inches {
			return fmt.Sprintf("%.1f for each yard", v*36*machine.MMPerInch/1000)
		}
		return fmt.Sprintf("%.1f for each metre", v)
	}
	if name == "ruler lines" {
		return fmt.Sprintf("%.0f", v)
	}
	return words.Percent(v)
}

// against writes a reason with the limit that it was held against.
func (w writer) against(r machine.Reason) string {
	names := make([]string, len(r.Favours))
	for i, m := range r.Favours {
		names[i] = m.Name()
	}
	return fmt.Sprintf("The limit is %s. %s Speaks for: %s.", w.figure(r.Figure, r.Unit, r.Limit), r.Text, strings.Join(names, " or "))
}

func (w writer) spoken(r machine.Reason) string {
	return fmt.Sprintf("%s %s: %s; the limit is %s.", r.Text, upper(r.Figure), w.figure(r.Figure, r.Unit, r.Value), w.figure(r.Figure, r.Unit, r.Limit))
}

// needs says what would lead to another method.
func (w writer) needs(c machine.Change) string {
	var parts []string
	for _, n := range c.Needs {
		way := "at most"
		if n.Rise {
			way = "at least"
		}
		parts = append(parts, fmt.Sprintf("%s (%s %s, now %s)", n.Text, way, w.figure(n.Figure, n.Unit, n.Limit), w.figure(n.Figure, n.Unit, n.Now)))
	}
	return strings.Join(parts, " and ") + "."
}
