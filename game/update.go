package game

import (
	"fmt"
	"slices"

	"unthreaded/game/replay"
	"unthreaded/scoring/trace"
)

// Update takes one message and returns the model after it and what is to be done
// outside. The model before must not be used again.
func Update(m Model, msg Msg) (Model, []Effect) {
	switch msg := msg.(type) {
	case Resized:
		m.Screen = msg
		return m.relaid(), nil
	case SystemDark:
		m.dark = msg.Dark
	case Pointer:
		return m.pointAt(msg)
	case Frame:
		return m.frame(msg.Now)
	case Control:
		return m.control(msg)
	case Interrupt:
		return m.interrupted()
	case Listed:
		if msg.Damaged > 0 {
			m.Notice = Notice{Text: fmt.Sprintf("%d kept traces could not be read. They were left as they are.", msg.Damaged)}
		}
		return m.listed(append(m.all, msg.Past...)), nil
	case Fetched:
		return m.fetched(msg)
	case Saved:
		return m.saved(msg), nil
	case Shelf:
		return m.shelf(msg)
	case Shelved:
		return m.shelved(msg), nil
	case Photo:
		return m.photo(msg)
	case Zone:
		m.Back = m.Back.in(msg)
	case StorageOff:
		m.StorageWhy = msg.Why
	case Persistence:
		m.Persisted = msg.Granted
	}
	return m, nil
}

// interrupted keeps what is in hand: the page is going out of sight.
func (m Model) interrupted() (Model, []Effect) {
	m, effects := m.keepDrawing()
	if m.Live == nil {
		return m, effects
	}
	m, more := m.finish(trace.Interrupted)
	return m, append(effects, more...)
}

// frame moves the replay on, and keeps a drawing that has rested for a while.
func (m Model) frame(now float64) (Model, []Effect) {
	dt := now - m.lastFrame
	m.lastFrame = now
	m.Replay = m.Replay.Advance(dt)
	m.Desk.Clock = m.Desk.Clock.Advance(dt)
	if m.Place == Draw {
		m.Drawing = m.Drawing.previewNext()
	}
	if since := m.Drawing.unkept; since > 0 && now-since > keepAfter {
		return m.keepDrawing()
	}
	return m.backFrame(dt)
}

// Playing tells whether something moves, or is being made, by itself.
func (m Model) Playing() bool {
	return m.Replay.Playing || m.Desk.Clock.Playing || m.lookingBack() || m.Place == Draw && m.Drawing.making()
}

// scrub sets the replay to the place s mm along the line.
func (m Model) scrub(s float64) Model {
	if m.Open == nil || len(m.Open.Place) == 0 {
		return m
	}
	m.Replay.Playing = false
	// The slider's end means the end of the trace, also where dwelling there takes
	// time that no place on the line shows.
	if last := m.Open.Place[len(m.Open.Place)-1]; s >= last && last >= slices.Max(m.Open.Place) {
		m.Replay = m.Replay.At(m.Replay.Length)
		return m
	}
	m.Replay = m.Replay.At(replay.TimeAt(m.Open.Place, m.Open.Prep.Rate, s))
	return m
}

// PlaceNow returns the place on the line in mm that the replay has reached.
func (m Model) PlaceNow() float64 {
	if m.Open == nil {
		return 0
	}
	return replay.PlaceAt(m.Open.Place, m.Open.Prep.Rate, m.Replay.T)
}
