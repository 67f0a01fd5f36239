package rehearse

import (
	"unthreaded/game/keep"
	"unthreaded/path/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// Way returns the way of moving: that of the trace in hand, else the one chosen.
func (r Room) Way() string {
	if r.Live != nil {
		return r.Live.way
	}
	return r.Settings.Way
}

// Guide returns what helps the hand: of the trace in hand, else as chosen.
func (r Room) Guide() keep.Guide {
	if r.Live != nil {
		return r.Live.guide
	}
	return r.guideAsked()
}

// Ruled tells whether the line is ruler work, from dot to dot.
func (r Room) Ruled() bool { return len(r.Line.Dots) > 1 }

// UnderNeedle tells whether the cloth lies so that the place to be sewn is under a
// needle that stands still: while she moves the cloth, and before, but not while a
// finished trace is looked at.
func (r Room) UnderNeedle() bool {
	return r.Way() == keep.Cloth && (r.Live != nil || r.Open == nil)
}

// Needle returns where on the screen a needle stands under which the cloth moves.
func (r Room) Needle() geom.Point {
	if r.Live != nil {
		return r.Live.needle
	}
	return r.Screen.Middle()
}

// Shift returns in CSS pixels how far the cloth is pushed from where the View has
// it.
func (r Room) Shift() geom.Point {
	if !r.UnderNeedle() {
		return geom.Point{}
	}
	at := r.Line.At(0)
	switch {
	case r.Live != nil:
		at = r.Live.last().P
	case r.underWay():
		at = r.Line.At(r.PlaceNow())
	}
	return r2.Sub(r.Needle(), r.View.ToScreen(at))
}

// Hold returns where on the screen she should take hold of the cloth: from there
// the pointer goes along the line turned by half a turn, and stays on the cloth
// wherever the line goes.
func (r Room) Hold() geom.Point {
	lo, hi := r.Line.Path().Bounds()
	mid, start := r.View.ToScreen(geom.Lerp(lo, hi, 0.5)), r.View.ToScreen(r.Line.At(0))
	c := r.Screen.Middle()
	return geom.Pt(c.X+mid.X-start.X, c.Y+mid.Y-start.Y)
}

// Setup returns what a trace is compared with, like with like: the one on the cloth
// or, before there is one, the next, whose device nobody knows yet.
func (r Room) Setup() keep.Summary {
	if r.Open != nil {
		return keep.Summarise(r.Open.Rec)
	}
	g := r.guideAsked()
	return keep.Summary{
		Motif: r.Motif.ID, Repeats: r.Repeats, Print: keep.PrintOf(r.Line), Way: r.Settings.Way,
		Zoom: r.View.Zoom, SizeKnown: r.View.SizeKnown, Guide: &g,
	}
}
