package machine

import (
	"fmt"
	"math"
	"strconv"

	"unthreaded/game/place/machine/bench"
	"unthreaded/game/words"
	"unthreaded/path/machine"
)

// speed fills in needle, hand and stitch, and returns the sentence.
func (w writer) speed() string {
	o, s := w.out, w.r.Settings
	o.On.Speed = true
	o.Fields = w.fields("needle", "hand", "stitch")
	o.Finds = []Option{{ID: "hand", Name: "the hand speed"}, {ID: "needle", Name: "the needle speed"}, {ID: "stitch", Name: "the stitch length"}}
	o.Find = string(w.b.Trio.Follows)
	t := w.b.Trio
	o.TrioText = fmt.Sprintf("%.0f stitches a minute, hand %s, stitches %s.", t.SPM, words.InBoth(t.Hand()), words.StitchInBoth(t.Stitch))
	o.TrioUse = fmt.Sprintf("Use %.0f a minute", t.SPM)
	w.pace()
	o.More, o.MoreName = w.fields("slowest", "fastest"), "What my machine can do"
	w.table()
	w.times()
	w.cautions("fingers")
	return fmt.Sprintf("%.0f stitches a minute at %s: move your hand %s a second.", s.SPM, words.Stitch(s.StitchMM, w.inches), w.length(s.HandSpeed()))
}

// pace tells her own speed and the needle speed that fits it.
func (w writer) pace() {
	o, p := w.out, w.r.pace()
	switch {
	case p.Hand == 0 && p.Unnoted > 0:
		o.PaceText = fmt.Sprintf("Your %s kept without the speed of the hand. Trace this route once in Rehearse, and your own speed stands here.", words.Count(p.Unnoted, "trace was", "traces were"))
		return
	case p.Hand == 0:
		o.PaceText = "No trace is kept yet. Trace this route once in Rehearse, and your own comfortable speed stands here."
		return
	}
	where := "other lines; none of this plan is kept yet"
	if p.Here {
		where = "this plan"
	}
	o.PaceText = fmt.Sprintf("Your own speed is %s, from your last %s of %s.", words.InBoth(p.Hand), words.Count(p.Traces, "trace", "traces"), where)
	pedal, err := w.r.pedal()
	if err != nil {
		o.PaceText += " No needle speed fits it: " + err.Error() + "."
		return
	}
	o.PaceText += fmt.Sprintf(" It makes stitches of %s at %.0f stitches a minute.", words.Stitch(w.r.Settings.StitchMM, w.inches), pedal.Wanted)
	if !pedal.Fits {
		o.PaceText += fmt.Sprintf(" Your machine keeps %.0f at the nearest, which makes %s.", pedal.Set, words.Stitch(pedal.Stitch, w.inches))
		for _, r := range pedal.Remedies {
			o.PaceText += " " + w.remedy(r)
		}
	}
	o.CanPace, o.PaceUse = true, fmt.Sprintf("Use %.0f a minute", pedal.Set)
}

func (w writer) remedy(r machine.Remedy) string {
	to := words.Speed(r.To, w.inches)
	if r.Change == machine.ChangeStitch {
		to = words.Stitch(r.To, w.inches)
		if !r.Usual {
			to += ", which is unusual"
		}
	}
	return fmt.Sprintf("%s (%s)", r.Text, to)
}

// table lists the hand speeds for her machine at the usual stitches.
func (w writer) table() {
	spis := []float64{machine.MinUsualSPI, 10, machine.MaxUsualSPI}
	stitches := make([]float64, len(spis))
	for i, v := range spis {
		stitches[i] = machine.StitchOf(v)
		head := fmt.Sprintf("%.0f spi", v)
		if !w.inches {
			head = fmt.Sprintf("%.1f mm", stitches[i])
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
			text := fmt.Sprintf("%.0f mm/s", v)
			if w.inches {
				text = fmt.Sprintf("%.2f in/s", machine.InchesPerSecond(v))
			}
			row.Cells = append(row.Cells, Option{ID: strconv.Itoa(i), Name: text})
		}
		w.out.Speeds = append(w.out.Speeds, row)
	}
}

// partNames are what the parts are called.
func (w writer) partNames(parts []bench.Part) []string {
	l := w.b.Layout()
	_, all := l.Fullest()
	one, row, times := "One block", "A row", words.Count(parts[1].Times, "block", "blocks")
	if w.b.Plan.Row {
		one, row, times = "This row once", "Across the quilt", words.Count(parts[1].Times, "time", "times")
	} else if !all {
		row = "The fullest row"
	}
	top := fmt.Sprintf("The top, %s", words.Count(len(l.Rows), "row", "rows"))
	if _, laid := w.b.Quilt(); laid {
		top = fmt.Sprintf("All of it in the quilt, %s", words.Count(parts[2].Times, "time", "times"))
	}
	return []string{one, row + ", " + times, top}
}

// times lists how long the sewing takes.
func (w writer) times() {
	parts, err := w.b.Parts(w.r.Settings.HandSpeed(), w.r.Settings.StitchMM)
	if err != nil {
		w.out.Times = []Row{{ID: "Time", Value: "", Note: upper(err.Error()) + "."}}
		return
	}
	for i, name := range w.partNames(parts) {
		t := parts[i].Time
		note := fmt.Sprintf("%s sewing, %s stopping, %s halting to turn or to move the ruler.", words.Duration(t.Sewing), words.Duration(t.Stopping), words.Duration(t.Halting))
		w.out.Times = append(w.out.Times, Row{ID: name, Value: words.Duration(t.Total), Note: note})
	}
}
