package stage

import (
	"sort"

	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
)

// deskKey names what is on the desk.
type deskKey struct {
	drawing string
	rev     int
	view    screen.View
	screen  screen.Cloth
	theme   look.Theme
}

// layerKey tells the layers of a desk apart from each other and from those of
// other places.
type layerKey struct {
	desk  deskKey
	layer string
}

// desk brings the layers to the desk. At rest the marks lie on the whole route;
// while it is played the thread lies on top, so that it can grow.
func (st *Stage) desk(m game.Model, pal look.Palette) {
	k := m.Desk
	key := deskKey{k.Drawing.ID, k.Rev, m.View, m.Screen, m.Theme()}
	if st.routeKey != key {
		st.routeKey = key
		st.route, st.routeEnds = routeThread(k, m.View, pal)
	}
	st.Renew(scene.ChalkLayer, layerKey{key, "drawing"}, func() []scene.Item { return drawing(k, m.View, pal) })
	st.Renew(scene.StripLayer, layerKey{key, "strip"}, func() []scene.Item { return routeStrip(m, pal) })
	whole := func() []scene.Item { return st.route }
	written := func() []scene.Item { return marks(k, m.View, m.Screen, pal) }
	switch {
	case k.Own.Asked:
		st.Renew(scene.OverLayer, layerKey{key, "own ends"}, func() []scene.Item { return deskEnds(k, m.View, m.Screen, pal) })
		st.Renew(scene.ThreadLayer, layerKey{key, "own"}, func() []scene.Item { return own(k, m.View, pal) })
	case k.Clock.AtEnd() && !k.Clock.Playing:
		st.Renew(scene.OverLayer, layerKey{key, "route"}, whole)
		st.Renew(scene.ThreadLayer, layerKey{key, "marks"}, written)
	default:
		reached := k.Clock.T * k.SpeedMM
		st.Renew(scene.OverLayer, layerKey{key, "marks below"}, written)
		st.Renew(scene.ThreadLayer, layerKey{key, "played"}, func() []scene.Item { return nil })
		n := sort.Search(len(st.routeEnds), func(i int) bool { return st.routeEnds[i] > reached })
		st.At(scene.ThreadLayer).Items = st.route[:n:n]
		st.Moving = append(st.Moving, scene.Needle(m.View.ToScreen(k.At(reached)), pal)...)
	}
}
