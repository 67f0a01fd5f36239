package page

import (
	"fmt"

	"unthreaded/game"
	"unthreaded/game/said"
	"unthreaded/game/words"
	"unthreaded/scoring"
)

// sentence is the one that matters most now.
func sentence(m game.Model) string {
	if text, leads := lessonSentence(m); leads {
		return text
	}
	switch {
	case m.Live != nil:
		return liveSentence(m)
	case m.Open == nil:
		return startSentence(m)
	}
	return traceSentence(m)
}

// traceSentence says how the trace on the cloth went.
func traceSentence(m game.Model) string {
	if m.Open.Unmeasured != "" {
		return "Too short to measure. Follow the line to its end, even if you leave it on the way."
	}
	if first := m.Open.Report.First; first.Word != scoring.SaidFine {
		return told(m, first)
	}
	return firstSentence(m)
}

// firstSentence says the gravest of a trace that was measured, and nothing that the figures
// or the advice contradict.
func firstSentence(m game.Model) string {
	first := m.Open.Report.First
	return m.Book().Write(said.What(first, m.Open.Report, said.Where(first.Share)))
}

// stitchWords gives a stitch length in mm, in inches with the count that quilters
// use before it.
func stitchWords(mm float64, inches bool) string {
	if inches {
		return words.Stitch(mm, true) + " (" + words.Stitch(mm, false) + ")"
	}
	return words.Stitch(mm, false)
}

// figures are the four measures in the order of their worth, and the others.
func figures(m game.Model) (top []Figure, more []Row) {
	if m.Open == nil || m.Live != nil || m.Open.Unmeasured != "" {
		return nil, nil
	}
	rep, inches, book := m.Open.Report, m.Settings.Units == game.Inches, m.Book()
	top = []Figure{
		evennessFigure(book, rep, m.Settings),
		lateralFigure(book, rep),
		cornerFigure(book, rep),
		flowFigure(book, rep),
	}
	return top, details(rep, inches)
}

// orWhy fills a figure that is not defined with the reason.
func orWhy(book words.Book, f Figure, v scoring.Figure) Figure {
	if !v.Defined {
		f.Value, f.Note = "-", "Not measured: "+book.Write(said.Why(v))+"."
	}
	return f
}

func evennessFigure(book words.Book, rep scoring.Report, s game.Settings) Figure {
	e := rep.Evenness
	f := Figure{ID: "evenness", Name: "Stitch length varies by", Value: words.Percent(e.SpacingCV.Value)}
	f.Note = "Up to 15 % is very even, 25 % even."
	if e.NearTarget.Defined {
		f.Note = fmt.Sprintf("%s of the stitches are within 20 %% of %s. %s", words.Percent(e.NearTarget.Value),
			words.Stitch(s.StitchMM, s.Units == game.Inches), f.Note)
	}
	return orWhy(book, f, e.SpacingCV)
}

func lateralFigure(book words.Book, rep scoring.Report) Figure {
	l := rep.Lateral
	f := Figure{ID: "line", Name: "Beside the line", Value: words.Small(l.MeanError.Value)}
	f.Note = fmt.Sprintf("On average. 95 %% of the way is within %s.", words.Small(l.P95.Value))
	if c := rep.Sewn; c.Defined && c.Value < 0.9 {
		f.Note += " What was left out does not count here."
	}
	return orWhy(book, f, l.MeanError)
}

func cornerFigure(book words.Book, rep scoring.Report) Figure {
	t := rep.Turns
	if len(t.Corners) == 0 {
		f := Figure{ID: "corners", Name: "Line followed", Value: words.Percent(rep.Coverage.Value)}
		f.Note = "The share of the line that has a stitch near it. There are no corners to overshoot."
		return orWhy(book, f, rep.Coverage)
	}
	f := Figure{ID: "corners", Name: "Past the corners", Value: words.Small(t.MeanOvershoot.Value)}
	f.Note = fmt.Sprintf("On average. The worst went %s too far.", words.Small(t.WorstOvershoot.Value))
	return orWhy(book, f, t.MeanOvershoot)
}

func flowFigure(book words.Book, rep scoring.Report) Figure {
	f := Figure{ID: "flow", Name: "Slowed and sped up again", Value: words.Count(hesitations(rep), "time", "times")}
	f.Note = "Away from corners and dots. The fewer, the calmer the hand."
	return orWhy(book, f, rep.SPARC)
}
