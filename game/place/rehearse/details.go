package rehearse

import (
	"fmt"
	"math"
	"strings"

	"unthreaded/game/place"
	"unthreaded/game/said"
	"unthreaded/game/words"
	"unthreaded/path/machine"
	"unthreaded/scoring"
)

// rows collects the figures behind the first four; one that is not defined is left
// out.
type rows struct {
	out []place.Row
	words.Book
}

func (r *rows) add(key string, f scoring.Figure, show func(float64) any) {
	if f.Defined {
		r.say(key, show(f.Value))
	}
}

// say adds a row, under its name and with what it means where that needs a word.
func (r *rows) say(key string, value any) {
	row := place.Row{ID: r.Say("rehearse.figure." + key), Value: r.Amount(value)}
	if words.Has("rehearse.figure-note." + key) {
		row.Note = r.Say("rehearse.figure-note." + key)
	}
	r.out = append(r.out, row)
}

// The amounts in which figures are shown.
func share(v float64) any { return words.Share(v) }
func small(v float64) any { return words.SmallMM(v) }
func speed(v float64) any { return words.SpeedMM(v) }

// stitch is a measured stitch length in mm; where they pile up no count is given.
func stitch(v float64) any {
	if v < words.LeastStitchMM {
		return words.StitchToMM(v)
	}
	return words.StitchMM(v)
}
func seconds(v float64) any { return words.ClockS(v) }
func two(v float64) any     { return words.Decimal{Value: v, Digits: 2} }

// details lists everything that was measured, in groups of what belongs together.
func details(b words.Book, rep scoring.Report) []place.Row {
	r := &rows{Book: b}
	r.pace(rep)
	r.nearness(rep)
	r.turns(rep)
	r.flow(rep)
	r.way(rep)
	return r.out
}

func (r *rows) pace(rep scoring.Report) {
	r.add("hand-speed", rep.Pace.Cruise, speed)
	r.add("planned-hand-speed", rep.Pace.Planned, speed)
	r.say("time", words.ClockS(rep.Duration))
	r.add("time-as-planned", rep.Pace.Seconds, seconds)
	r.add("mean-stitch", rep.Evenness.StitchMM, stitch)
	r.add("hand-speed-varies-by", rep.Evenness.SpeedCV, share)
	r.add("share-of-the-device", rep.Evenness.SpeedNoise, func(v float64) any { return words.Of("unit.percent", words.Decimal{Value: 100 * v, Digits: 1}) })
	r.say("stitches-counted", rep.Evenness.Stitches)
}

func (r *rows) nearness(rep scoring.Report) {
	l := rep.Lateral
	if l.Side != "" {
		r.add("mostly-"+string(l.Side), l.Offset, func(v float64) any { return words.SmallMM(math.Abs(v)) })
	}
	r.add("spread", l.Spread, small)
	r.add("most-within", l.P95, small)
	r.add("farthest", l.Max, small)
}

func (r *rows) turns(rep scoring.Report) {
	cut, dwell, settle, n := 0, 0.0, 0.0, 0
	for _, c := range rep.Turns.Corners {
		if c.Cut {
			cut++
		}
		dwell = math.Max(dwell, c.Dwell)
		if c.Settling.Defined {
			settle = math.Max(settle, c.Settling.Value)
			n++
		}
	}
	if len(rep.Turns.Corners) == 0 {
		return
	}
	r.say("corners-cut", words.Of("rehearse.of", cut, len(rep.Turns.Corners)))
	if n > 0 {
		r.say("back-on-the-line-after", words.SmallMM(settle))
	}
	r.say("longest-rest-at-a-corner", words.ClockS(dwell))
	worst := 0.0
	for _, leg := range rep.Legs {
		if leg.Bow.Defined {
			worst = math.Max(worst, leg.Bow.Value)
		}
	}
	if worst > 0 {
		r.say("most-bent-straight-line", words.SmallMM(worst))
	}
}

func (r *rows) flow(rep scoring.Report) {
	r.add("smoothness", rep.SPARC, two)
	knots := 0
	for _, s := range rep.Stops {
		if s.Kind == scoring.Knot {
			knots++
		}
	}
	r.say("stops-in-mid-line", knots)
	r.add("slowing-in-curves", rep.Slowing.Exponent, two)
	r.add("untrained-hand-on-this-line", rep.Slowing.Untrained, two)
	if len(rep.Strokes) > 1 {
		var each []string
		for _, s := range rep.Strokes {
			if s.SPARC.Defined {
				each = append(each, r.Amount(two(s.SPARC.Value)))
			}
		}
		r.say("smoothness-of-each-stroke", strings.Join(each, "  "))
	}
}

func hesitations(rep scoring.Report) int {
	n := 0
	for _, h := range rep.Hesitations {
		if !h.AtBreak {
			n++
		}
	}
	return n
}

func (r *rows) way(rep scoring.Report) {
	r.add("sewn", rep.Sewn, share)
	r.add("line-followed", rep.Coverage, share)
	r.say("left-out", words.LengthMM(rep.Cover.MissedMM))
	r.say("sewn-twice", words.LengthMM(rep.Cover.DoubledMM))
	order := words.Of("rehearse.order.yes")
	switch {
	case !rep.Order.Followed && stoppedShort(rep):
		order = words.Of("rehearse.order.short")
	case !rep.Order.Followed:
		order = words.Of("rehearse.order.no")
	}
	r.say("in-order-from-start-to-end", order)
	r.add("longest-leash", rep.Order.Frechet, small)
	if n := len(rep.Dots); n > 0 {
		missed, early, stops := 0, 0, 0
		for _, d := range rep.Dots {
			if !d.Reached {
				missed++
			}
			if d.Early {
				early++
			}
			if d.Stop > 0 {
				stops++
			}
		}
		r.say("dots-missed", words.Of("rehearse.of", missed, n))
		r.say("dots-out-of-order", early)
		r.say("stopped-on", words.Of("rehearse.of-dots", stops, n))
	}
	r.say("difficulty-of-the-line", words.Decimal{Value: rep.Difficulty.Steering})
	r.say("turning-of-the-line", words.Of("rehearse.turns", words.Decimal{Value: rep.Difficulty.Turning / (2 * math.Pi), Digits: 1}))
	if rep.Faulty > 0 {
		r.say("faulty-samples", rep.Faulty)
	}
	if rep.Unrecorded > 0 {
		r.say("not-recorded", words.ClockS(rep.Unrecorded))
	}
}

// stoppedShort tells whether the one part left out is the end of the line.
func stoppedShort(rep scoring.Report) bool {
	missed := rep.Cover.Missed
	return len(missed) == 1 && missed[0].To > rep.LineMM-5
}

// advice puts the worst places into words.
func (r Room) advice() []AdviceRow {
	if r.Open == nil || r.Live != nil || r.Open.Unmeasured != nil {
		return nil
	}
	rep := r.Open.Report
	var out []AdviceRow
	for i, a := range rep.Advice {
		what, do := r.told(a)
		out = append(out, AdviceRow{
			ID: fmt.Sprint(i + 1), Text: what + " " + do, At: fmt.Sprintf("%.1f", math.Max(0.1, a.Fault.At)),
		})
	}
	return out
}

// told says what happened and what to try.
func (r Room) told(a scoring.Advice) (what, do string) {
	rep, book := r.Open.Report, r.Book()
	return book.Write(said.What(a, rep, r.where(a))), book.Write(said.Do(a, rep, machine.NeedleSpeed.Check, book.Inches))
}

// where names the place of a fault: the repeat of the row it lies in, else how far along
// the line it is.
func (r Room) where(a scoring.Advice) words.Msg {
	if k := r.repeatAt(a.Fault.At); k > 0 {
		return words.Of("said.inside", r.Book().MotifNth(r.Motif.ID, k))
	}
	return said.Where(a.Share)
}
