package game

import (
	"math"

	"unthreaded/game/keep"
	"unthreaded/scoring/trace"
)

// minTraceMM is the least length in mm of a movement that is kept as a trace.
const minTraceMM = keep.TapMM

// point takes one report of a pointer. Only the pointer that began the trace
// draws; a second finger, or a palm beside the pen, is left out.
func (m Model) point(p Pointer) (Model, []Effect) {
	if m.Live == nil {
		if p.Kind != Down {
			return m, nil
		}
		return m.begin(p), nil
	}
	if m.Live.Rests() {
		return m.heldAgain(p)
	}
	if p.ID != m.Live.pointer {
		return m.second(p)
	}
	switch p.Kind {
	case Move:
		m.Live = m.Live.with(m.View, p)
		return m, m.Live.sound(m.Live.ticks, false, m.Settings.Volume)
	case Up:
		m.Live = m.Live.with(m.View, p)
		return m.lifted()
	case Cancel:
		return m.finish(trace.Interrupted)
	case Down:
		// The same pointer can only go down again if its lifting was lost.
		next, effects := m.finish(trace.Interrupted)
		return next.begin(p), effects
	}
	return m, nil
}

// second handles another pointer than the drawing one. A pen that comes down
// while a finger draws takes over at once, for that finger was the palm; what it
// drew so far is kept if it is a trace.
func (m Model) second(p Pointer) (Model, []Effect) {
	if p.Kind != Down || p.Device != trace.Pen || m.Live.device != trace.Touch {
		return m, nil
	}
	next, effects := m.finish(trace.Interrupted)
	return next.begin(p), effects
}

func (m Model) begin(p Pointer) Model {
	m = m.lessonBegun()
	m.Live = m.newLive(p)
	m.Live.told = m.Notice
	m.Replay.Playing = false
	return m
}

// with adds a sample. The samples share their memory with the model before, which
// is never used again after an Update. While the beats before the start are
// counted, only the last sample is held.
func (l *Live) with(v View, p Pointer) *Live {
	next := *l
	at := l.place(v, p)
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
func (m Model) finish(end trace.Ending) (Model, []Effect) {
	live := m.Live
	m.Live = nil
	if m.Notice.Is(live.told) {
		m.Notice = Notice{}
	}
	left := live.Rests() && end == trace.Interrupted
	if left {
		end = trace.Lifted // the hand was off the cloth already
	}
	tr := live.trace(end, m.View.Scale)
	if pathOf(tr).Length() < minTraceMM {
		m.Notice = Notice{Text: "That was a tap. Hold the pointer down on the start dot and draw along the chalk line."}
		if live.way == keep.Cloth {
			m.Notice = Notice{Text: "That was a tap. Hold the pointer down on the ring and push the cloth, so that the line runs under the needle."}
		}
		return m.relaid(), nil
	}
	sh := m.made(tr, m.Origin+live.t0*1000, live)
	if sh.Beside() {
		m.Notice = Notice{Text: besideText(live.way)}
		return m.relaid(), nil
	}
	m, effects := m.laid(sh)
	m, more := m.lessonMade(live)
	effects = append(effects, more...)
	switch {
	case left:
		m.Notice = Notice{Text: "The needle was down. The trace is kept as far as it went."}
	case end == trace.Interrupted:
		m.Notice = Notice{Text: "The trace was interrupted. It is kept as far as it went."}
	case live.Resized:
		m.Notice = Notice{Text: "The window changed while you traced. The cloth stayed where it was until you lifted the pointer; now it is laid out for the new size."}
	}
	return m.relaid(), effects
}

// keep lists a record among the past traces and has it saved.
func (m Model) keep(rec keep.Record) (Model, []Effect) {
	doc, err := keep.Encode(rec)
	if err != nil {
		m.Notice = Notice{Text: "This trace could not be written down: " + err.Error()}
		return m, nil
	}
	sum := keep.Summarise(rec)
	sumDoc, err := keep.EncodeSummary(sum)
	if err != nil {
		m.Notice = Notice{Text: "This trace could not be written down: " + err.Error()}
		return m, nil
	}
	m = m.listed(append([]keep.Summary{sum}, m.Records...))
	return m, []Effect{Save{ID: rec.ID, Doc: doc, Summary: sumDoc}}
}
