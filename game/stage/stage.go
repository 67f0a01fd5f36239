// Package stage draws the places that have no room of their own yet.
package stage

import (
	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/path/geom"
)

// Stage makes display lists from models. It keeps the layers of the last list,
// so that a frame costs only what has changed; what it returns depends on the
// model alone.
type Stage struct {
	scene.Layers
	// first and second hold the threads of two traces that are compared.
	first, second scene.Timed
}

// Of returns the display list of the model. It is valid until the next call.
func (st *Stage) Of(m game.Model) scene.List {
	if r := m.Front(); r != nil {
		st.Begin(m.Screen, m.Theme())
		return r.Scene(&st.Layers)
	}
	pal := look.Of(m.Theme())
	st.Begin(m.Screen, m.Theme())
	switch m.Place {
	case game.LookBack:
		st.weeks(m, pal)
	}
	return st.List(m.Screen, geom.Point{})
}
