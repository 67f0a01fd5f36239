package machine

import (
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
		o.Bobbins = append(o.Bobbins, Option{ID: c.ID, Name: w.book.Say("machine.bobbin", c.ID, words.ThreadMM(full))})
	}
	o.Bobbin = w.b.Mine.Bobbin
	o.Fields = w.fields("first", "thickness")
	o.More, o.MoreName = w.fields("weight", "full"), w.book.Say("machine.my-thread")
	w.cautions("power")
	parts, err := w.b.Parts(w.r.Settings.HandSpeed(), stitch)
	if err != nil {
		return w.book.Say("machine.cannot")
	}
	for i, name := range w.partNames(parts) {
		t := parts[i].Thread
		o.Threads = append(o.Threads, Row{
			ID: name, Value: w.book.Amount(words.ThreadMM(t.Top)),
			Note: w.book.Say("machine.on-bobbins", t.Stitches),
		})
	}
	f, err := w.b.Bobbins(stitch)
	if err != nil {
		return w.book.Say("machine.cannot")
	}
	return w.due(f)
}

// due lists where the bobbin is due, and returns the sentence.
func (w writer) due(f bench.Bobbins) string {
	for i, d := range f.Due {
		w.out.Due = append(w.out.Due, Row{ID: strconv.Itoa(i + 1), Value: w.dueText(d)})
	}
	w.out.DueText = w.book.Say("machine.full", words.ThreadMM(f.Full))
	if f.Short {
		w.out.DueText = w.book.Say("machine.full-short", words.ThreadMM(f.Full))
	}
	_, laid := w.b.Quilt()
	needed := w.book.Say("machine.needed", f.Needed, laid)
	if len(f.Due) == 0 {
		return w.book.Say("machine.lasts", needed)
	}
	d := f.Due[0]
	if d.At < 0.01 && d.Time == 1 {
		return w.book.Say("machine.fuller", needed)
	}
	return w.book.Say("machine.change-bobbin", w.dueAt(d), needed)
}

// dueAt says where the bobbin is changed.
func (w writer) dueAt(d bench.Due) string {
	if d.At > w.b.Plan.Work.Length()-0.01 {
		return w.book.Say("machine.due-after", w.b.Plan.Row, d.Time)
	}
	return w.book.Say("machine.due-in", w.b.Plan.Row, d.Time, w.length(d.At), w.book.Say("machine.at."+string(d.Kind)))
}

func (w writer) dueText(d bench.Due) string {
	return w.book.Say("machine.due", upper(w.dueAt(d)), w.b.Plan.Row, d.RunsTime, w.length(d.RunsOut))
}
