package card

import (
	"slices"
	"strings"
	"time"

	"unthreaded/game/plan"
	"unthreaded/game/words"
	"unthreaded/path/machine"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

// Whole is what the cards of a whole quilt are made of: its layout, the order in which
// it is sewn, what that adds up to, and what of it is ticked off.
type Whole struct {
	Quilt   quilt.Quilt
	Order   order.Order
	Sum     machine.Job
	Assumed machine.Assumptions
	Sewn    order.Sewn
	// Left is what is left to be sewn; nil before anything is ticked off.
	Left *order.Left
}

// Has tells whether there is a stage of this index.
func (w Whole) Has(stage int) bool { return stage >= 0 && stage < len(w.Order.Stages) }

// StageCode names a stage in the names of files: "row-2", "ditch-across".
func (w Whole) StageCode(stage int) string {
	s := w.Order.Stages[stage]
	if s.Kind == order.Ditch {
		return s.ID
	}
	return string(s.Kind) + "-" + words.Book{}.Amount(s.Number)
}

// StageName is what a stage is called at the beginning of a line.
func StageName(b words.Book, s order.Stage) string {
	if s.Kind == order.Ditch {
		return words.Upper(b.Say("order.ditch." + strings.TrimPrefix(s.ID, "ditch-")))
	}
	return words.Upper(b.Say("order.stage."+string(s.Kind), s.Number))
}

// Done returns the day on which a stage was sewn, "" where it is not; a stage whose
// legs are all ticked off is sewn too.
func (w Whole) Done(stage int) string {
	s := w.Order.Stages[stage]
	if day := w.Sewn.Ticked(order.Tick{Kind: order.StageTick, Stage: s.ID}); day != "" {
		return day
	}
	last := ""
	for k := range s.Legs {
		day := w.Sewn.Ticked(w.Order.TickOf(stage, k))
		if day == "" {
			return ""
		}
		last = max(last, day)
	}
	return last
}

// BobbinTick is the tick beside the change of the bobbin i, counted from 0.
func BobbinTick(i int) order.Tick { return order.Tick{Kind: order.BobbinTick, Number: i + 1} }

// BobbinText says where the bobbin is changed for the i-th time, counted from 0: before
// a place of a stage, or so far along it; before a line by itself.
func (w Whole) BobbinText(b words.Book, i int) string {
	c := w.Sum.Bobbins[i]
	s := w.Order.Stages[c.Stage]
	if s.Line && c.Within == 0 {
		return b.Say("card.bobbin-line", i+2, StageName(b, s))
	}
	if c.Within > 0 {
		return b.Say("card.bobbin-within", i+2, StageName(b, s), c.Leg+1, words.LengthMM(c.Within))
	}
	return b.Say("card.bobbin-before", i+2, StageName(b, s), c.Leg+1)
}

// bobbinsOf returns the changes of the bobbin in a stage.
func (w Whole) bobbinsOf(stage int) []int {
	var out []int
	for i, c := range w.Sum.Bobbins {
		if c.Stage == stage {
			out = append(out, i)
		}
	}
	return out
}

// programs returns the different programs of a stage in the order in which they are met
// first, each with its legs.
func (w Whole) programs(stage int) []used {
	var out []used
	for k, l := range w.Order.Stages[stage].Legs {
		i := slices.IndexFunc(out, func(u used) bool { return u.program == l.Program })
		if i < 0 {
			i, out = len(out), append(out, used{program: l.Program})
		}
		out[i].legs = append(out[i].legs, k)
	}
	return out
}

// used is a program with the legs of a stage in which it is sewn.
type used struct {
	program int
	legs    []int
}

// length and the rest write the figures of a part of the job, no finer than they are
// known.
func length(p machine.JobPart) any { return words.ThreadMM(p.LengthMM) }

func stitches(p machine.JobPart) any {
	return words.Span{Low: words.Rough(p.Stitches.Low), High: words.Rough(p.Stitches.High)}
}

func span(s machine.Between) any {
	return words.Span{Low: words.RoughS(s.Low), High: words.RoughS(s.High)}
}

func thread(s machine.Between) any {
	return words.Span{Low: words.RoughThreadMM(s.Low), High: words.RoughThreadMM(s.High)}
}

func count(s machine.Between) any { return words.Span{Low: int(s.Low), High: int(s.High)} }

// Figures are the figures of a part of the job that count: how long, how many stitches,
// the time at the machine, the thread, the bobbins, the stops.
func Figures(p machine.JobPart) []plan.Fact {
	return []plan.Fact{
		{Name: words.Of("card.sum.length"), Value: length(p)},
		{Name: words.Of("card.sum.stitches"), Value: stitches(p)},
		{Name: words.Of("card.sum.time"), Value: span(p.Machine)},
		{Name: words.Of("card.sum.thread"), Value: thread(p.Top)},
		{Name: words.Of("card.sum.bobbins"), Value: count(p.Changes)},
		{Name: words.Of("card.sum.stops"), Value: p.Starts},
	}
}

// DayText writes the day of a tick.
func DayText(b words.Book, day string) string {
	t, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return day
	}
	return b.Amount(words.Date(t))
}
