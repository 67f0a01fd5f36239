package stage

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game"
	"unthreaded/game/look"
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
	units         game.Units
	key           string
	theme         look.Theme
}

// pair brings the layers to two traces laid one over the other. Each has one colour and one shape: the first is
// dashes, the second beads on a thin thread.
func (st *Stage) pair(m game.Model, p game.Pair, names [2]string, pal look.Palette) {
	k := pairKey{first: p.First, second: p.Second, screen: m.Screen, view: m.View, key: names[0] + names[1], theme: m.Theme()}
	st.Renew(scene.ChalkLayer, k, func() []scene.Item {
		path := scene.OnScreen(p.First.Line.Path(), m.View)
		items := scene.Dashes(path, 2, 7, 1.6, pal.Chalk)
		key := pairNames(m, names, pal)
		c := scene.Crowd{Room: scene.InSight(m.Screen), Line: scene.LinePlaces(p.First.Line, m.View)}
		return append(append(items, scene.Ends(p.First.Line, false, m.View, c.With(key, geom.Point{}), pal)...), key...)
	})
	k.strip, k.speed, k.units = true, m.Settings.HandSpeed(), m.Settings.Units
	st.Renew(scene.StripLayer, k, func() []scene.Item { return pairStrip(m, p, pal) })
	st.sewPair(m, p, pal)
	st.Moving = pairNeedles(st.Moving, m, p, pal)
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
func roomOf(m game.Model) float64 {
	return math.Max(smallest, math.Min(1, m.View.Scale*m.Settings.StitchMM/roomy))
}

// sewPair brings the threads up to date, the first below the second. In a replay both
// are among what moves.
func (st *Stage) sewPair(m game.Model, p game.Pair, pal look.Palette) {
	room := roomOf(m)
	if key := (scene.OverKey{Sheet: p.First, View: m.View, Theme: m.Theme()}); st.first.Key != key {
		st.first = dashed(p.First, m.View, room, pal)
		st.first.Key = key
	}
	if key := (scene.OverKey{Sheet: p.Second, View: m.View, Theme: m.Theme()}); st.second.Key != key {
		st.second = scene.Threaded(p.Second, m.View, pairThread, pal, func(at geom.Point) []scene.Item { return bead(at, room, pal) })
		st.second.Key = key
	}
	whole := p.Clock.AtEnd()
	laid := func(td scene.Timed) func() []scene.Item {
		return func() []scene.Item {
			if whole {
				return td.Items
			}
			return nil
		}
	}
	st.Renew(scene.OverLayer, pairLayerKey{st.first.Key, whole}, laid(st.first))
	st.Renew(scene.ThreadLayer, pairLayerKey{st.second.Key, whole}, laid(st.second))
	if !whole {
		st.Moving = append(append(st.Moving, st.first.Until(p.Clock.T)...), st.second.Until(p.Clock.T)...)
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
func pairNames(m game.Model, names [2]string, pal look.Palette) []scene.Item {
	const side, sample, gap = 16.0, 44.0, 300.0
	var items []scene.Item
	for i, name := range names {
		if name == "" {
			continue
		}
		at := geom.Pt(side, 20)
		switch {
		case i == 1 && m.Screen.W >= 2*gap:
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
func pairStrip(m game.Model, p game.Pair, pal look.Palette) []scene.Item {
	if m.Screen.Strip == 0 || len(p.First.Place) == 0 {
		return nil
	}
	a := scene.StripAxes(m.Screen, p.First.Line.Length(), m.Settings.HandSpeed(), p.First, p.Second)
	items := scene.StripScales(m.Screen, a, m.Settings.HandSpeed(), scene.StripWords{Title: "Hand speed along the line", Dashed: "dashed: as planned", Speed: words.Speed(m.Settings.HandSpeed(), m.Inches())}, pal)
	items = append(items, scene.Line(2.6, pal.Thread, scene.SpeedLine(p.First, a)...))
	if p.Second != nil {
		items = append(items, scene.Dashes(scene.SpeedLine(p.Second, a), 0.5, 6.5, 3.4, pal.Over)...)
	}
	return items
}

// pairNeedles are the needles of both traces while they move, each named and in the colour
// of its own: a ring for the first, a large bead for the second, which fits into the ring.
func pairNeedles(items []scene.Item, m game.Model, p game.Pair, pal look.Palette) []scene.Item {
	if p.Clock.AtEnd() && !p.Clock.Playing {
		return items
	}
	for i, sh := range []*replay.Sheet{p.First, p.Second} {
		if sh == nil || len(sh.Prep.Points) == 0 {
			continue
		}
		at := scene.NeedleAt(sh, p.Clock.T, m.View)
		text, name := "First", r2.Add(at, geom.Pt(0, -24))
		if i == 1 {
			text, name = "Second", r2.Add(at, geom.Pt(0, 24))
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
