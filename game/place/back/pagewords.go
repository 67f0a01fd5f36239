package back

import (
	"cmp"
	"errors"
	"math"
	"strings"

	"unthreaded/game/place/back/weeks"
	"unthreaded/game/words"
	"unthreaded/scoring/progress"
)

// verdict is the sentence on the progress.
func verdict(f weeks.Found) words.Msg {
	j := f.Judged
	if f.Trouble != nil {
		return words.Of("back.unjudged")
	}
	change := words.Of("back.change."+string(f.Measure), score(j.Before, f), score(j.Now, f))
	switch j.Verdict {
	case progress.ReallyBetter:
		return words.Of("back.better", change)
	case progress.ReallyWorse:
		return words.Of("back.worse", f.Measure == progress.Spacing, change)
	case progress.Unchanged:
		return words.Of("back.untold", change)
	}
	return early(f)
}

// onChart fills in the view over the weeks.
func onChart(p *pageOf, m Room, f weeks.Found) {
	r, b := &p.in, m.Book()
	var said words.Msg
	switch {
	case len(f.Marks) == 0 && m.Weeks.Busy():
		said = words.Of("back.working")
	case len(f.Marks) == 0 && f.Motif == "":
		said = words.Of("back.early.all-motifs")
	case len(f.Marks) == 0:
		said = words.Of("back.no-measure", f.Measure == progress.Corners)
	case len(f.Scores) == 0:
		said = early(f)
	default:
		said = verdict(f)
	}
	p.Sentence = b.Write(said)
	r.Figures = judged(f, b)
	r.Curve = b.Write(curve(f))
	r.Moves, r.MovesNote = movements(f, b)
	r.HasMoves = len(r.Moves) > 0
	r.Method = method(f, b)
	p.Cloth = b.Say("back.cloth.chart", words.Of("back.measure."+string(cmp.Or(f.Measure, m.Weeks.Asked().Measure))), len(f.Scores))
	scoreTable(r, m, f)
	better(r, f, m)
	if m.Told {
		r.Told = m.PickedText()
	}
}

// curve says where the learning curve levels off, or why that cannot be told.
func curve(f weeks.Found) words.Msg {
	switch {
	case len(f.Scores) == 0:
		return words.Msg{}
	case f.NoCurve == nil:
		c := f.Curve
		half := 0 // no sessions: nothing is said of them
		if c.Rate > 0 && c.Rate < 5 {
			half = int(math.Max(1, math.Round(math.Ln2/c.Rate)))
		}
		return words.Of("back.curve", score(c.Plateau, f), score(c.Interval.Low, f), score(c.Interval.High, f), half)
	case errors.Is(f.NoCurve, progress.ErrFewSessions):
		return words.Of("back.curve-few", progress.LeastCurve)
	case errors.Is(f.NoCurve, progress.ErrNoPlateau):
		return words.Of("back.curve-on-the-way")
	case errors.Is(f.NoCurve, progress.ErrNoChange):
		return words.Of("back.curve-none")
	}
	return words.Of("back.curve-unfit")
}

// movements says which kinds of place get better and which do not.
func movements(f weeks.Found, b words.Book) (rows []Row, note string) {
	if f.Measure == progress.Corners || f.Measure == progress.Flow {
		return nil, ""
	}
	for _, mv := range progress.Movements {
		j, ok := f.Moves[mv]
		if !ok {
			continue
		}
		row := Row{ID: b.Say("back.move." + strings.ReplaceAll(string(mv), " ", "-")), Value: b.Say("back.verdict." + string(j.Verdict))}
		if j.Sessions >= progress.LeastSessions {
			row.Note = b.Say("back.now-and-before", moveValue(j.Now, f), moveValue(j.Before, f))
		}
		rows = append(rows, row)
	}
	return rows, b.Say("back.moves-note", f.Measure == progress.Beside)
}

func moveValue(v float64, f weeks.Found) any {
	if f.Motif != "" && f.Measure == progress.Spacing {
		return words.Share(v)
	}
	return score(v, f)
}
