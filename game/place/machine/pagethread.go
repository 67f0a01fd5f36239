package machine

import (
	"strconv"

	"unthreaded/game/place/machine/bench"
	"unthreaded/game/sewing"
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
	if all, laid := w.quilt(); laid {
		return w.quiltThread(all, parts[0])
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

// quiltThread tells of the thread of the whole quilt, and where its bobbins are changed.
func (w writer) quiltThread(all sewing.Whole, one bench.Part) string {
	o, sum := w.out, all.Sum.All
	o.Threads = []Row{
		{ID: w.partNames([]bench.Part{one, one, one})[0], Value: w.book.Amount(words.ThreadMM(one.Thread.Top)), Note: w.book.Say("machine.on-bobbins", one.Thread.Stitches)},
		{ID: w.book.Say("machine.part.quilt"), Value: w.book.Amount(sewing.Figures(sum)[3].Value), Note: w.book.Say("machine.on-bobbins-about", sewing.Figures(sum)[1].Value)},
	}
	for i := range all.Sum.Bobbins {
		o.Due = append(o.Due, Row{ID: strconv.Itoa(i + 1), Value: all.BobbinText(w.book, i)})
	}
	o.DueText = w.book.Say("machine.full", words.ThreadMM(w.b.Mine.Full()), words.Share(w.b.Mine.Assumed.Reserve))
	bobbins := sewing.Figures(sum)[4].Value
	if len(all.Sum.Bobbins) == 0 {
		return w.book.Say("machine.quilt-lasts")
	}
	return w.book.Say("machine.quilt-bobbins", bobbins, all.BobbinText(w.book, 0))
}

// due lists where the bobbin is due, and returns the sentence.
func (w writer) due(f bench.Bobbins) string {
	for i, d := range f.Due {
		w.out.Due = append(w.out.Due, Row{ID: strconv.Itoa(i + 1), Value: w.dueText(d)})
	}
	w.out.DueText = w.book.Say("machine.full", words.ThreadMM(f.Full), words.Share(machine.Reserve.Usual))
	if f.Short {
		w.out.DueText = w.book.Say("machine.full-short", words.ThreadMM(f.Full), words.Share(machine.Reserve.Usual))
	}
	needed := w.book.Say("machine.needed", f.Needed)
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
