// Package game is the program itself, without a screen: the model, what can
// happen to it, and what it wants done. Update is pure; it reads no clock, no
// storage and no pointer but through messages.
package game

import (
	"unthreaded/game/place"
	"unthreaded/game/words"
)

// Model is the whole state of the program.
type Model struct {
	place.Shared
	rooms rooms

	// placeKnown tells that the place in front is that of this visit, which is kept for
	// the next.
	placeKnown bool

	// planning is what is seen to of the order of the quilt on the table.
	planning planning
	// Stuck are traces that wait to be kept.
	Stuck Stuck
	// Backup is where the care for a copy of everything stands.
	Backup Backup
	// damaged counts the kept traces that could not be read.
	damaged int
	// Filming says how far the film in the making has come; empty while there is none.
	Filming words.Msg
	// Tabling says the same of a table of all measures.
	Tabling words.Msg
}

// New returns the model of a visit that begins with the given kept settings;
// origin is the time in ms since 1970 at which the event clock was 0.
func New(settings Settings, origin float64) Model {
	m := Model{Shared: place.Shared{Settings: settings, Clock: place.Clock{Origin: origin}}}
	if !settings.Visited {
		m = m.withDemo()
	}
	m.Place = Rehearse
	m.rooms = newRooms(m.Shared)
	return m.relaid()
}

// relaid fits the place in front to the screen.
func (m Model) relaid() Model {
	m, _ = m.after(m.Place, m.room(m.Place).Fit(), nil)
	return m
}
