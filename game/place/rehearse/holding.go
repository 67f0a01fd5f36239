package rehearse

import (
	"math"

	"unthreaded/game/control"
	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/screen"
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

// on returns the trace with the cloth's place as it is now. A change by less than a quarter
// of its height, of a bar of the browser which slides away, is none.
func (l *Live) on(c screen.Cloth) *Live {
	was := l.screen
	if c.W == was.W && c.DPR == was.DPR && math.Abs(c.H-was.H) <= was.H/4 {
		return l
	}
	next := *l
	next.screen, next.Resized = c, true
	if l.rests {
		next.needle = c.Middle()
	}
	return &next
}

// playFocus is where the keyboard is led once a trace is finished by hand.
const playFocus control.Focus = "play"

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
func (r Room) lifted() (Room, []place.Effect) {
	l := r.Live
	if l.way != keep.Cloth || l.Counting || pathOf(trace.Trace{Samples: l.Samples}).Length() < minTraceMM || r.left(l) <= endMM {
		return r.finish(trace.Lifted)
	}
	next := *l
	next.rests = true
	next.Dots = l.Dots.Rest(l.last().T, l.last().P)
	r.Live = &next
	return r, nil
}

// left returns how many mm of the line a trace has still before it.
func (r Room) left(l *Live) float64 {
	match, err := align.Follow(r.Line, pathOf(trace.Trace{Samples: l.Samples}))
	if err != nil {
		return 0 // cannot be: the line is in hand, and a trace has samples
	}
	furthest := 0.0
	for i, s := range match.Place {
		if !match.Lost[i] {
			furthest = math.Max(furthest, s)
		}
	}
	return r.Line.Length() - furthest
}

// heldAgain takes a report of a pointer while the needle is down and the hand away:
// a press with the same device goes on with the trace. A finger beside a pen is the
// palm; any other device begins a trace of its own.
func (r Room) heldAgain(p place.Pointer) (Room, []place.Effect) {
	l := r.Live
	switch {
	case p.Kind != place.Down, p.Device == trace.Touch && l.device == trace.Pen:
		return r, nil
	case p.Device != l.device:
		next, effects := r.finish(trace.Lifted)
		return next.begin(p), effects
	}
	next := *l
	last := l.last()
	next.rests, next.pointer = false, p.ID
	next.start, next.first = last.P, r.View.ToCloth(geom.Pt(p.X, p.Y))
	pause := math.Max(0, l.time(p.T)-last.T)
	next.away += pause
	// The samples before share their memory, but no model reads holds again.
	next.holds = append(l.holds, trace.Hold{T: last.T, Pause: pause})
	r.Live = &next
	r.Replay.Playing = false
	return r, nil
}

// finishHere ends a trace whose needle is down; there is nothing to finish otherwise.
func (r Room) finishHere() (Room, []place.Effect) {
	if !r.Live.Rests() {
		return r, nil
	}
	next, effects := r.finish(trace.Lifted)
	next.Shared = next.Lead(playFocus)
	return next, effects
}

// besideSaid says why a trace was not kept.
func besideSaid(way string) place.Notice {
	if way == keep.Cloth {
		return place.Say("rehearse.beside-cloth")
	}
	return place.Say("rehearse.beside")
}
