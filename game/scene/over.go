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
	if key := (overKey{m.Over, m.View, m.Theme()}); st.overKey != key {
		st.overKey = key
		st.over, st.overEnds = over(m.Over, m.View, pal)
	}
	key := overLayerKey{st.overKey, m.Replay.AtEnd() || m.Live != nil}
	st.renew(overLayer, key, func() []Item {
		if key.whole {
			return st.over
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
	return st.over[:sort.SearchFloat64s(st.overEnds, math.Nextafter(m.Replay.T, math.Inf(1)))]
}

// overChunk is how many points of the thread laid over are drawn as one item, so that it
// can grow in a replay: about a tenth of a second of movement.
const overChunk = 12

// over is a second trace laid over the first, as one thin thread of another colour with a
// dot at each stitch and a knot at every tenth, in pieces, and the time in s at which each
// of them is sewn.
func over(sh *game.Sheet, v game.View, pal look.Palette) (items []Item, ends []float64) {
	if sh == nil {
		return nil, nil
	}
	fall := 0
	for i := 0; i < len(sh.Prep.Points)-1; i += overChunk {
		to := min(i+overChunk, len(sh.Prep.Points)-1)
		var pts []geom.Point
		for _, p := range sh.Prep.Points[i : to+1] {
			pts = append(pts, v.ToScreen(p))
		}
		t := float64(to) / sh.Prep.Rate
		items, ends = append(items, line(1.6, pal.Over, pts...)), append(ends, t)
		for ; fall < len(sh.Falls) && sh.Falls[fall].T-sh.Prep.T0 <= t; fall++ {
			size := 3.2
			if fall%10 == 0 && fall > 0 {
				size = 6
			}
			items, ends = append(items, line(size, pal.Over, v.ToScreen(sh.Falls[fall].P))), append(ends, t)
		}
	}
	return items, ends
}

// overNeedle is the needle of the trace laid over, a ring with a dot, while it moves.
func overNeedle(items []Item, m game.Model, pal look.Palette) []Item {
	sh := m.Over
	if sh == nil || len(sh.Prep.Points) == 0 {
		return items
	}
	at := m.View.ToScreen(sh.Prep.At(sh.Prep.T0 + math.Min(m.Replay.T, sh.Duration())))
	return append(items, ring(at, 7, 2.5, pal.Over), line(4, pal.Over, at))
}
