package page

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"unthreaded/game"
	"unthreaded/game/weeks"
	"unthreaded/game/words"
	"unthreaded/scoring/progress"
)

// value writes a value of what is looked at, with its unit.
func value(v float64, f weeks.Found) string {
	switch {
	case f.Motif == "" && f.Measure == progress.Flow:
		return fmt.Sprintf("%+.2f against usual", v)
	case f.Motif == "":
		return words.Percent(v) + " of usual"
	case f.Measure == progress.Spacing:
		return words.Percent(v)
	case f.Measure == progress.Flow:
		return fmt.Sprintf("%.2f", v)
	}
	return words.Small(v)
}

// what names the measure as the subject of a sentence about a value.
var what = map[progress.Measure]string{
	progress.Spacing: "your stitches varied by %s at first and vary by %s now",
	progress.Beside:  "you were %s beside the line at first and are %s now",
	progress.Corners: "you went %s past the corners at first and go %s now",
	progress.Flow:    "your smoothness (SPARC) was %s at first and is %s now",
}

// verdict is the sentence on the progress.
func verdict(f weeks.Found) string {
	j := f.Judged
	if f.Trouble != nil {
		return "These traces cannot be judged: " + f.Trouble.Error() + "."
	}
	change := fmt.Sprintf(what[f.Measure], value(j.Before, f), value(j.Now, f))
	switch j.Verdict {
	case progress.ReallyBetter:
		return "Really better: " + change + "."
	case progress.ReallyWorse:
		return "Really worse: " + change + ". Tired, hurried, a new pen or chair? Shorter sessions over more days often bring it back."
	case progress.Unchanged:
		return "Within your usual variation: " + change + ". That is no more than you differ from day to day."
	}
	need := progress.LeastSessions - j.Sessions
	return fmt.Sprintf("Too early to say: %s of %d can be judged so far, %s to go.", counted(j.Sessions, "session"), progress.LeastSessions, counted(need, "session"))
}

// onChart fills in the view over the weeks.
func onChart(p *Page, m game.Model, f weeks.Found) {
	r := &p.Back
	switch {
	case len(f.Marks) == 0 && m.Back.Book.Busy():
		p.Sentence = "Working out your sessions."
	case len(f.Marks) == 0:
		p.Sentence = "None of these traces has this measure. " + why(f.Measure)
	case len(f.Scores) == 0:
		p.Sentence = "Too early to say: these traces are all from warming up. A session counts from its third trace on."
	default:
		p.Sentence = verdict(f)
	}
	r.Figures = judged(f)
	r.Curve = curve(f)
	r.Moves, r.MovesNote = movements(f)
	r.HasMoves = len(r.Moves) > 0
	r.Method = method(f)
	p.ClothLabel = fmt.Sprintf("Chart of %s over %s. The table beside it holds the same.", strings.ToLower(measureNames[f.Measure]), counted(len(f.Scores), "session"))
	scoreTable(r, m, f)
}

// why tells which traces lack a measure.
func why(m progress.Measure) string {
	if m == progress.Corners {
		return "It is for lines with corners, such as the ruler zigzag."
	}
	return "They were too short for it."
}

// judged are the figures behind the verdict.
func judged(f weeks.Found) []Figure {
	j := f.Judged
	if f.Trouble != nil || j.Verdict == progress.TooEarly || j.Sessions == 0 {
		return nil
	}
	odds := ""
	if e := math.Abs(j.InErrors); e >= 1 {
		odds = fmt.Sprintf(" Seen by itself such a change is real with odds of about %s to 1.", oddsText(progress.Odds(e)))
	}
	return []Figure{
		{ID: "now", Name: "Now", Value: value(j.Now, f), Note: "The middle of your newest sessions; at first it was " + value(j.Before, f) + "."},
		{ID: "usual", Name: "From one session to the next you differ by", Value: spread(j.Usual.Value, f),
			Note: fmt.Sprintf("Your change is %.1f times that; from %.0f times on it can be called real.%s", math.Abs(j.InErrors), progress.RealChange, odds)},
		{ID: "trend", Name: "Trend in a week", Value: signed(7*j.Slope, f),
			Note: fmt.Sprintf("%s to %s in 95 of 100 cases. %s", signed(7*j.SlopeInterval.Low, f), signed(7*j.SlopeInterval.High, f), chance(j.Trend.P))},
	}
}

// oddsText rounds odds as a person would say them.
func oddsText(v float64) string {
	if v > 1000 {
		return "over 1000"
	}
	if v >= 20 {
		v = 10 * math.Round(v/10)
	}
	return fmt.Sprintf("%.0f", v)
}

// chance says how often the order of the sessions would look so by chance.
func chance(p float64) string {
	if p < 0.001 {
		return "Such an order of sessions comes about by chance less than once in 1000 times."
	}
	return fmt.Sprintf("Such an order of sessions comes about by chance %.1f times in 100.", 100*p)
}

// spread writes a difference of values, signed one with its sign.
func spread(v float64, f weeks.Found) string {
	// Points are percentage points.
	if f.Motif == "" && f.Measure != progress.Flow || f.Measure == progress.Spacing {
		return fmt.Sprintf("%.1f points", 100*v)
	}
	if f.Measure == progress.Flow {
		return fmt.Sprintf("%.2f", v)
	}
	return fmt.Sprintf("%.2f mm", v)
}

func signed(v float64, f weeks.Found) string {
	if v >= 0 {
		return "+" + spread(v, f)
	}
	return "-" + spread(-v, f)
}

// curve says where the learning curve levels off, or why that cannot be told.
func curve(f weeks.Found) string {
	switch {
	case len(f.Scores) == 0:
		return ""
	case f.NoCurve == nil:
		c := f.Curve
		text := fmt.Sprintf("Your learning curve levels off at %s (between %s and %s in 95 of 100 cases).", value(c.Plateau, f), value(c.Interval.Low, f), value(c.Interval.High, f))
		if c.Rate > 0 && c.Rate < 5 {
			text += fmt.Sprintf(" Half of what is left comes in about %s.", counted(int(math.Max(1, math.Round(math.Ln2/c.Rate))), "session"))
		}
		return text
	case errors.Is(f.NoCurve, progress.ErrFewSessions):
		return fmt.Sprintf("From %d sessions on that can be judged, this page looks for your learning curve and where it levels off.", progress.LeastCurve)
	case errors.Is(f.NoCurve, progress.ErrNoPlateau):
		return "You are still on the way: where your learning curve will level off cannot be told yet."
	case errors.Is(f.NoCurve, progress.ErrNoChange):
		return "There is no learning curve to be seen: the sessions differ no more than by chance."
	}
	return "There is no learning curve: " + f.NoCurve.Error() + "."
}

var moveNames = map[progress.Movement]string{
	progress.Corner: "Corners", progress.Loop: "Loops", progress.TightLeft: "Tight curves to the left", progress.TightRight: "Tight curves to the right",
	progress.Left: "Wide curves to the left", progress.Right: "Wide curves to the right", progress.Straight: "Straights",
}

// movements says which kinds of place get better and which do not.
func movements(f weeks.Found) (rows []Row, note string) {
	if f.Measure == progress.Corners || f.Measure == progress.Flow {
		return nil, ""
	}
	for _, mv := range progress.Movements {
		j, ok := f.Moves[mv]
		if !ok {
			continue
		}
		row := Row{ID: moveNames[mv], Value: string(j.Verdict)}
		if j.Sessions >= progress.LeastSessions {
			row.Note = fmt.Sprintf("%s, was %s", moveValue(j.Now, f), moveValue(j.Before, f))
		}
		rows = append(rows, row)
	}
	note = "How far the stitches there stray from your usual length on the line."
	if f.Measure == progress.Beside {
		note = "How far beside the line you are there."
	}
	return rows, note + " Looking at many places finds something by chance more often; the verdicts allow for that and are stricter."
}

func moveValue(v float64, f weeks.Found) string {
	if f.Motif != "" && f.Measure == progress.Spacing {
		return words.Percent(v)
	}
	return value(v, f)
}

// method says how it is worked out, and how far it can be trusted.
func method(f weeks.Found) []Row {
	rows := []Row{
		{ID: "A single good day means nothing.", Note: "Everybody has one. That is why nothing is said before six sessions, and why two things have to agree: a change larger than you differ from day to day, and an order of sessions that is no chance."},
		{ID: "What counts.", Note: fmt.Sprintf("A session is practice without a break of half an hour. Its first %d traces only warm the hand up. It can be judged once %d more count; its score is their middle.", progress.WarmUpTraces, progress.LeastTraces)},
		{ID: "How often it is wrong.", Note: "With a look after each of 60 sessions, fewer than 5 in 100 people who do not change are ever told that they did. Where good and bad days come in spells it can be twice as many."},
		{ID: "What it cannot know.", Note: "A screen is no quilt. Getting better here is a good sign and no proof; what you sew tells. The limits used are ours, those of practising are advice of moderate strength."},
	}
	if f.Motif == "" {
		rows = append(rows, Row{ID: "All motifs together.", Note: "Each trace is set against the middle of all like it, 100 % being usual for you on that line. A line traced in one session only is left out."})
	}
	if f.Measure == progress.Flow {
		rows = append(rows, Row{ID: "Smoothness.", Note: "SPARC rewards a smooth start and stop and has no unit. Differences under 0.05 mean nothing; compare on the same line only."})
	}
	return rows
}
