package scene

import (
	"sort"

	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/path/geom"
)

// deskKey names what is on the desk.
type deskKey struct {
	drawing string
	rev     int
	view    game.View
	screen  game.Resized
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
	st.renew(chalkLayer, layerKey{key, "drawing"}, func() []Item { return drawing(k, m.View, pal) })
	st.renew(stripLayer, layerKey{key, "strip"}, func() []Item { return routeStrip(m, pal) })
	whole := func() []Item { return st.route }
	written := func() []Item { return marks(k, m.View, m.Screen, pal) }
	switch {
	case k.Own.Asked:
		st.renew(overLayer, layerKey{key, "own ends"}, func() []Item { return deskEnds(k, m.View, m.Screen, pal) })
		st.renew(threadLayer, layerKey{key, "own"}, func() []Item { return own(k, m.View, pal) })
	case k.Clock.AtEnd() && !k.Clock.Playing:
		st.renew(overLayer, layerKey{key, "route"}, whole)
		st.renew(threadLayer, layerKey{key, "marks"}, written)
	default:
		reached := k.Clock.T * k.SpeedMM
		st.renew(overLayer, layerKey{key, "marks below"}, written)
		st.renew(threadLayer, layerKey{key, "played"}, func() []Item { return nil })
		n := sort.Search(len(st.routeEnds), func(i int) bool { return st.routeEnds[i] > reached })
		st.layers[threadLayer].Items = st.route[:n:n]
		st.moving = append(st.moving, needle(m.View.ToScreen(k.At(reached)), pal)...)
	}
}

// needle marks where the needle is.
func needle(at geom.Point, pal look.Palette) []Item {
	return []Item{line(14, pal.Cloth, at), ring(at, 6, 2, pal.Ink), line(6, pal.Ink, at)}
}
