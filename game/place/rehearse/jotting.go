package rehearse

import (
	"slices"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/scoring/trace"
)

// jot tells what has been written down of the trace in hand.
type jot struct {
	id string // in the journal, empty before the first piece
	at float64
	// samples and pieces are how many have been written.
	samples, pieces int
}

// jotted writes down what came to the trace in hand since the last time, if it is time.
func (r Room) jotted() (Room, []place.Effect) {
	l := r.Live
	if l == nil || l.Counting || len(l.Samples) <= l.jot.samples || r.LastFrame-l.jot.at < place.JotEvery {
		return r, nil
	}
	return r.jotNow()
}

// Drop lets a trace in hand go: what came of it is in the journal, from which the next visit
// takes it.
func (r Room) Drop() (place.Room, []place.Effect) {
	var effects []place.Effect
	if l := r.Live; l != nil && !l.Counting && len(l.Samples) > l.jot.samples {
		r, effects = r.jotNow()
	}
	r.Live, r.journal = nil, ""
	return r, effects
}

// jotNow writes it down.
func (r Room) jotNow() (Room, []place.Effect) {
	l := r.Live
	next := *l
	p := keep.Cut(l.Samples, l.jot.samples, l.holds)
	p.PixelMM = l.pixelMM(r.View.Scale)
	if l.jot.pieces == 0 {
		rec := r.newRecord(trace.Trace{Device: l.device, Ending: trace.Interrupted}, r.Origin+l.t0*1000)
		rec.Way, rec.Guide, rec.WarmUp = l.way, &next.guide, r.Learning.Mode == InWarmUp
		p.Head, next.jot.id = &rec, rec.ID
	}
	doc, err := keep.EncodePiece(p)
	if err != nil {
		return r, nil // the trace itself is kept when it ends
	}
	effects := []place.Effect{place.Jot{ID: next.jot.id, N: l.jot.pieces, Doc: doc}}
	next.jot.pieces++
	next.jot.samples, next.jot.at = len(l.Samples), r.LastFrame
	r.Live, r.journal = &next, next.jot.id
	return r, effects
}

// unjotted takes a trace out of the journal that is not in hand any more and was not kept.
func (r Room) unjotted(effects []place.Effect) (Room, []place.Effect) {
	if r.journal == "" || r.Live != nil && r.Live.jot.id == r.journal {
		return r, effects
	}
	kept := slices.ContainsFunc(effects, func(e place.Effect) bool {
		s, ok := e.(place.Save)
		return ok && s.ID == r.journal
	})
	if !kept {
		effects = append(effects, place.Unjot{ID: r.journal})
	}
	r.journal = ""
	return r, effects
}
