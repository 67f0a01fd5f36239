package rehearse

import (
	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/place/rehearse/guide"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// Sound has ticks sounded at the given times in s on the event clock, with Volume
// from 0 to 1. Beats are those of a count before the start.
type Sound struct {
	At     []float64
	Volume float64
	Beats  bool
}

// Listen has the sound made ready, or put away.
type Listen struct{ On bool }

func (Sound) IsEffect()  {}
func (Listen) IsEffect() {}

// Live is a trace while it is being drawn.
type Live struct {
	pointer int
	device  trace.Device
	// t0 is the event time of the first sample in s.
	t0 float64
	// Samples are those so far; whole counts the places that are whole pixels.
	Samples []trace.Sample
	whole   int
	// holds are where the hand took hold anew; it was away for so many s in all, and
	// is while it rests.
	holds []trace.Hold
	away  float64
	rests bool

	way   string
	guide keep.Guide
	// needle is where on the screen the needle stands when the cloth moves; start is
	// the place in mm on the cloth that was under it when the pointer took hold of
	// the cloth for the last time.
	needle       geom.Point
	start, first geom.Point

	// Count runs while Counting; the trace begins when it ends.
	Counting bool
	Count    guide.Count
	Lead     guide.Lead
	Pace     guide.Pace
	Dots     guide.Dots
	walk     guide.Walk
	// ticks are the event times of the stitches of the last sample.
	ticks []float64
	// screen is the cloth's place as it was; Resized tells that it has changed meanwhile.
	screen  screen.Cloth
	Resized bool
	// told is the notice that was on the page before. It stays until the trace is
	// finished, so that the page, and with it the cloth, is not laid out anew at the
	// moment when the pointer goes down.
	told place.Notice
	// jot is what has been written down of the trace.
	jot jot
}

// Began returns the event time in s at which the trace began; it names the trace
// while it is drawn.
func (l *Live) Began() float64 { return l.t0 }

func (l *Live) last() trace.Sample { return l.Samples[len(l.Samples)-1] }

// newLive returns the trace that begins with the report p.
func (r Room) newLive(p place.Pointer) *Live {
	s := r.Settings
	l := &Live{
		pointer: p.ID, device: p.Device, t0: p.T, way: s.Way, guide: r.Guide(), screen: r.Screen,
		needle: r.Screen.Middle(), start: r.Line.At(0), first: r.View.ToCloth(geom.Pt(p.X, p.Y)),
		Lead: guide.NewLead(r.Guide().Lead == keep.LeadWaits, r.HandSpeed()),
		Dots: guide.NewDots(r.Line), walk: guide.Walk{StepMM: s.StitchMM},
	}
	if l.guide.CountIn {
		l.Counting = true
		l.Count = guide.Count{T: p.T, At: l.under(r.View, p)}
	}
	return l.with(r.View, p)
}

// under returns the place in mm on the cloth that the report p sews.
func (l *Live) under(v screen.View, p place.Pointer) geom.Point {
	at := v.ToCloth(geom.Pt(p.X, p.Y))
	if l.way == keep.Cloth {
		return trace.UnderNeedle(l.start, l.first, at)
	}
	return at
}

// follow takes the guides along to the sample just added.
func (l Live) follow() Live {
	s := l.last()
	before := s.T
	if n := len(l.Samples); n > 1 {
		before = l.Samples[n-2].T
	}
	var shares []float64
	l.walk, shares = l.walk.To(s.P)
	l.ticks = nil
	for _, f := range shares {
		l.ticks = append(l.ticks, l.t0+l.away+before+f*(s.T-before))
	}
	l.Pace = l.Pace.To(s.T, s.P)
	l.Dots = l.Dots.To(s.T, s.P)
	return l
}

// started ends the count at event time t: the trace begins there.
func (l Live) started(t float64) Live {
	l.Counting, l.t0 = false, t
	l.Samples[0].T = 0
	return l.follow()
}

// lively tells whether something on the cloth moves by itself while she traces.
func (r Room) lively() bool {
	return r.Live != nil && !r.Live.rests && (r.Live.Counting || r.Live.guide.Lead != keep.NoLead || r.Ruled())
}

// guided moves what helps the hand on by dt seconds to the event time now.
func (r Room) guided(now, dt float64) (Room, []place.Effect) {
	l := *r.Live
	r.Live = &l
	if l.Counting {
		var beats []float64
		l.Count, beats = l.Count.Tell(now)
		if start, ended := l.Count.Ended(now, l.last().P, 0); ended {
			l = l.started(start)
		}
		return r, l.sound(beats, true, r.Settings.Volume)
	}
	l.Lead = l.Lead.Advance(dt, r.HandSpeed(), r.Line, l.last().P)
	l.Dots = l.Dots.To(l.time(now), l.last().P)
	return r, nil
}

// sound returns the effect of ticks at the given times, none if she wants none.
func (l Live) sound(at []float64, beats bool, volume float64) []place.Effect {
	if len(at) == 0 || !l.guide.Ticks || volume == 0 {
		return nil
	}
	return []place.Effect{Sound{At: at, Volume: volume, Beats: beats}}
}
