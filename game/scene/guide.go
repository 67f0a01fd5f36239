package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game"
	"unthreaded/game/guide"
	"unthreaded/game/look"
	"unthreaded/game/record"
	"unthreaded/path/geom"
)

const (
	holdRadius = 22.0
	holdText   = 58.0 // half the width of its label
	// beadsAbove is how far over the hand the beads of the count hang, beyond a
	// finger; beadsBelow where there is no room above.
	beadsAbove, beadsBelow = -64.0, 64.0
	beadSpace              = 26.0
)

// underNeedle draws what stands still while the cloth moves: the strip, over which
// the cloth slides, the needle, and before the start the ring to take hold of.
func underNeedle(items []Item, m game.Model, pal look.Palette) []Item {
	s := m.Screen
	if s.Strip > 0 {
		items = append(items, rect(0, s.H-s.Strip-1, s.W, s.Strip+1, pal.Cloth))
		items = append(append(items, rule(s, pal)...), strip(m, pal)...)
	}
	if m.Live == nil {
		at := m.Hold()
		text := geom.Pt(within(at.X, holdText+14, s.W-holdText-14), at.Y+holdRadius+15)
		items = append(items, line(2*holdRadius+8, pal.Cloth, at),
			line(22, pal.Cloth, r2.Sub(text, geom.Pt(holdText, 0)), r2.Add(text, geom.Pt(holdText, 0))),
			ring(at, holdRadius, 3, pal.Thread), ring(at, holdRadius-6, 1.5, pal.Thread),
			label("Hold the cloth here", text, pal.Ink))
	}
	return append(items, needle(m.Needle(), pal)...)
}

// within returns v within [lo, hi].
func within(v, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, v)) }

// guides draws what helps the hand that traces: the count, the ideal needle, the
// dots as they were taken.
func guides(items []Item, m game.Model, pal look.Palette) []Item {
	l, g := m.Live, m.Guide()
	place := func(p geom.Point) geom.Point { return r2.Add(m.View.ToScreen(p), m.Shift()) }
	if l.Counting {
		return beads(items, place(l.Samples[0].P), l.Count.Left(m.Now()), pal)
	}
	for k, at := range l.Dots.At {
		items = dotTaken(items, place(at), l.Dots.Taken[k], k == l.Dots.Next && !g.Unnumbered && g.Marks != record.NoMarks && g.Marks != record.EndsOnly, pal)
	}
	if g.Lead != record.NoLead {
		items = append(items, ring(place(m.Line.At(l.Lead.S)), 8, 2.5, pal.Chalk))
	}
	return items
}

// beads are the beats that are left before the start, filled, and those that have
// gone, hollow.
func beads(items []Item, hand geom.Point, left int, pal look.Palette) []Item {
	x := math.Max(hand.X, float64(guide.Beats)*beadSpace/2)
	y := hand.Y + beadsAbove
	if y < beadSpace {
		y = hand.Y + beadsBelow
	}
	for i := 0; i < guide.Beats; i++ {
		at := geom.Pt(x+beadSpace*(float64(i)-float64(guide.Beats-1)/2), y)
		items = append(items, line(22, pal.Cloth, at), ring(at, 9, 2, pal.Thread))
		if i < left {
			items = append(items, line(16, pal.Thread, at))
		}
	}
	return items
}

// dotTaken marks a dot: full where the needle stopped, a ring where it went
// through, a broken ring where it was passed by, a wide ring round the
// next one.
func dotTaken(items []Item, at geom.Point, how guide.Taken, next bool, pal look.Palette) []Item {
	switch {
	case how == guide.StoppedOn:
		return append(items, line(14, pal.Cloth, at), line(11, pal.Thread, at))
	case how == guide.GoneThrough:
		return append(items, line(14, pal.Cloth, at), ring(at, 5, 2.5, pal.Thread))
	case how == guide.PassedBy:
		return append(items, dashes(geom.Arc(at, 8, 0, 2*math.Pi), 7, 5.5, 3, pal.Long)...)
	case next:
		return append(items, ring(at, 8, 2, pal.Chalk))
	}
	return items
}

// liveSpeed draws the hand's speed so far on the strip, over the way it has gone.
func (st *Stage) liveSpeed(m game.Model, pal look.Palette) {
	if !m.Guide().SpeedStrip || m.Screen.Strip == 0 {
		return
	}
	key := threadKey{live: m.Live.Began(), tracing: true, stitch: m.HandSpeed(), view: m.View}
	if st.speedKey != key {
		st.speedKey, st.speed = key, st.speed[:0]
	}
	a := stripAxes(m)
	for _, s := range m.Live.Pace.Speeds[len(st.speed):] {
		st.speed = append(st.speed, geom.Pt(a.x(min(s.S, a.length)), a.y(s.V)))
	}
	if len(st.speed) > 0 {
		st.moving = append(st.moving, line(2.4, pal.Thread, st.speed...))
	}
}
