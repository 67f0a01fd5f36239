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
	out    []place.Row
	inches bool
}

func (r *rows) add(name, note string, f scoring.Figure, show func(float64) string) {
	if f.Defined {
		r.out = append(r.out, place.Row{ID: name, Value: show(f.Value), Note: note})
	}
}

func (r *rows) say(name, note, value string) {
	r.out = append(r.out, place.Row{ID: name, Value: value, Note: note})
}

// details lists everything that was measured, in groups of what belongs together.
func details(rep scoring.Report, inches bool) []place.Row {
	r := &rows{inches: inches}
	r.pace(rep)
	r.nearness(rep)
	r.turns(rep)
	r.flow(rep)
	r.way(rep)
	return r.out
}

func (r *rows) pace(rep scoring.Report) {
	speed := func(v float64) string { return words.Speed(v, r.inches) }
	r.add("Hand speed", "Where the hand cruised.", rep.Pace.Cruise, speed)
	r.add("Planned hand speed", "Stitch length times needle speed.", rep.Pace.Planned, speed)
	r.say("Time", "From pointer down to pointer up.", words.Clock(rep.Duration))
	r.add("Time as planned", "For the whole line.", rep.Pace.Seconds, words.Clock)
	r.add("Mean stitch", "", rep.Evenness.StitchMM, func(v float64) string { return words.Stitch(v, r.inches) })
	r.add("Hand speed varies by", "Ends and corners left out, the device's own share taken off.", rep.Evenness.SpeedCV, words.Percent)
	r.add("Share of the device", "How much its whole pixels or slow reports alone would vary the speed.", rep.Evenness.SpeedNoise, func(v float64) string { return fmt.Sprintf("%.1f %%", 100*v) })
	r.say("Stitches counted", "Ends, corners and gaps left out.", fmt.Sprint(rep.Evenness.Stitches))
}

func (r *rows) nearness(rep scoring.Report) {
	l := rep.Lateral
	if l.Side != "" {
		r.add("Mostly to the "+string(l.Side), "The mean with its side, seen in the direction of the line.", l.Offset, func(v float64) string { return words.Small(math.Abs(v)) })
	}
	r.add("Spread", "How much the distance from the line varies.", l.Spread, words.Small)
	r.add("95 % within", "", l.P95, words.Small)
	r.add("Farthest", "", l.Max, words.Small)
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
	r.say("Corners cut", "Passed on the inside.", fmt.Sprintf("%d of %d", cut, len(rep.Turns.Corners)))
	if n > 0 {
		r.say("Back on the line after", "The longest way after a corner.", words.Small(settle))
	}
	r.say("Longest rest at a corner", "The needle goes on meanwhile.", words.Clock(dwell))
	worst := 0.0
	for _, leg := range rep.Legs {
		if leg.Bow.Defined {
			worst = math.Max(worst, leg.Bow.Value)
		}
	}
	if worst > 0 {
		r.say("Most bent straight line", "From its highest peak to its lowest valley (ISO 12780, STRt).", words.Small(worst))
	}
}

func (r *rows) flow(rep scoring.Report) {
	r.add("Smoothness (SPARC)", "No unit. Nearer 0 is smoother. Compare on this line only; 0.05 more or less means nothing.", rep.SPARC, two)
	knots := 0
	for _, s := range rep.Stops {
		if s.Kind == scoring.Knot {
			knots++
		}
	}
	r.say("Stops in mid-line", "Stitches pile up in one spot.", fmt.Sprint(knots))
	r.add("Slowing in curves", "Exponent of curvature: 0 is even, 0.33 a hand's own habit on an ellipse.", rep.Slowing.Exponent, two)
	r.add("Untrained hand on this line", "The same exponent, from theory.", rep.Slowing.Untrained, two)
	if len(rep.Strokes) > 1 {
		var each []string
		for _, s := range rep.Strokes {
			if s.SPARC.Defined {
				each = append(each, two(s.SPARC.Value))
			}
		}
		r.say("Smoothness of each stroke", "SPARC between stops.", strings.Join(each, "  "))
	}
}

func two(v float64) string { return fmt.Sprintf("%.2f", v) }

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
	length := func(v float64) string { return words.Length(v, r.inches) }
	r.add("Sewn", "The share of the line that was gone along in its order, however far beside it.", rep.Sewn, words.Percent)
	r.add("Line followed", "Within 3 mm.", rep.Coverage, words.Percent)
	r.say("Left out", "", length(rep.Cover.MissedMM))
	r.say("Sewn twice", "", length(rep.Cover.DoubledMM))
	order := "yes"
	switch {
	case !rep.Order.Followed && stoppedShort(rep):
		order = "not to the end"
	case !rep.Order.Followed:
		order = "no"
	}
	r.say("In order from start to end", "", order)
	r.add("Longest leash", "Frechet distance: two walkers, on line and trace, neither turning back.", rep.Order.Frechet, words.Small)
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
		r.say("Dots missed", "", fmt.Sprintf("%d of %d", missed, n))
		r.say("Dots out of order", "", fmt.Sprint(early))
		r.say("Stopped on", "With the needle down.", fmt.Sprintf("%d of %d dots", stops, n))
	}
	r.say("Difficulty of the line", "Steering index in a lane of 6 mm; 40 is hard to hold.", fmt.Sprintf("%.0f", rep.Difficulty.Steering))
	r.say("Turning of the line", "", fmt.Sprintf("%.1f full turns", rep.Difficulty.Turning/(2*math.Pi)))
	if rep.Faulty > 0 {
		r.say("Faulty samples", "No hand is that fast: they were left out.", fmt.Sprint(rep.Faulty))
	}
	if rep.Unrecorded > 0 {
		r.say("Not recorded", "Gaps in the samples.", words.Clock(rep.Unrecorded))
	}
}

// stoppedShort tells whether the one part left out is the end of the line.
func stoppedShort(rep scoring.Report) bool {
	missed := rep.Cover.Missed
	return len(missed) == 1 && missed[0].To > rep.LineMM-5
}

// advice puts the worst places into words.
func (r Room) advice() []AdviceRow {
	if r.Open == nil || r.Live != nil || r.Open.Unmeasured != "" {
		return nil
	}
	rep := r.Open.Report
	var out []AdviceRow
	for i, a := range rep.Advice {
		out = append(out, AdviceRow{
			ID: fmt.Sprint(i + 1), Text: r.told(a), At: fmt.Sprintf("%.1f", math.Max(0.1, a.Fault.At)),
		})
	}
	return out
}

// told says what happened and what to try.
func (r Room) told(a scoring.Advice) string {
	rep, book := r.Open.Report, r.Book()
	do := said.Do(a, rep, machine.NeedleSpeed.Check, book.Inches)
	return book.Write(said.What(a, rep, said.Where(a.Share))) + " " + book.Write(do)
}
