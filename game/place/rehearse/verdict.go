package rehearse

import (
	"fmt"

	"unthreaded/game/place"
	"unthreaded/game/said"
	"unthreaded/game/words"
	"unthreaded/scoring"
)

// sentence is the one that matters most now.
func (r Room) sentence() string {
	if text, leads := r.lessonSentence(); leads {
		return text
	}
	switch {
	case r.Live != nil:
		return r.liveSentence()
	case r.Open == nil:
		return r.startSentence()
	}
	return r.traceSentence()
}

// traceSentence says how the trace on the cloth went.
func (r Room) traceSentence() string {
	if r.Open.Unmeasured != "" {
		return r.Book().Say("rehearse.too-short")
	}
	if first := r.Open.Report.First; first.Word != scoring.SaidFine {
		return r.told(first)
	}
	return r.firstSentence()
}

// firstSentence says the gravest of a trace that was measured, and nothing that the figures
// or the advice contradict.
func (r Room) firstSentence() string {
	first := r.Open.Report.First
	return r.Book().Write(said.What(first, r.Open.Report, said.Where(first.Share)))
}

// figures are the four measures in the order of their worth, and the others.
func (r Room) figures() (top []place.Figure, more []place.Row) {
	if r.Open == nil || r.Live != nil || r.Open.Unmeasured != "" {
		return nil, nil
	}
	rep, inches, book := r.Open.Report, r.Inches(), r.Book()
	top = []place.Figure{
		evennessFigure(book, rep, r.Settings),
		lateralFigure(book, rep),
		cornerFigure(book, rep),
		flowFigure(book, rep),
	}
	return top, details(rep, inches)
}

// orWhy fills a figure that is not defined with the reason.
func orWhy(book words.Book, f place.Figure, v scoring.Figure) place.Figure {
	if !v.Defined {
		f.Value, f.Note = "-", "Not measured: "+book.Write(said.Why(v))+"."
	}
	return f
}

func evennessFigure(book words.Book, rep scoring.Report, s place.Settings) place.Figure {
	e := rep.Evenness
	f := place.Figure{ID: "evenness", Name: "Stitch length varies by", Value: words.Percent(e.SpacingCV.Value)}
	f.Note = "Up to 15 % is very even, 25 % even."
	if e.NearTarget.Defined {
		f.Note = fmt.Sprintf("%s of the stitches are within 20 %% of %s. %s", words.Percent(e.NearTarget.Value),
			words.Stitch(s.StitchMM, s.Units == place.Inches), f.Note)
	}
	return orWhy(book, f, e.SpacingCV)
}

func lateralFigure(book words.Book, rep scoring.Report) place.Figure {
	l := rep.Lateral
	f := place.Figure{ID: "line", Name: "Beside the line", Value: words.Small(l.MeanError.Value)}
	f.Note = fmt.Sprintf("On average. 95 %% of the way is within %s.", words.Small(l.P95.Value))
	if c := rep.Sewn; c.Defined && c.Value < 0.9 {
		f.Note += " What was left out does not count here."
	}
	return orWhy(book, f, l.MeanError)
}

func cornerFigure(book words.Book, rep scoring.Report) place.Figure {
	t := rep.Turns
	if len(t.Corners) == 0 {
		f := place.Figure{ID: "corners", Name: "Line followed", Value: words.Percent(rep.Coverage.Value)}
		f.Note = "The share of the line that has a stitch near it. There are no corners to overshoot."
		return orWhy(book, f, rep.Coverage)
	}
	f := place.Figure{ID: "corners", Name: "Past the corners", Value: words.Small(t.MeanOvershoot.Value)}
	f.Note = fmt.Sprintf("On average. The worst went %s too far.", words.Small(t.WorstOvershoot.Value))
	return orWhy(book, f, t.MeanOvershoot)
}

func flowFigure(book words.Book, rep scoring.Report) place.Figure {
	f := place.Figure{ID: "flow", Name: "Slowed and sped up again", Value: words.Count(hesitations(rep), "time", "times")}
	f.Note = "Away from corners and dots. The fewer, the calmer the hand."
	return orWhy(book, f, rep.SPARC)
}
