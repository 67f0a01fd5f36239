package scene

import (
	"unthreaded/game"
	"unthreaded/game/look"
)

// board brings the layers to the place.
func (st *Stage) board(m game.Model, pal look.Palette) { st.blank(chalkLayer, game.Draw) }
