package scene_test

import (
	"unthreaded/game"
	"unthreaded/game/scene"
)

// stage draws models, one after the other, as the page does.
type stage struct{ layers scene.Layers }

// Of returns the display list of a model, valid until the next call.
func (st *stage) Of(m game.Model) scene.List { return m.Scene(&st.layers) }
