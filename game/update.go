package game

import (
	"math"

	"unthreaded/game/guard"
	"unthreaded/game/place"
	"unthreaded/game/place/back"
	"unthreaded/game/work"
)

// Update takes one message and returns the model after it and what is to be done
// outside. The model before must not be used again. A fault of the program on the way
// is said, and costs what was asked for alone.
func Update(m Model, msg Msg) (Model, []Effect) {
	next, effects := m, []Effect(nil)
	if guard.Run("Update", func() {
		next, effects = update(m, msg)
		next, effects = next.placeKept(effects)
		var asks []Effect
		next, asks = next.planned()
		effects = append(effects, asks...)
	}) != nil {
		return m.failed()
	}
	return next, effects
}

func update(m Model, msg Msg) (Model, []Effect) {
	m, effects := m.happened(msg)
	switch msg.(type) {
	case Pointer, Frame, Control, Interrupt, work.Told, work.Done, work.Aside:
		return m, effects
	}
	m, effects = m.heard(msg, effects)
	if _, read := msg.(Shelf); read {
		var more []Effect
		m, more = m.resume()
		effects = append(effects, more...)
	}
	return m, effects
}

// happened takes a message where it belongs; those for all rooms are told to them
// after it.
func (m Model) happened(msg Msg) (Model, []Effect) {
	switch msg := msg.(type) {
	case Resized:
		return m.resized(msg), nil
	case SystemDark:
		m.Dark = msg.Dark
	case SystemMotion:
		m.Moves = msg.Moves
	case Reads:
		m.Shared = m.WithReads(msg)
		m = m.demoNamed()
	case Pointer:
		return m.front(func(r place.Room) (place.Room, []Effect) { return r.Point(msg) })
	case Frame:
		return m.frame(msg.Now)
	case Control:
		return m.control(msg)
	case Interrupt:
		return m.front(place.Room.Leave) // the page is going out of sight
	case Listed:
		return m.arrived(msg), nil
	case Saved:
		return m.saved(msg), nil
	case Shelf:
		return m.shelf(msg)
	case Shelved:
		return m.shelved(msg), nil
	case BackupProgress, BackupMade, BackupChecked, Restored, TableNews, Filmed:
		return m.jobNews(msg)
	case work.Done:
		return m.workDone(msg)
	case work.Told:
		m.Working = m.Working.Told(msg)
	case work.Aside:
		m.Working.Aside = true
	case Photo:
		return m.photo(msg)
	case Faulted:
		m.Notice = place.Say("page.fault-page")
	case Recovered:
		return m.recovered(msg), nil
	case Unrestored:
		m.Notice = place.Say("page.trace-gone")
	case Stuck:
		m.Stuck = msg
	case back.Zone:
		now := m.Seconds()
		m.Ahead = math.Round(float64(msg.Zone.Date(now).UnixMilli())/1000 - now)
	case StorageOff:
		m.StorageWhy = msg.Why
		return m.resume()
	case Persistence:
		m.Persisted = msg.Granted
	}
	return m, nil
}

// resized takes the new size of the cloth's place.
func (m Model) resized(r Resized) Model {
	m.Screen = m.Settings.Screens.Sized(r)
	return m.relaid()
}

// frame moves on what goes by itself.
func (m Model) frame(now float64) (Model, []Effect) {
	dt := now - m.LastFrame
	m.LastFrame = now
	if m.FirstFrame == 0 {
		m.FirstFrame = now
	}
	return m.front(func(r place.Room) (place.Room, []Effect) { return r.Frame(dt) })
}

// Playing tells whether something moves, or is being made, by itself.
func (m Model) Playing() bool {
	return m.Front().Playing() || m.begins()
}
