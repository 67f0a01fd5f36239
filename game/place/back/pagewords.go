package back

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"unthreaded/game/place/back/weeks"
	"unthreaded/game/words"
	"unthreaded/scoring/progress"
)

// what names the measure as the subject of a sentence about a value.
var what = map[progress.Measure]string{
	progress.Spacing: "your stitches varied by %s at first and vary by %s now",
	progress.Beside:  "you were %s beside the line at first and are %s now",
	progress.Corners: "you went %s past the corners at first and go %s now",
	progress.Flow:    "your smoothness was %s at first and is %s now (nearer to 0 is smoother)",
}

// verdict is the sentence on the progress.
func verdict(f weeks.Found) string {
	j := f.Judged
	if f.Trouble != nil {
		return "These traces cannot be judged: " + f.Trouble.Error() + "."
	}
	change := fmt.Sprintf(what[f.Measure], ScoreText(j.Before, f), ScoreText(j.Now, f))
	switch j.Verdict {
	case progress.ReallyBetter:
		return "Better: " + change + "."
	case progress.ReallyWorse:
		return worse(f.Measure) + change + ". Tired, hurried, a new pen or chair? Shorter sessions over more days often bring it back."
	case progress.Unchanged:
		return "It cannot be told yet: " + change + ". One good day can be chance."
	}
	return early(f)
}

// worse begins the sentence of a change for the worse.
func worse(m progress.Measure) string {
	if m == progress.Spacing {
		return "Less even than before: "
	}
	return "Worse than before: "
}

// verdictNames are the verdicts on a movement.
var verdictNames = map[progress.Verdict]string{
	progress.ReallyBetter: "better", progress.ReallyWorse: "worse", progress.Unchanged: "cannot be told yet", progress.TooEarly: "too early to say",
}

// onChart fills in the view over the weeks.
func onChart(p *pageOf, m Room, f weeks.Found) {
	r := &p.in
	switch {
	case len(f.Marks) == 0 && m.Weeks.Busy():
		p.Sentence = "Working out your sessions."
	case len(f.Marks) == 0 && f.Motif == "":
		p.Sentence = "Too early to say: all motifs together need a line that you traced in two sessions, with more than its first two traces."
	case len(f.Marks) == 0:
		p.Sentence = "None of these traces has this measure. " + why(f.Measure)
	case len(f.Scores) == 0:
		p.Sentence = early(f)
	default:
		p.Sentence = verdict(f)
	}
	r.Figures = judged(f)
	r.Curve = curve(f)
	r.Moves, r.MovesNote = movements(f)
	r.HasMoves = len(r.Moves) > 0
	r.Method = method(f)
	p.Cloth = fmt.Sprintf("Chart of %s over %s. The table beside it holds the same.", strings.ToLower(measureNames[f.Measure]), counted(len(f.Scores), "session"))
	scoreTable(r, m, f)
	better(r, f, m)
	if m.Told {
		r.Told = m.PickedText()
	}
}

// why tells which traces lack a measure.
func why(m progress.Measure) string {
	if m == progress.Corners {
		return "It is for lines with corners, such as the ruler zigzag."
	}
	return "They were too short for it."
}

// curve says where the learning curve levels off, or why that cannot be told.
func curve(f weeks.Found) string {
	switch {
	case len(f.Scores) == 0:
		return ""
	case f.NoCurve == nil:
		c := f.Curve
		text := fmt.Sprintf("Your learning curve levels off at about %s, somewhere between %s and %s.", ScoreText(c.Plateau, f), ScoreText(c.Interval.Low, f), ScoreText(c.Interval.High, f))
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
		row := Row{ID: moveNames[mv], Value: verdictNames[j.Verdict]}
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
	return ScoreText(v, f)
}
