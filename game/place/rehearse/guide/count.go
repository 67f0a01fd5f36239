package guide

import (
	"math"

	"unthreaded/path/geom"
)

const (
	// Beats are counted before a timed start, Beat seconds apart.
	Beats = 3
	Beat  = 0.8
	// stillMM is how far a hand may stray while it waits for the start.
	stillMM = 3.0
	// reaction in s is the most that is taken for the time in which a hand began to
	// move before the first report of it.
	reaction = 0.1
)

// Count is a count before the start: the first beat falls at T, the start comes a
// beat after the last.
type Count struct {
	T  float64
	At geom.Point
	// told is how many beats have been told.
	told int
}

// Start returns the time of the start.
func (c Count) Start() float64 { return c.T + Beats*Beat }

// Left returns how many beats are still to come before the start, at time t.
func (c Count) Left(t float64) int {
	return max(0, min(Beats, int(math.Ceil((c.Start()-t)/Beat-1e-9))))
}

// Tell returns the times of the beats that have fallen by t and were not told yet.
func (c Count) Tell(t float64) (Count, []float64) {
	var fallen []float64
	for c.told < Beats && c.T+float64(c.told)*Beat <= t {
		fallen = append(fallen, c.T+float64(c.told)*Beat)
		c.told++
	}
	return c, fallen
}

// Ended tells whether a hand at p at time t has started, and when: as counted, or
// by going off earlier, in which case its last report before came at time before.
func (c Count) Ended(t float64, p geom.Point, before float64) (start float64, ended bool) {
	switch {
	case t >= c.Start():
		return c.Start(), true
	case geom.Dist(p, c.At) > stillMM:
		return math.Max(before, t-reaction), true
	}
	return 0, false
}
