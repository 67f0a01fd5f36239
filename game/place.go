package game

import (
	"slices"

	"unthreaded/game/place"
)

// goTo opens a place.
func (m Model) goTo(p Place) (Model, []Effect) {
	if !slices.Contains(Places, p) || p == m.Place {
		return m, nil
	}
	m, kept := m.front(place.Room.Leave)
	m.Place = p
	m.Notice = Notice{}
	m, more := m.front(place.Room.Enter)
	return m.relaid(), append(kept, more...)
}
