// Package stage draws the place in front.
package stage

import (
	"unthreaded/game"
	"unthreaded/game/scene"
	"unthreaded/path/geom"
)

// Stage makes display lists from models. It keeps the layers of the last list,
// so that a frame costs only what has changed; what it returns depends on the
// model alone.
type Stage struct {
	scene.Layers
}

// Of returns the display list of the model. It is valid until the next call.
func (st *Stage) Of(m game.Model) scene.List {
	st.Begin(m.Screen, m.Theme())
	if r := m.Front(); r != nil {
		return r.Scene(&st.Layers)
	}
	return st.List(m.Screen, geom.Point{})
}
