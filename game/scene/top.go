package scene

import (
	"unthreaded/game"
	"unthreaded/game/look"
)

// top brings the layers to the place.
func (st *Stage) top(m game.Model, pal look.Palette) { st.blank(chalkLayer, game.QuiltPlan) }
