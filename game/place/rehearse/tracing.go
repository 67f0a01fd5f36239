package rehearse

import (
	"math"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/screen"
	"unthreaded/scoring/trace"
)

// minTraceMM is the least length in mm of a movement that is kept as a trace.
const minTraceMM = keep.TapMM

// point takes one report of a pointer. Only the pointer that began the trace
// draws; a second finger, or a palm beside the pen, is left out.
func (r Room) point(p place.Pointer) (Room, []place.Effect) {
	if r.Live == nil {
		if p.Kind != place.Down {
			return r, nil
		}
		return r.begin(p), nil
	}
	if r.Live.Rests() {
		return r.heldAgain(p)
	}
	if p.ID != r.Live.pointer {
		return r.second(p)
	}
	switch p.Kind {
	case place.Move:
		r.Live = r.Live.with(r.View, p)
		return r, r.Live.sound(r.Live.ticks, false, r.Settings.Volume)
	case place.Up:
		r.Live = r.Live.with(r.View, p)
		return r.lifted()
	case place.Cancel:
		return r.finish(trace.Interrupted)
	case place.Down:
		// The same pointer can only go down again if its lifting was lost.
		next, effects := r.finish(trace.Interrupted)
		return next.begin(p), effects
	}
	return r, nil
}

// second handles another pointer than the drawing one. A pen that comes down
// while a finger draws takes over at once, for that finger was the palm; what it
// drew so far is kept if it is a trace.
func (r Room) second(p place.Pointer) (Room, []place.Effect) {
	if p.Kind != place.Down || p.Device != trace.Pen || r.Live.device != trace.Touch {
		return r, nil
	}
	next, effects := r.finish(trace.Interrupted)
	return next.begin(p), effects
}

func (r Room) begin(p place.Pointer) Room {
	r = r.lessonBegun()
	r.Live = r.newLive(p)
	r.Live.told = r.Notice
	r.Replay.Playing = false
	if r.Open == nil {
		r.Replay.T = 0
	}
	return r
}

// with adds a sample. The samples share their memory with the model before, which
// is never used again after an Update. While the beats before the start are
// counted, only the last sample is held.
func (l *Live) with(v screen.View, p place.Pointer) *Live {
	next := *l
	at := l.under(v, p)
	if next.Counting && len(next.Samples) > 0 {
		start, ended := next.Count.Ended(p.T, at, next.t0)
		if !ended {
			next.t0, next.Samples[0].P = p.T, at
			return &next
		}
		next = next.started(start)
	}
	t := next.time(p.T)
	if t < next.since() {
		return &next // it was reported late and belongs to the count or to the hold before
	}
	next.Samples = append(next.Samples, trace.Sample{T: t, P: at, Pressure: p.Pressure})
	if p.X == math.Trunc(p.X) && p.Y == math.Trunc(p.Y) {
		next.whole++
	}
	if next.Counting {
		return &next
	}
	next = next.follow()
	return &next
}

// trace returns what was drawn as a trace. Scale is in pixels per mm.
func (l *Live) trace(end trace.Ending, scale float64) trace.Trace {
	tr := trace.Trace{Samples: l.Samples, Holds: l.holds, Device: l.device, Ending: end, ClockStep: trace.ClockStep(l.Samples)}
	tr.PixelMM = l.pixelMM(scale)
	return tr
}

// pixelMM returns the size of a pixel in mm where the device reports whole ones, else 0;
// one that reports fractions gives a whole number only now and then.
func (l *Live) pixelMM(scale float64) float64 {
	if l.whole*10 >= len(l.Samples)*9 {
		return 1 / scale
	}
	return 0
}

// finish ends the trace, lays it on the cloth as stitches, and has it kept.
func (r Room) finish(end trace.Ending) (Room, []place.Effect) {
	live := r.Live
	r.Live = nil
	if r.Notice.Is(live.told) {
		r.Notice = place.Notice{}
	}
	left := live.Rests() && end == trace.Interrupted
	if left {
		end = trace.Lifted // the hand was off the cloth already
	}
	tr := live.trace(end, r.View.Scale)
	if pathOf(tr).Length() < minTraceMM {
		r.Notice = place.Say("rehearse.tap")
		if live.way == keep.Cloth {
			r.Notice = place.Say("rehearse.tap-cloth")
		}
		return r.fitted(), nil
	}
	sh := r.made(tr, r.Origin+live.t0*1000, live)
	if sh.Beside() {
		r.Notice = besideSaid(live.way)
		return r.fitted(), nil
	}
	r, effects := r.laid(sh)
	r, more := r.lessonMade(live)
	effects = append(effects, more...)
	switch {
	case left:
		r.Notice = place.Say("rehearse.needle-was-down")
	case end == trace.Interrupted:
		r.Notice = place.Say("rehearse.interrupted")
	case live.Resized:
		r.Notice = place.Say("rehearse.window-changed")
	}
	return r.fitted().runs(end), effects
}
