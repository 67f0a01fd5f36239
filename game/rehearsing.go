package game

import (
	"strconv"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/path/geom"
)

// rehearseControl does what a control of the place asks for.
func (m Model) rehearseControl(c Control) (Model, []Effect) {
	switch c.Name {
	case "screen", "card", "card-less", "card-more", "card-keep", "card-forget", "card-close":
		return m.cardControl(c)
	}
	if c.Name == "finish" {
		return m.finishHere()
	}
	if next, effects, done := m.lessonControl(c); done {
		return next, effects
	}
	before := m.Settings
	m.Settings = rehearsed(m.Settings, c)
	if m.Settings.Way != before.Way && m.Open != nil {
		m = m.clear() // ready to be traced the other way
	}
	next, effects := m.settled(before)
	if on := next.Settings.Guide.Ticks; on != before.Guide.Ticks {
		effects = append(effects, Listen{On: on})
	}
	return next, effects
}

// rehearsed returns the settings after a choice of how to move, what to see or
// what to hear.
func rehearsed(s Settings, c Control) Settings {
	on := c.Value == "on"
	v, err := strconv.ParseFloat(c.Value, 64)
	switch c.Name {
	case "way":
		if c.Value == keep.Pencil || c.Value == keep.Cloth {
			s.Way = c.Value
		}
	case "marks":
		s.Guide.Marks = c.Value
	case "lead":
		s.Guide.Lead = c.Value
	case "countin":
		s.Guide.CountIn = on
	case "strip":
		s.Guide.SpeedStrip = on
	case "unnumbered":
		s.Guide.Unnumbered = on
	case "ticks":
		s.Guide.Ticks = on
	case "volume":
		if err == nil {
			s.Volume = place.ClampOr(v, 0, 1, s.Volume)
		}
	case "follows":
		switch third := Third(c.Value); third {
		case HandFollows, NeedleFollows, StitchFollows:
			s.Follows = third
		}
	case "handspeed":
		if err == nil {
			s = s.WithHand(v)
		}
	}
	s.Guide = s.Guide.Known()
	return s
}

// settled has changed settings kept and lays out anew what depends on them.
func (m Model) settled(before Settings) (Model, []Effect) {
	if m.Settings == before {
		return m, nil
	}
	return m.remeasured(before), []Effect{SaveSettings{Doc: m.Settings.Encode()}}
}

// Way returns the way of moving: that of the trace in hand, else the one chosen.
func (m Model) Way() string {
	if m.Live != nil {
		return m.Live.way
	}
	return m.Settings.Way
}

// Guide returns what helps the hand: of the trace in hand, else as chosen.
func (m Model) Guide() keep.Guide {
	if m.Live != nil {
		return m.Live.guide
	}
	return m.guideAsked()
}

// Ruled tells whether the line is ruler work, from dot to dot.
func (m Model) Ruled() bool { return len(m.Line.Dots) > 1 }

// UnderNeedle tells whether the cloth lies so that the place to be sewn is under a
// needle that stands still: while she moves the cloth, and before, but not while a
// finished trace is looked at.
func (m Model) UnderNeedle() bool {
	return m.Place == Rehearse && m.Way() == keep.Cloth && (m.Live != nil || m.Open == nil)
}

// Needle returns where on the screen a needle stands under which the cloth moves.
func (m Model) Needle() geom.Point {
	if m.Live != nil {
		return m.Live.needle
	}
	return m.Screen.Middle()
}

// Shift returns in CSS pixels how far the cloth is pushed from where the View has
// it.
func (m Model) Shift() geom.Point {
	if !m.UnderNeedle() {
		return geom.Point{}
	}
	at := m.Line.At(0)
	if m.Live != nil {
		at = m.Live.last().P
	}
	needle, place := m.Needle(), m.View.ToScreen(at)
	return geom.Pt(needle.X-place.X, needle.Y-place.Y)
}

// Hold returns where on the screen she should take hold of the cloth: from there
// the pointer goes along the line turned by half a turn, and stays on the cloth
// wherever the line goes.
func (m Model) Hold() geom.Point {
	lo, hi := m.Line.Path().Bounds()
	mid, start := m.View.ToScreen(geom.Lerp(lo, hi, 0.5)), m.View.ToScreen(m.Line.At(0))
	c := m.Screen.Middle()
	return geom.Pt(c.X+mid.X-start.X, c.Y+mid.Y-start.Y)
}

// Setup returns what a trace is compared with, like with like: the one on the cloth
// or, before there is one, the next, whose device nobody knows yet.
func (m Model) Setup() keep.Summary {
	if m.Open != nil {
		return keep.Summarise(m.Open.Rec)
	}
	g := m.guideAsked()
	return keep.Summary{
		Motif: m.Motif.ID, Repeats: m.Repeats, Print: keep.PrintOf(m.Line), Way: m.Settings.Way,
		Zoom: m.View.Zoom, SizeKnown: m.View.SizeKnown, Guide: &g,
	}
}
