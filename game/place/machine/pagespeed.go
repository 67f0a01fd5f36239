package machine

import (
	"fmt"
	"math"
	"strconv"

	"unthreaded/game/place/machine/bench"
	"unthreaded/game/sewing"
	"unthreaded/game/words"
	"unthreaded/path/machine"
)

// speed fills in needle, hand and stitch, and returns the sentence.
func (w writer) speed() string {
	o, s := w.out, w.r.Settings
	o.On.Speed = true
	o.Fields = w.fields("needle", "hand", "stitch")
	o.Finds = []Option{{ID: "hand", Name: w.book.Say("machine.find.hand")}, {ID: "needle", Name: w.book.Say("machine.find.needle")}, {ID: "stitch", Name: w.book.Say("machine.find.stitch")}}
	o.Find = string(w.b.Trio.Follows)
	t := w.b.Trio
	o.TrioText = w.book.Say("machine.trio", whole(t.SPM), words.SpeedBothMM(t.Hand()), words.StitchBothMM(t.Stitch))
	o.TrioUse = w.book.Say("machine.use", whole(t.SPM))
	w.pace()
	o.More, o.MoreName = w.fields("slowest", "fastest"), w.book.Say("machine.can-do")
	w.table()
	w.times()
	w.cautions("fingers")
	return w.book.Say("machine.speed", whole(s.SPM), words.StitchMM(s.StitchMM), w.length(s.HandSpeed()))
}

// pace tells her own speed and the needle speed that fits it.
func (w writer) pace() {
	o, p := w.out, w.r.pace()
	switch {
	case p.Hand == 0 && p.Unnoted > 0:
		o.PaceText = w.book.Say("machine.pace-unnoted", p.Unnoted)
		return
	case p.Hand == 0:
		o.PaceText = w.book.Say("machine.pace-none")
		return
	}
	o.PaceText = w.book.Say("machine.pace", words.SpeedBothMM(p.Hand), p.Traces, p.Here)
	pedal, err := w.r.pedal()
	if err != nil {
		o.PaceText += " " + w.book.Say("machine.pace-no-needle")
		return
	}
	o.PaceText += " " + w.book.Say("machine.pace-fits", words.StitchMM(w.r.Settings.StitchMM), whole(pedal.Wanted))
	if !pedal.Fits {
		o.PaceText += " " + w.book.Say("machine.pace-nearest", whole(pedal.Set), words.StitchMM(pedal.Stitch))
		for _, r := range pedal.Remedies {
			o.PaceText += " " + w.remedy(r)
		}
	}
	o.CanPace, o.PaceUse = true, w.book.Say("machine.use", whole(pedal.Set))
}

func (w writer) remedy(r machine.Remedy) string {
	if r.Change == machine.ChangeStitch {
		return w.book.Say("machine.remedy.stitch", r.More, words.StitchMM(r.To), r.Usual)
	}
	return w.book.Say("machine.remedy.hand", r.More, words.SpeedMM(r.To))
}

// whole is a number without parts.
func whole(v float64) words.Decimal { return words.Decimal{Value: v} }

// table lists the hand speeds for her machine at the usual stitches.
func (w writer) table() {
	spis := []float64{machine.MinUsualSPI, 10, machine.MaxUsualSPI}
	stitches := make([]float64, len(spis))
	for i, v := range spis {
		stitches[i] = machine.StitchOf(v)
		head := w.book.Say("machine.spi", whole(v))
		if !w.inches {
			head = w.book.Amount(words.SmallMM(stitches[i]))
		}
		w.out.Heads = append(w.out.Heads, Option{ID: strconv.Itoa(i), Name: head})
	}
	rows, err := w.b.Mine.Speeds(stitches)
	if err != nil {
		return
	}
	for _, r := range rows {
		row := SpeedRow{ID: fmt.Sprintf("%.0f", r.SPM), Now: math.Abs(r.SPM-w.r.Settings.SPM) < 0.5}
		for i, v := range r.Hand {
			text := w.book.Amount(words.SpeedMM(v))
			if w.inches {
				text = w.book.Say("machine.in-per-s", words.Decimal{Value: machine.InchesPerSecond(v), Digits: 2})
			}
			row.Cells = append(row.Cells, Option{ID: strconv.Itoa(i), Name: text})
		}
		w.out.Speeds = append(w.out.Speeds, row)
	}
}

// partNames are what the parts are called.
func (w writer) partNames(parts []bench.Part) []string {
	one, row := w.book.Say("machine.part.block"), w.book.Say("machine.part.row", parts[1].Times)
	if w.b.Plan.Row {
		one, row = w.book.Say("machine.part.once"), w.book.Say("machine.part.across", parts[1].Times)
	}
	return []string{one, row, w.book.Say("machine.part.top", w.b.Job.Rows)}
}

// times lists how long the sewing takes: of the plan once, and of the quilt, which is
// added up by its order, or of the rows that are typed.
func (w writer) times() {
	parts, err := w.b.Parts(w.r.Settings.HandSpeed(), w.r.Settings.StitchMM)
	if err != nil {
		w.out.Times = []Row{{ID: w.book.Say("machine.time"), Note: w.book.Say("machine.cannot")}}
		return
	}
	all, laid := w.quilt()
	for i, name := range w.partNames(parts) {
		if laid && i > 0 {
			break
		}
		t := parts[i].Time
		note := w.book.Say("machine.time-parts", words.DurationS(t.Sewing), words.DurationS(t.Stopping), words.DurationS(t.Halting))
		w.out.Times = append(w.out.Times, Row{ID: name, Value: w.book.Amount(words.DurationS(t.Total)), Note: note})
	}
	w.out.TimesNote = w.book.Say("machine.times-typed")
	if laid {
		w.out.TimesNote = w.book.Say("machine.times-quilt")
		time, note := w.figures(all.Sum.All)
		w.out.Times = append(w.out.Times, Row{ID: w.book.Say("machine.part.quilt"), Value: time, Note: note})
	}
}

// quilt returns the job of the quilt where the rows are taken from it.
func (w writer) quilt() (sewing.Whole, bool) {
	if _, from := w.b.Quilt(); !from {
		return sewing.Whole{}, false
	}
	return w.r.whole()
}
