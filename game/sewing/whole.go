package sewing

import (
	"math"
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

// Length and the rest write the figures of a part of the job, no finer than they are
// known.
func Length(p machine.JobPart) any { return words.ThreadMM(p.LengthMM) }

// Stitches writes how many stitches a part takes.
func Stitches(p machine.JobPart) any {
	return words.Span{Low: words.Rough(p.Stitches.Low), High: words.Rough(p.Stitches.High)}
}

// Span writes a time between two, Thread a length of thread, Count a number.
func Span(s machine.Between) any {
	return words.Span{Low: words.RoughS(s.Low), High: words.RoughS(s.High)}
}

func Thread(s machine.Between) any {
	return words.Span{Low: words.RoughThreadMM(s.Low), High: words.RoughThreadMM(s.High)}
}

func Count(s machine.Between) any { return words.Span{Low: int(s.Low), High: int(s.High)} }

// Figures are the figures of a part of the job that count: how long, how many stitches,
// the time at the machine, the thread, the bobbins, the stops.
func Figures(p machine.JobPart) []plan.Fact {
	return []plan.Fact{
		{Name: words.Of("card.sum.length"), Value: Length(p)},
		{Name: words.Of("card.sum.stitches"), Value: Stitches(p)},
		{Name: words.Of("card.sum.time"), Value: Span(p.Machine)},
		{Name: words.Of("card.sum.thread"), Value: Thread(p.Top)},
		{Name: words.Of("card.sum.bobbins"), Value: Count(p.Changes)},
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

// RestsOn lists the assumptions that the figures rest on most.
func RestsOn(b words.Book, a machine.Assumptions) string {
	if b.Inches { // more stitches to the inch are shorter ones
		a.Stitch.Low, a.Stitch.High = a.Stitch.High, a.Stitch.Low
	}
	return b.Amount(words.List{
		words.Of("card.rests.stitch", words.Span{Low: words.StitchMM(a.Stitch.Low), High: words.StitchMM(a.Stitch.High)}),
		words.Of("card.rests.hand", words.Span{Low: words.SpeedMM(a.Hand.Low), High: words.SpeedMM(a.Hand.High)}),
		words.Of("card.rests.stop", Span(a.Stop)),
		words.Of("card.rests.full", Thread(a.Full)),
		words.Of("card.rests.reserve", words.Share(a.Reserve)),
		words.Of("card.rests.evening", Span(a.Evening)),
	})
}

// AtHand are the things that have to be at hand for a job.
func AtHand(j machine.Job) []plan.Fact {
	var out []plan.Fact
	for _, s := range j.Supplies {
		name := words.Of("card.need." + string(s.Code))
		switch s.Code {
		case machine.NeedTop:
			out = append(out, plan.Fact{Name: name, Value: Thread(s.Amount)})
		case machine.NeedMarker:
			amount := Thread(s.Amount)
			if s.Amount.Low == 0 {
				amount = words.Of("card.up-to", words.RoughThreadMM(s.Amount.High))
			}
			out = append(out, plan.Fact{Name: name, Value: amount})
		case machine.NeedRuler:
			out = append(out, plan.Fact{Name: name, Value: words.Of("card.need-yes")})
		default:
			out = append(out, plan.Fact{Name: name, Value: Count(s.Amount)})
		}
	}
	return out
}

// Remaining is what is left in time and thread.
func Remaining(l order.Left) []plan.Fact {
	all := Figures(l.Job.All)
	return []plan.Fact{all[2], all[3]}
}

// Evenings is how many evenings a job takes, whole ones.
func Evenings(p machine.JobPart) plan.Fact {
	return plan.Fact{
		Name:  words.Of("card.sum.evenings"),
		Value: words.Span{Low: int(math.Ceil(p.Evenings.Low)), High: int(math.Ceil(p.Evenings.High))},
	}
}
