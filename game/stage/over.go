package stage

import (
	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/game/scene"
)

// sewOver brings the layer of the thread laid over up to date. In a replay it grows, as
// the thread above it does; so that not all has to be drawn anew in each frame, it is then
// among what moves (see overSewn).
func (st *Stage) sewOver(m game.Model, pal look.Palette) {
	if key := (scene.OverKey{Sheet: m.Over, View: m.View, Theme: m.Theme()}); st.over.Key != key {
		st.over = scene.Over(m.Over, m.View, pal)
		st.over.Key = key
	}
	key := overLayerKey{st.over.Key, m.Replay.AtEnd() || m.Live != nil}
	st.Renew(scene.OverLayer, key, func() []scene.Item {
		if key.whole {
			return st.over.Items
		}
		return nil
	})
}

// overSewn returns what is sewn of the thread laid over at the replay's time: both traces
// begin together, and each goes at its own pace.
func (st *Stage) overSewn(m game.Model) []scene.Item {
	if m.Over == nil || m.Replay.AtEnd() || m.Live != nil {
		return nil
	}
	return st.over.Until(m.Replay.T)
}

// overNeedle is the needle of the trace laid over, a ring with a dot, while it moves.
func overNeedle(items []scene.Item, m game.Model, pal look.Palette) []scene.Item {
	sh := m.Over
	if sh == nil || len(sh.Prep.Points) == 0 {
		return items
	}
	at := scene.NeedleAt(sh, m.Replay.T, m.View)
	return append(items, scene.Ring(at, 7, 2.5, pal.Over), scene.Line(4, pal.Over, at))
}
