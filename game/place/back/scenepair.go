package back

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/look"
	"unthreaded/game/place"
	"unthreaded/game/replay"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/path/geom"
)

// pairKey names what lies under two traces: the line, the key, and the strip.
type pairKey struct {
	strip         bool
	first, second *replay.Sheet
	screen        screen.Cloth
	view          screen.View
	speed         float64
	units         place.Units
	key           string
	theme         look.Theme
}

// pairThreads are the threads of both traces.
type pairThreads struct{ first, second scene.Timed }

// laidPair brings the layers to two traces laid one over the other. Each has one colour and
// one shape: the first is dashes, the second beads on a thin thread.
func (r Room) laidPair(st *scene.Layers, pal look.Palette) {
	names := r.PairNames()
	k := pairKey{first: r.Pair.First, second: r.Pair.Second, screen: r.Screen, view: r.sight, key: names[0] + names[1], theme: r.Theme()}
	st.Renew(scene.ChalkLayer, k, func() []scene.Item {
		path := scene.OnScreen(r.Pair.First.Line.Path(), r.sight)
		items := scene.Dashes(path, 2, 7, 1.6, pal.Chalk)
		key := r.pairNames(names, pal)
		c := scene.Crowd{Book: r.Book(), Room: scene.InSight(r.Screen), Line: scene.LinePlaces(r.Pair.First.Line, r.sight)}
		return append(append(items, scene.Ends(r.Pair.First.Line, false, r.sight, c.With(key, geom.Point{}), pal)...), key...)
	})
	k.strip, k.speed, k.units = true, r.Settings.HandSpeed(), r.Settings.Units
	st.Renew(scene.StripLayer, k, func() []scene.Item { return r.pairStrip(pal) })
	r.sewPair(st, pal)
	st.Moving = r.pairNeedles(st.Moving, pal)
}

// Widths in pixels of the first trace's dashes, and of the second's thread and beads,
// which have a rim of cloth to stand out on the dashes; of beads and dashes where there is
// room for them, roomy pixels to a stitch. Where there is less they are smaller, not below
// smallest.
const (
	pairDash   = 6.0
	pairThread = 1.6
	pairBead   = 6.0
	pairRim    = 9.0
	roomy      = 15.0
	smallest   = 0.6
)

// roomOf returns by how much dashes and beads are smaller than they could be.
func (r Room) roomOf() float64 {
	return math.Max(smallest, math.Min(1, r.sight.Scale*r.Settings.StitchMM/roomy))
}

// sewPair brings the threads up to date, the first below the second. In a replay both
// are among what moves.
func (r Room) sewPair(st *scene.Layers, pal look.Palette) {
	sewn := scene.Memo[pairThreads](st)
	room := r.roomOf()
	if key := (scene.OverKey{Sheet: r.Pair.First, View: r.sight, Theme: r.Theme()}); sewn.first.Key != key {
		sewn.first = dashed(r.Pair.First, r.sight, room, pal)
		sewn.first.Key = key
	}
	if key := (scene.OverKey{Sheet: r.Pair.Second, View: r.sight, Theme: r.Theme()}); sewn.second.Key != key {
		sewn.second = scene.Threaded(r.Pair.Second, r.sight, pairThread, pal, func(at geom.Point) []scene.Item { return bead(at, room, pal) })
		sewn.second.Key = key
	}
	whole := r.Pair.Clock.AtEnd()
	laid := func(td scene.Timed) func() []scene.Item {
		return func() []scene.Item {
			if whole {
				return td.Items
			}
			return nil
		}
	}
	st.Renew(scene.OverLayer, pairLayerKey{sewn.first.Key, whole}, laid(sewn.first))
	st.Renew(scene.ThreadLayer, pairLayerKey{sewn.second.Key, whole}, laid(sewn.second))
	if !whole {
		st.Moving = append(append(st.Moving, sewn.first.Until(r.Pair.Clock.T)...), sewn.second.Until(r.Pair.Clock.T)...)
	}
}

// pairLayerKey tells whether a layer holds the whole thread, or nothing while it is among
// what moves.
type pairLayerKey struct {
	scene.OverKey
	whole bool
}

// dashed is a trace as a row of dashes, one for each stitch, all alike.
func dashed(sh *replay.Sheet, v screen.View, room float64, pal look.Palette) (td scene.Timed) {
	for k := 1; k < len(sh.Falls); k++ {
		if f := sh.Falls[k]; !f.Gap {
			td.Add(f.T-sh.Prep.T0, dash(v.ToScreen(sh.Falls[k-1].P), v.ToScreen(f.P), room, pal))
		}
	}
	return td
}

func dash(a, b geom.Point, room float64, pal look.Palette) scene.Item {
	a, b = scene.DrawIn(a, b, room*pairDash/2+0.8)
	return scene.Line(room*pairDash, pal.Thread, a, b)
}

func bead(at geom.Point, room float64, pal look.Palette) []scene.Item {
	return []scene.Item{scene.Line(room*pairRim, pal.Cloth, at), scene.Line(room*pairBead, pal.Over, at)}
}

// pairNames is the key: each trace's name with a piece of it, side by side or, where the
// cloth is narrow, one below the other.
func (r Room) pairNames(names [2]string, pal look.Palette) []scene.Item {
	const side, sample, gap = 16.0, 44.0, 300.0
	var items []scene.Item
	for i, name := range names {
		if name == "" {
			continue
		}
		at := geom.Pt(side, 20)
		switch {
		case i == 1 && r.Screen.W >= 2*gap:
			at.X += gap
		case i == 1:
			at.Y += 22
		}
		to := r2.Add(at, geom.Pt(sample, 0))
		mid := geom.Lerp(at, to, 0.5)
		if i == 0 {
			items = append(items, dash(at, mid, 1, pal), dash(mid, to, 1, pal))
		} else {
			items = append(items, scene.Line(pairThread, pal.Over, at, to))
			for _, p := range []geom.Point{at, mid, to} {
				items = append(items, bead(p, 1, pal)...)
			}
		}
		items = append(items, scene.TextLeft(name, to.X+12, at.Y, scene.LabelSize, pal))
	}
	return items
}

// pairStrip is the speed of both hands: the first as a line, the second as a row of dots.
func (r Room) pairStrip(pal look.Palette) []scene.Item {
	if r.Screen.Strip == 0 || len(r.Pair.First.Place) == 0 {
		return nil
	}
	a := scene.StripAxes(r.Screen, r.Pair.First.Line.Length(), r.Settings.HandSpeed(), r.Pair.First, r.Pair.Second)
	items := scene.StripScales(r.Screen, a, r.Settings.HandSpeed(), scene.StripWords{Title: r.Book().Say("back.scene.speed"), Dashed: r.Book().Say("back.scene.dashed"), Speed: r.Book().Amount(words.SpeedMM(r.Settings.HandSpeed()))}, pal)
	items = append(items, scene.Line(2.6, pal.Thread, scene.SpeedLine(r.Pair.First, a)...))
	if r.Pair.Second != nil {
		items = append(items, scene.Dashes(scene.SpeedLine(r.Pair.Second, a), 0.5, 6.5, 3.4, pal.Over)...)
	}
	return items
}

// pairNeedles are the needles of both traces while they move, each named and in the colour
// of its own: a ring for the first, a large bead for the second, which fits into the ring.
func (r Room) pairNeedles(items []scene.Item, pal look.Palette) []scene.Item {
	if r.Pair.Clock.AtEnd() && !r.Pair.Clock.Playing {
		return items
	}
	for i, sh := range []*replay.Sheet{r.Pair.First, r.Pair.Second} {
		if sh == nil || len(sh.Prep.Points) == 0 {
			continue
		}
		at := scene.NeedleAt(sh, r.Pair.Clock.T, r.sight)
		text, name := r.Book().Say("site.back.first"), r2.Add(at, geom.Pt(0, -24))
		if i == 1 {
			text, name = r.Book().Say("site.back.second"), r2.Add(at, geom.Pt(0, 24))
		}
		half := 4 * float64(len(text))
		items = append(items, scene.Rect(name.X-half, name.Y-9, 2*half, 18, pal.Cloth), scene.Text(text, name, pal.Ink))
		if i == 0 {
			items = append(items, scene.Line(22, pal.Cloth, at), scene.Ring(at, 10, 3, pal.Thread), scene.Line(4, pal.Thread, at))
		} else {
			items = append(items, scene.Line(14, pal.Cloth, at), scene.Line(11, pal.Over, at))
		}
	}
	return items
}
