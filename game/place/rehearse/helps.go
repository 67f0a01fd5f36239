package rehearse

import (
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/keep"
	"unthreaded/game/look"
	"unthreaded/game/place/rehearse/guide"
	"unthreaded/game/scene"
	"unthreaded/path/geom"
)

const (
	holdRadius = 22.0
	// beadsAbove is how far over the hand the beads of the count hang, beyond a
	// finger; beadsBelow where there is no room above.
	beadsAbove, beadsBelow = -64.0, 64.0
	beadSpace              = 26.0
)

// underNeedle draws what stands still while the cloth moves: the edge of the bed under it,
// the strip, over which the cloth slides, the foot and the needle, and before the start the ring to take hold of, whose
// name keeps clear of the line and of the marks.
func (r Room) underNeedle(items, marks []scene.Item, pal look.Palette) []scene.Item {
	s := r.Screen
	items = append(items, scene.BedEdge(r.Needle(), r.View.Scale, s, pal)...)
	if s.Strip > 0 {
		items = append(items, scene.Rect(0, s.H-s.Strip-1, s.W, s.Strip+1, pal.Cloth))
		items = append(append(items, scene.Rule(s, pal)...), r.strip(pal)...)
	}
	if r.Live == nil {
		items = append(items, r.holdMark(marks, pal)...)
	}
	return append(append(items, scene.Foot(r.Needle(), r.View.Scale, pal)...), scene.StandingNeedle(r.Needle(), pal)...)
}

// holdMark is the ring to take hold of; the line shows through it.
func (r Room) holdMark(marks []scene.Item, pal look.Palette) []scene.Item {
	shift := r.Shift()
	// The place that is held goes with the cloth while the ideal movement is shown.
	at := r2.Add(r.Hold(), r2.Sub(shift, r2.Sub(r.Needle(), r.View.ToScreen(r.Line.At(0)))))
	c := scene.Crowd{Book: r.Book(), Room: scene.InSight(r.Screen), Far: 5}
	if r.Guide().Marks == keep.WholeLine {
		for _, p := range scene.LinePlaces(r.Line, r.View) {
			c.Line = append(c.Line, r2.Add(p, shift))
		}
	}
	c = c.With(marks, shift).With(r.sizeNote(pal), geom.Point{}).With([]scene.Item{scene.Line(2*scene.StartRadius, pal.Ink, r.Needle())}, geom.Point{})
	foot := 2*scene.FootRadius(r.View.Scale) + 12
	c.Taken = append(c.Taken, scene.Around(at, 2*holdRadius, 2*holdRadius), scene.Around(r.Needle(), foot, foot))
	name := c.Beside(scene.Text(r.Book().Say("rehearse.hold-here"), at, pal.Ink), at, holdRadius+8)
	return []scene.Item{scene.Ring(at, holdRadius, 3, pal.Thread), scene.Ring(at, holdRadius-6, 1.5, pal.Thread), name}
}

// helps draws what helps the hand that traces: the count, the ideal needle, the
// dots as they were taken.
func (r Room) helps(items []scene.Item, pal look.Palette) []scene.Item {
	l, g := r.Live, r.Guide()
	place := func(p geom.Point) geom.Point { return r2.Add(r.View.ToScreen(p), r.Shift()) }
	if l.Counting {
		return beads(items, place(l.Samples[0].P), l.Count.Left(r.Now()), pal)
	}
	for k, at := range l.Dots.At {
		items = dotTaken(items, place(at), l.Dots.Taken[k], k == l.Dots.Next && !g.Unnumbered && g.Marks != keep.NoMarks && g.Marks != keep.EndsOnly, pal)
	}
	if g.Lead != keep.NoLead {
		items = leads(items, place(r.Line.At(l.Lead.S)), r.Now()-l.Began(), r.Book().Say("rehearse.ideal-needle"), pal)
	}
	return items
}

// namedFor is how many seconds the ideal needle has its name beside it.
const namedFor = 2.5

// leads is the ideal needle: steel, large and slanting, with an end of thread through its
// eye, so that nothing on the cloth is taken for it; its point is on the line, in a ring.
// It is named for the first seconds.
func leads(items []scene.Item, at geom.Point, since float64, name string, pal look.Palette) []scene.Item {
	end := r2.Add(at, geom.Pt(20, -46))
	shaft := func(wide float64, c color.NRGBA) []scene.Item {
		side := r2.Scale(wide/2/r2.Norm(geom.Pt(20, 46)), geom.Pt(46, 20))
		return []scene.Item{
			{Shape: scene.Fill, Colour: c, Points: []geom.Point{at, r2.Sub(end, side), r2.Add(end, side)}},
			scene.Line(wide, c, end),
		}
	}
	eye := geom.Lerp(at, end, 0.93)
	var tail []geom.Point
	for k := range 17 {
		x := 1.8 * float64(k)
		tail = append(tail, r2.Add(eye, geom.Pt(x, 7*math.Sin(x/5.2)*x/29)))
	}
	items = append(items, scene.Ring(at, 9, 5, pal.Cloth), scene.Ring(at, 9, 2.5, pal.Ink))
	items = append(append(items, shaft(14, pal.Cloth)...), shaft(9, pal.Ink)...)
	items = append(items, scene.Line(3, pal.Cloth, geom.Lerp(at, end, 0.84), geom.Lerp(at, end, 1.0)), scene.Line(2.4, pal.Thread, tail...))
	if since < namedFor {
		label := scene.Text(name, r2.Add(end, geom.Pt(10, -10)), pal.Ink)
		label.Align = scene.Left
		items = append(items, label)
	}
	return items
}

// beads are the beats that are left before the start, filled, and those that have
// gone, hollow.
func beads(items []scene.Item, hand geom.Point, left int, pal look.Palette) []scene.Item {
	x := math.Max(hand.X, float64(guide.Beats)*beadSpace/2)
	y := hand.Y + beadsAbove
	if y < beadSpace {
		y = hand.Y + beadsBelow
	}
	for i := 0; i < guide.Beats; i++ {
		at := geom.Pt(x+beadSpace*(float64(i)-float64(guide.Beats-1)/2), y)
		items = append(items, scene.Line(22, pal.Cloth, at), scene.Ring(at, 9, 2, pal.Thread))
		if i < left {
			items = append(items, scene.Line(16, pal.Thread, at))
		}
	}
	return items
}

// dotTaken marks a dot: full where the needle stopped, a ring where it went
// through, a broken ring where it was passed by, a wide ring round the
// next one.
func dotTaken(items []scene.Item, at geom.Point, how guide.Taken, next bool, pal look.Palette) []scene.Item {
	switch {
	case how == guide.StoppedOn:
		return append(items, scene.Line(14, pal.Cloth, at), scene.Line(11, pal.Thread, at))
	case how == guide.GoneThrough:
		return append(items, scene.Line(14, pal.Cloth, at), scene.Ring(at, 5, 2.5, pal.Thread))
	case how == guide.PassedBy:
		return append(items, scene.Dashes(geom.Arc(at, 8, 0, 2*math.Pi), 7, 5.5, 3, pal.Long)...)
	case next:
		return append(items, scene.Ring(at, 8, 2, pal.Chalk))
	}
	return items
}

// liveSpeed draws the hand's speed so far on the strip, over the way it has gone.
func (d drawer) liveSpeed() {
	if !d.Guide().SpeedStrip || d.Screen.Strip == 0 {
		return
	}
	key := threadKey{live: d.Live.Began(), tracing: true, stitch: d.HandSpeed(), view: d.View}
	if d.speedKey != key {
		d.speedKey, d.speed = key, d.speed[:0]
	}
	a := d.axes()
	for _, s := range d.Live.Pace.Speeds[len(d.speed):] {
		d.speed = append(d.speed, geom.Pt(a.X(min(s.S, a.Length)), a.Y(s.V)))
	}
	if len(d.speed) > 0 {
		d.Moving = append(d.Moving, scene.Line(2.4, d.pal.Thread, d.speed...))
	}
}
