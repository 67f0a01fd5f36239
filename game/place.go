package game

import (
	"slices"
	"strings"

	"unthreaded/game/place"
)

// goTo opens a place.
func (m Model) goTo(p Place) (Model, []Effect) {
	if !slices.Contains(place.Names, p) || p == m.Place {
		return m, nil
	}
	var kept []Effect
	if r := m.room(m.Place); r != nil {
		r, kept = r.Leave()
		m, kept = m.after(m.Place, r, kept)
	}
	m.Place = p
	m.Notice = Notice{}
	m, more := m.entered()
	return m.relaid(), append(kept, more...)
}

// entered prepares the place that has just been opened.
func (m Model) entered() (Model, []Effect) {
	if r := m.room(m.Place); r != nil {
		r, effects := r.Enter()
		return m.after(m.Place, r, effects)
	}
	return m, nil
}

// pointAt gives a report of the pointer to the place on the screen.
func (m Model) pointAt(p Pointer) (Model, []Effect) {
	if r := m.room(m.Place); r != nil {
		r, effects := r.Point(p)
		return m.after(m.Place, r, effects)
	}
	return m, nil
}

// placeControl does what a control named "place.name" asks for; false means that
// the name belongs to no place.
func (m Model) placeControl(c Control) (Model, []Effect, bool) {
	of, name, found := strings.Cut(c.Name, ".")
	if !found {
		return m, nil, false
	}
	c.Name = name
	if m.room(Place(of)) != nil {
		if Place(of) != m.Place {
			return m, nil, true // its controls are not on the page
		}
		m, effects := m.toRoom(m.Place, c)
		return m, effects, true
	}
	return m, nil, false
}

// wheel takes a turn of the wheel over the cloth.
func (m Model) wheel(c Control) Model {
	if r := m.room(m.Place); r != nil && declares(r, c.Name) {
		m, _ = m.toRoom(m.Place, c)
	}
	return m
}

// key takes a key that was pressed on the cloth.
func (m Model) key(c Control) (Model, []Effect) {
	if r := m.room(m.Place); r != nil {
		r, effects := r.Key(place.Key{Name: c.Value, Shift: c.Item == "shift"})
		return m.after(m.Place, r, effects)
	}
	return m, nil
}
