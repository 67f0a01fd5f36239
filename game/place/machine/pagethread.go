package machine

import (
	"fmt"
	"strconv"

	"unthreaded/game/place/machine/bench"
	"unthreaded/game/words"
	"unthreaded/path/machine"
)

// thread fills in thread and bobbins, and returns the sentence.
func (w writer) thread() string {
	o, stitch := w.out, w.r.Settings.StitchMM
	o.On.Thread = true
	for _, c := range machine.BobbinClasses() {
		full, _ := c.Of(w.b.Mine.Weight)
		o.Bobbins = append(o.Bobbins, Option{ID: c.ID, Name: fmt.Sprintf("%s, about %s", c.Name, words.Thread(full, w.inches))})
	}
	o.Bobbin = w.b.Mine.Bobbin
	o.Fields = w.fields("first", "thickness")
	o.More, o.MoreName = w.fields("weight", "full"), "My thread and my bobbin"
	w.cautions("power")
	parts, err := w.b.Parts(w.r.Settings.HandSpeed(), stitch)
	if err != nil {
		return upper(err.Error()) + "."
	}
	for i, name := range w.partNames(parts) {
		t := parts[i].Thread
		o.Threads = append(o.Threads, Row{
			ID: name, Value: words.Thread(t.Top, w.inches),
			Note: fmt.Sprintf("as much again on bobbins; %d stitches", t.Stitches),
		})
	}
	f, err := w.b.Bobbins(stitch)
	if err != nil {
		return upper(err.Error()) + "."
	}
	return w.due(f)
}

// due lists where the bobbin is due, and returns the sentence.
func (w writer) due(f bench.Bobbins) string {
	for i, d := range f.Due {
		w.out.Due = append(w.out.Due, Row{ID: strconv.Itoa(i + 1), Value: w.dueText(d)})
	}
	w.out.DueText = fmt.Sprintf("A full bobbin holds about %s; a tenth is not counted on.", words.Thread(f.Full, w.inches))
	if f.Short != "" {
		w.out.DueText += " " + upper(f.Short) + "."
	}
	needed := fmt.Sprintf("%s takes %s.", w.whole(), words.Count(f.Needed, "bobbin", "bobbins"))
	if len(f.Due) == 0 {
		return "This bobbin lasts for all of it. " + needed
	}
	d := f.Due[0]
	if d.At < 0.01 && d.Time == 1 {
		return "Put in a fuller bobbin before you start. " + needed
	}
	return fmt.Sprintf("Change the bobbin %s. %s", w.dueAt(d), needed)
}

// whole is what all sewings of the plan are called.
func (w writer) whole() string {
	if _, laid := w.b.Quilt(); laid {
		return "All of it in the quilt"
	}
	return "The top"
}

// once is what one sewing of the plan is called.
func (w writer) once() string {
	if w.b.Plan.Row {
		return "row"
	}
	return "block"
}

// dueAt says where the bobbin is changed.
func (w writer) dueAt(d bench.Due) string {
	if d.At > w.b.Plan.Work.Length()-0.01 {
		return fmt.Sprintf("after %s %d", w.once(), d.Time)
	}
	return fmt.Sprintf("in %s %d, %s along, %s", w.once(), d.Time, w.length(d.At), placeWords[d.Kind])
}

func (w writer) dueText(d bench.Due) string {
	return fmt.Sprintf("%s. It would run low in %s %d, %s along.", upper(w.dueAt(d)), w.once(), d.RunsTime, w.length(d.RunsOut))
}

var placeWords = map[machine.PlaceKind]string{
	machine.EndOfPiece: "at the end of the line", machine.SeamPlace: "at a seam", machine.DotPlace: "at a dot",
	machine.Corner: "at a corner", machine.Junction: "where lines meet",
}
