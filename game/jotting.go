package game

import (
	"slices"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/scoring/trace"
)

// jot tells what has been written down of what is in hand.
type jot struct {
	id string // in the journal, empty before the first piece
	at float64
	// samples and pieces are how many have been written.
	samples, pieces int
}

// Recovered tells that so many traces were found in the journal of a visit that ended
// early, and are kept now.
type Recovered struct{ Traces, Things int }

func (Recovered) IsMsg() {}

// jotted writes down what is in hand, and takes out of the journal what is not in hand any
// more and was not kept.
func (m Model) jotted(before Model, msg Msg, effects []Effect) (Model, []Effect) {
	if l := before.Live; l != nil && l.jot.id != "" && (m.Live == nil || m.Live.jot.id != l.jot.id) && !saves(effects, l.jot.id) {
		effects = append(effects, Unjot{ID: l.jot.id})
	}
	if _, frame := msg.(Frame); !frame {
		return m, effects
	}
	if l := m.Live; l != nil && !l.Counting && len(l.Samples) > l.jot.samples && m.LastFrame-l.jot.at >= place.JotEvery {
		return m.jotTrace(effects)
	}
	return m, effects
}

// saves tells whether a trace is among what is to be kept.
func saves(effects []Effect, id string) bool {
	return slices.ContainsFunc(effects, func(e Effect) bool {
		s, ok := e.(Save)
		return ok && s.ID == id
	})
}

// jotTrace writes down what came to the trace in hand since the last time.
func (m Model) jotTrace(effects []Effect) (Model, []Effect) {
	l := *m.Live
	p := keep.Cut(l.Samples, l.jot.samples, l.holds)
	p.PixelMM = l.pixelMM(m.View.Scale)
	if l.jot.pieces == 0 {
		rec := m.newRecord(trace.Trace{Device: l.device, Ending: trace.Interrupted}, m.Origin+l.t0*1000)
		rec.Way, rec.Guide, rec.WarmUp = l.way, &l.guide, m.Learning.Mode == InWarmUp
		p.Head, l.jot.id = &rec, rec.ID
	}
	doc, err := keep.EncodePiece(p)
	if err != nil {
		return m, effects // the trace itself is kept when it ends
	}
	effects = append(effects, Jot{ID: l.jot.id, N: l.jot.pieces, Doc: doc})
	l.jot.pieces++
	l.jot.samples, l.jot.at = len(l.Samples), m.LastFrame
	m.Live = &l
	return m, effects
}

// recovered tells what was found of a visit that ended early.
func (m Model) recovered(r Recovered) Model {
	switch {
	case r.Traces == 1:
		m.Notice = m.Notice.And(Notice{Text: "The trace that was in hand when the last visit broke off is kept as far as it went."})
	case r.Traces > 1:
		m.Notice = m.Notice.And(Notice{Text: count(r.Traces, "trace") + " that were in hand when a visit broke off are kept as far as they went."})
	}
	if r.Things > 0 {
		m.Notice = m.Notice.And(Notice{Text: "What you were drawing when the last visit broke off is kept as far as it went."})
	}
	return m
}
