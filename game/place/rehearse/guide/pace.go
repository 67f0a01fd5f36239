package guide

import "unthreaded/path/geom"

const (
	// paceTime in s is the time over which the speed is taken: a stitch or two.
	paceTime = 0.2
	// paceEvery in s is the least time between two speeds.
	paceEvery = 1.0 / 30
	// paceStep in mm is the least movement that adds up, so that a hand at rest which
	// trembles goes nowhere.
	paceStep = 0.5
)

// SpeedAt is a hand's speed in mm/s after it has gone S mm.
type SpeedAt struct{ S, V float64 }

// Pace is the speed of a hand as it goes. Its slices share memory with the Pace
// before, which must not be used again.
type Pace struct {
	Speeds []SpeedAt

	gone   float64
	foot   geom.Point
	recent []timed
	last   float64
}

type timed struct{ t, gone float64 }

// To goes on to p at time t.
func (g Pace) To(t float64, p geom.Point) Pace {
	if len(g.recent) == 0 {
		g.foot, g.last = p, t
		g.recent = append(g.recent, timed{t, 0})
		return g
	}
	beyond := geom.Dist(g.foot, p)
	if beyond >= paceStep {
		g.gone += beyond
		g.foot, beyond = p, 0
	}
	gone := g.gone + beyond
	g.recent = append(g.recent, timed{t, gone})
	for len(g.recent) > 2 && g.recent[1].t <= t-paceTime {
		g.recent = g.recent[1:]
	}
	first := g.recent[0]
	if span := t - first.t; span >= paceTime/2 && t-g.last >= paceEvery {
		g.Speeds = append(g.Speeds, SpeedAt{gone, (gone - first.gone) / span})
		g.last = t
	}
	return g
}
