package route

import (
	"sort"

	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
)

// seenKey names what is on the cloth.
type seenKey struct {
	drawing  string
	rev, own int
	view     screen.View
	screen   screen.Cloth
	theme    look.Theme
}

// layerKey tells the layers of the place apart from each other and from those of
// other places.
type layerKey struct {
	seen  seenKey
	layer string
}

// thread is the thread of the route of a key, and the length sewn after each of its
// items.
type thread struct {
	key   seenKey
	items []scene.Item
	ends  []float64
}

// Scene is as place.Room has it. At rest the marks lie on the whole route; while it is
// played the thread lies on top, so that it can grow.
func (r Room) Scene(st *scene.Layers) scene.List {
	k, pal := r.Desk, r.Palette()
	key := seenKey{k.Drawing.ID, k.Rev, r.rev, r.view, r.Screen, r.Theme()}
	sewn := scene.Memo[thread](st)
	if sewn.key != key {
		*sewn = thread{key: key}
		sewn.items, sewn.ends = scene.RouteThread(k, r.view, pal)
	}
	picture := scene.Planned{Desk: k, View: r.view, Screen: r.Screen, Palette: pal, Book: r.Book(), Why: r.why}
	st.Renew(scene.ChalkLayer, layerKey{key, "drawing"}, picture.Lines)
	st.Renew(scene.StripLayer, layerKey{key, "strip"}, func() []scene.Item { return r.strip(pal) })
	whole := func() []scene.Item { return sewn.items }
	switch {
	case r.own.Asked:
		st.Renew(scene.OverLayer, layerKey{key, "own-ends"}, picture.Ends)
		st.Renew(scene.ThreadLayer, layerKey{key, "own"}, func() []scene.Item { return r.ownLines(pal) })
	case r.clock.AtEnd() && !r.clock.Playing:
		st.Renew(scene.OverLayer, layerKey{key, "route"}, whole)
		st.Renew(scene.ThreadLayer, layerKey{key, "marks"}, picture.Marks)
	default:
		reached := r.reached()
		st.Renew(scene.OverLayer, layerKey{key, "marks-below"}, picture.Marks)
		st.Renew(scene.ThreadLayer, layerKey{key, "played"}, func() []scene.Item { return nil })
		n := sort.Search(len(sewn.ends), func(i int) bool { return sewn.ends[i] > reached })
		st.At(scene.ThreadLayer).Items = sewn.items[:n:n]
		st.Moving = append(st.Moving, scene.Needle(r.view.ToScreen(k.At(reached)), pal)...)
	}
	return st.List(r.Screen, geom.Point{})
}
