package stage

import (
	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/scene"
)

// marksOf returns the marks to be seen now: after a trace all of them, so that she
// sees where it went.
func marksOf(m game.Model) scene.ChalkMarks {
	k := scene.ChalkMarks{What: keep.WholeLine, Winding: m.Winding(), Tracing: m.Live != nil, Held: m.UnderNeedle()}
	if m.Live != nil || m.Open == nil {
		g := m.Guide()
		k.What, k.Unnumbered = g.Marks, g.Unnumbered
	}
	return k
}
