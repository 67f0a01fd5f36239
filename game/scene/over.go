package scene

import (
	"math"
	"sort"

	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/path/geom"
)

// sewOver brings the layer of the thread laid over up to date. In a replay it grows, as
// the thread above it does; so that not all has to be drawn anew in each frame, it is then
// among what moves (see overSewn).
func (st *Stage) sewOver(m game.Model, pal look.Palette) {
	if key := (overKey{m.Over, m.View, m.Theme()}); st.over.key != key {
		st.over = over(m.Over, m.View, pal)
		st.over.key = key
	}
	key := overLayerKey{st.over.key, m.Replay.AtEnd() || m.Live != nil}
	st.renew(overLayer, key, func() []Item {
		if key.whole {
			return st.over.items
		}
		return nil
	})
}

// overSewn returns what is sewn of the thread laid over at the replay's time: both traces
// begin together, and each goes at its own pace.
func (st *Stage) overSewn(m game.Model) []Item {
	if m.Over == nil || m.Replay.AtEnd() || m.Live != nil {
		return nil
	}
	return st.over.until(m.Replay.T)
}

// timed are items in the order in which they are sewn, and the time in s at which each of
// them is.
type timed struct {
	key   overKey
	items []Item
	ends  []float64
}

func (td *timed) add(t float64, items ...Item) {
	for _, it := range items {
		td.items, td.ends = append(td.items, it), append(td.ends, t)
	}
}

// until returns what is sewn at the time t.
func (td timed) until(t float64) []Item {
	return td.items[:sort.SearchFloat64s(td.ends, math.Nextafter(t, math.Inf(1)))]
}

// overChunk is how many points of the thread laid over are drawn as one item, so that it
// can grow in a replay: about a tenth of a second of movement.
const overChunk = 12

// over is a second trace laid over the first, as one thin thread of another colour with a
// dot at each stitch and a knot at every tenth.
func over(sh *game.Sheet, v game.View, pal look.Palette) timed {
	fall := 0
	return threaded(sh, v, 1.6, pal, func(at geom.Point) []Item {
		size := 3.2
		if fall%10 == 0 && fall > 0 {
			size = 6
		}
		fall++
		return []Item{line(size, pal.Over, at)}
	})
}

// threaded is a trace as a thin thread in the colour of what is laid over, in pieces, with
// something at each fall of the needle.
func threaded(sh *game.Sheet, v game.View, width float64, pal look.Palette, at func(geom.Point) []Item) (td timed) {
	if sh == nil {
		return td
	}
	fall := 0
	for i := 0; i < len(sh.Prep.Points)-1; i += overChunk {
		to := min(i+overChunk, len(sh.Prep.Points)-1)
		t := float64(to) / sh.Prep.Rate
		td.add(t, line(width, pal.Over, onScreen(sh.Prep.Points[i:to+1], v)...))
		for ; fall < len(sh.Falls) && sh.Falls[fall].T-sh.Prep.T0 <= t; fall++ {
			td.add(t, at(v.ToScreen(sh.Falls[fall].P))...)
		}
	}
	return td
}

// overNeedle is the needle of the trace laid over, a ring with a dot, while it moves.
func overNeedle(items []Item, m game.Model, pal look.Palette) []Item {
	sh := m.Over
	if sh == nil || len(sh.Prep.Points) == 0 {
		return items
	}
	at := needlePlace(sh, m)
	return append(items, ring(at, 7, 2.5, pal.Over), line(4, pal.Over, at))
}
