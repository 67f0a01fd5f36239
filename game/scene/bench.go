package scene

import (
	"unthreaded/game"
	"unthreaded/game/look"
)

// bench brings the layers to the place.
func (st *Stage) bench(m game.Model, pal look.Palette) { st.blank(chalkLayer, game.Machine) }
