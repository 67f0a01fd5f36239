package game

import (
	"math"

	"unthreaded/game/keep"
	"unthreaded/path/geom"
	"unthreaded/scoring/align"
	"unthreaded/scoring/trace"
)

const (
	// endMM is how near the end of the line in mm a hand that lets go of the cloth has
	// finished: about four stitches.
	endMM = 10.0
)

// Rests tells whether the needle is down in a trace that is not finished, and the hand
// away from the cloth.
func (l *Live) Rests() bool { return l != nil && l.rests }

// time returns the time in s on the clock of the samples at event time t.
func (l *Live) time(t float64) float64 { return t - l.t0 - l.away }

// since is the time in s at which the hand took hold for the last time.
func (l *Live) since() float64 {
	if n := len(l.holds); n > 0 {
		return l.holds[n-1].T
	}
	return 0
}

// lifted takes the lifting of the pointer: it ends the trace, but where she moves the
// cloth and has some way to go she may take hold of it again, as at the machine, where
// the hands are set anew with the needle down.
func (m Model) lifted() (Model, []Effect) {
	l := m.Live
	if l.way != keep.Cloth || l.Counting || pathOf(trace.Trace{Samples: l.Samples}).Length() < minTraceMM || m.left(l) <= endMM {
		return m.finish(trace.Lifted)
	}
	next := *l
	next.rests = true
	next.Dots = l.Dots.Rest(l.last().T, l.last().P)
	m.Live = &next
	return m, nil
}

// left returns how many mm of the line a trace has still before it.
func (m Model) left(l *Live) float64 {
	match, err := align.Follow(m.Line, pathOf(trace.Trace{Samples: l.Samples}))
	if err != nil {
		return 0 // cannot be: the line is in hand, and a trace has samples
	}
	furthest := 0.0
	for i, s := range match.Place {
		if !match.Lost[i] {
			furthest = math.Max(furthest, s)
		}
	}
	return m.Line.Length() - furthest
}

// heldAgain takes a report of a pointer while the needle is down and the hand away:
// a press with the same device goes on with the trace. A finger beside a pen is the
// palm; any other device begins a trace of its own.
func (m Model) heldAgain(p Pointer) (Model, []Effect) {
	l := m.Live
	switch {
	case p.Kind != Down, p.Device == trace.Touch && l.device == trace.Pen:
		return m, nil
	case p.Device != l.device:
		next, effects := m.finish(trace.Lifted)
		return next.begin(p), effects
	}
	next := *l
	last := l.last()
	next.rests, next.pointer = false, p.ID
	next.start, next.first = last.P, m.View.ToCloth(geom.Pt(p.X, p.Y))
	pause := math.Max(0, l.time(p.T)-last.T)
	next.away += pause
	// The samples before share their memory, but no model reads holds again.
	next.holds = append(l.holds, trace.Hold{T: last.T, Pause: pause})
	m.Live = &next
	m.Replay.Playing = false
	return m, nil
}

// finishHere ends a trace whose needle is down; there is nothing to finish otherwise.
func (m Model) finishHere() (Model, []Effect) {
	if !m.Live.Rests() {
		return m, nil
	}
	next, effects := m.finish(trace.Lifted)
	return next.focusOn("#play"), effects
}

// besideText says why a trace was not kept.
func besideText(way string) string {
	if way == keep.Cloth {
		return "The line did not run under the needle, so this was not kept. Hold the ring and push the cloth against the way that the line goes."
	}
	return "That was beside the line, so it was not kept. Begin on the start dot."
}
