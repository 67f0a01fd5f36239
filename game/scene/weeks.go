package scene

import (
	"unthreaded/game"
	"unthreaded/game/look"
)

// weeks brings the layers to the place.
func (st *Stage) weeks(m game.Model, pal look.Palette) { st.blank(chalkLayer, game.LookBack) }
