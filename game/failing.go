package game

import (
	"unthreaded/game/guard"
	"unthreaded/game/place"
)

// Faulted tells that something went wrong on the page, outside Update; what it was stands on
// the browser's console.
type Faulted struct{}

func (Faulted) IsMsg() {}

// dropper is a room that may have something in hand which would fail again and again: Drop
// writes it down and lets it go.
type dropper interface {
	Drop() (place.Room, []Effect)
}

// failed returns the model after a fault of the program: as it was before, but for a trace in
// hand, which stays in the journal with all its samples.
func (m Model) failed() (Model, []Effect) {
	m.Notice = place.Say("page.fault")
	r, ok := m.room(m.Place).(dropper)
	if !ok {
		return m, nil
	}
	next, effects := m, []Effect(nil)
	if guard.Run("journal", func() {
		room, out := r.Drop()
		next, effects = m.after(m.Place, room, out)
	}) != nil {
		return m, nil
	}
	if len(effects) > 0 {
		next.Notice = place.Say("page.fault-trace")
	}
	return next, effects
}
