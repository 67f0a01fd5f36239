package game

import (
	"slices"

	"unthreaded/game/board"
	"unthreaded/game/keep"
	"unthreaded/path/quilt"
	"unthreaded/scoring/trace"
)

// jotEvery is how often in s what is in hand is written down: a page that goes down loses no
// more than that, and the time that writing takes.
const jotEvery = 0.5

// jot tells what has been written down of what is in hand.
type jot struct {
	id string // in the journal, empty before the first piece
	at float64
	// samples and pieces are how many have been written.
	samples, pieces int
}

// Jot writes a piece of what is in hand into the journal, over the one of the same
// number. Unjot takes all its pieces out again.
type Jot struct {
	ID  string
	N   int
	Doc []byte
}

// Unjot takes what was in hand out of the journal.
type Unjot struct{ ID string }

func (Jot) IsEffect()   {}
func (Unjot) IsEffect() {}

// Recovered tells that so many traces were found in the journal of a visit that ended
// early, and are kept now.
type Recovered struct{ Traces, Things int }

func (Recovered) IsMsg() {}

// jotted writes down what is in hand, and takes out of the journal what is not in hand any
// more and was not kept.
func (m Model) jotted(before Model, msg Msg, effects []Effect) (Model, []Effect) {
	if l := before.Live; l != nil && l.jot.id != "" && (m.Live == nil || m.Live.jot.id != l.jot.id) && !saves(effects, l.jot.id) {
		effects = append(effects, Unjot{l.jot.id})
	}
	if m.Drawing.jot.id != "" && m.Drawing.pointer == nil {
		// The line is on the block, or given up; the block itself is kept next.
		m, effects = m.jotThing(effects)
		m.Drawing.jot = jot{}
	}
	if _, frame := msg.(Frame); !frame {
		return m, effects
	}
	if l := m.Live; l != nil && !l.Counting && len(l.Samples) > l.jot.samples && m.LastFrame-l.jot.at >= jotEvery {
		return m.jotTrace(effects)
	}
	if m.Drawing.pointer != nil && len(m.Drawing.Board.Stroke) > m.Drawing.jot.samples && m.LastFrame-m.Drawing.jot.at >= jotEvery {
		return m.jotThing(effects)
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
	effects = append(effects, Jot{l.jot.id, l.jot.pieces, doc})
	l.jot.pieces++
	l.jot.samples, l.jot.at = len(l.Samples), m.LastFrame
	m.Live = &l
	return m, effects
}

// jotThing writes down the block as it would be if the stroke in hand ended here.
func (m Model) jotThing(effects []Effect) (Model, []Effect) {
	b := m.Drawing.Board
	n := len(b.Stroke)
	if m.Drawing.pointer != nil {
		if b.Tool != board.Pencil || b.Cornering() {
			return m, effects
		}
		b = b.Up()
	}
	doc, err := quilt.EncodeDesign(b.Design)
	if err != nil {
		return m, effects
	}
	id := DesignThing + "." + b.Design.ID
	piece, err := keep.EncodePiece(keep.Piece{Thing: &keep.ThingPiece{Kind: DesignThing, ID: b.Design.ID, Doc: string(doc)}})
	if err != nil {
		return m, effects
	}
	m.Drawing.jot = jot{id: id, at: m.LastFrame, samples: n}
	return m, append(effects, Jot{id, 0, piece})
}

// strokeEnded ends a stroke that is in hand in Draw where it has come to.
func (m Model) strokeEnded() Model {
	d := &m.Drawing
	if d.pointer == nil || d.Board.Tool != board.Pencil || d.Board.Cornering() {
		return m
	}
	if d.Board = d.Board.Up(); d.Board.Said == "" {
		d.Board.Said = "The page went out of sight, so the line ended there. Undo takes it back."
	}
	m.Drawing = d.letGo()
	m, _ = m.drawChanged()
	return m
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
