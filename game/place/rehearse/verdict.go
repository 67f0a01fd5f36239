package rehearse

import (
	"unthreaded/game/place"
	"unthreaded/game/said"
	"unthreaded/game/words"
	"unthreaded/scoring"
)

// sentence is the one that matters most now, and what to do next where it needs a word of
// its own.
func (r Room) sentence() (text, next string) {
	if text, next, leads := r.lessonSentence(); leads {
		return text, next
	}
	switch {
	case r.Live != nil:
		return r.liveSentence(), ""
	case r.Open == nil:
		return r.startSentence(), ""
	}
	return r.traceSentence()
}

// traceSentence says how the trace on the cloth went, the gravest first and nothing that
// the figures or the advice contradict, and the one thing to do next time.
func (r Room) traceSentence() (text, next string) {
	if r.Open.Unmeasured != nil {
		return r.Book().Say("rehearse.too-short"), r.Book().Say("rehearse.too-short-do")
	}
	return r.told(r.Open.Report.First)
}

// figures are the four measures in the order of their worth, and the others.
func (r Room) figures() (top []place.Figure, more []place.Row) {
	if r.Open == nil || r.Live != nil || r.Open.Unmeasured != nil {
		return nil, nil
	}
	rep, book := r.Open.Report, r.Book()
	top = []place.Figure{
		evennessFigure(book, rep, r.Settings),
		lateralFigure(book, rep),
		cornerFigure(book, rep),
		flowFigure(book, rep),
	}
	return top, details(book, rep)
}

// orWhy fills a figure that is not defined with the reason.
func orWhy(book words.Book, f place.Figure, v scoring.Figure) place.Figure {
	if !v.Defined {
		f.Value, f.Note = "-", book.Say("rehearse.unmeasured", said.Why(v))
	}
	return f
}

func evennessFigure(book words.Book, rep scoring.Report, s place.Settings) place.Figure {
	e := rep.Evenness
	f := place.Figure{ID: "evenness", Name: book.Say("rehearse.evenness"), Value: book.Amount(words.Share(e.SpacingCV.Value))}
	f.Note = book.Say("rehearse.evenness-note", e.NearTarget.Defined, words.Share(e.NearTarget.Value), words.StitchMM(s.StitchMM))
	return orWhy(book, f, e.SpacingCV)
}

func lateralFigure(book words.Book, rep scoring.Report) place.Figure {
	l := rep.Lateral
	f := place.Figure{ID: "line", Name: book.Say("rehearse.beside-line"), Value: book.Amount(words.SmallMM(l.MeanError.Value))}
	f.Note = book.Say("rehearse.beside-line-note", words.SmallMM(l.P95.Value), rep.Sewn.Defined && rep.Sewn.Value < 0.9)
	return orWhy(book, f, l.MeanError)
}

func cornerFigure(book words.Book, rep scoring.Report) place.Figure {
	t := rep.Turns
	if len(t.Corners) == 0 {
		f := place.Figure{ID: "corners", Name: book.Say("rehearse.figure.line-followed"), Value: book.Amount(words.Share(rep.Coverage.Value))}
		f.Note = book.Say("rehearse.followed-note")
		return orWhy(book, f, rep.Coverage)
	}
	f := place.Figure{ID: "corners", Name: book.Say("rehearse.corners"), Value: book.Amount(words.SmallMM(t.MeanOvershoot.Value))}
	f.Note = book.Say("rehearse.corners-note", words.SmallMM(t.WorstOvershoot.Value))
	return orWhy(book, f, t.MeanOvershoot)
}

func flowFigure(book words.Book, rep scoring.Report) place.Figure {
	f := place.Figure{ID: "flow", Name: book.Say("rehearse.flow"), Value: book.Say("rehearse.times", hesitations(rep))}
	f.Note = book.Say("rehearse.flow-note")
	return orWhy(book, f, rep.SPARC)
}
