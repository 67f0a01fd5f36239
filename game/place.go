package game

import (
	"slices"

	"unthreaded/game/place"
)

// goTo opens a place.
func (m Model) goTo(p Place) (Model, []Effect) {
	if !slices.Contains(place.Names, p) || p == m.Place {
		return m, nil
	}
	m, kept := m.front(place.Room.Leave)
	if m.Place == place.QuiltPlan {
		m.Top = m.Top.Planned() // what comes after reads the order
	}
	m.Place = p
	m.Notice = Notice{}
	m, more := m.front(place.Room.Enter)
	return m.relaid(), append(kept, more...)
}
