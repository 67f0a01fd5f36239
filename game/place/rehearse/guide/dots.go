package guide

import (
	"math"

	"unthreaded/path/geom"
)

const (
	// DotMM is how near a dot the needle must come to be on it, as in the measures.
	DotMM = 3.0
	// stopTime in s at rest, within restMM, is a stop.
	stopTime = 0.2
	restMM   = 1.0
	// A dot is passed by once the hand has been within nearMM of it, or half the way
	// to it, and is leaveMM farther from it again.
	nearMM, leaveMM = 12.0, 6.0
)

// Taken tells how a dot was taken.
type Taken uint8

// The states of a dot: still to come, stopped on, gone through without a stop,
// passed by.
const (
	ToCome Taken = iota
	StoppedOn
	GoneThrough
	PassedBy
)

// Word is what there is to tell the hand.
type Word uint8

// The words: nothing; dots First to Last were left out; she went through dot First
// without a stop; she stopped on dot First, which is not the next one.
const (
	Nothing Word = iota
	LeftOut
	NoStop
	OutOfOrder
)

// Told is a word about the dots First to Last, counted from 0.
type Told struct {
	Word        Word
	First, Last int
}

// Dots follows a hand from dot to dot of a line. Its slices share memory with the
// Dots before, which must not be used again.
type Dots struct {
	At    []geom.Point
	Taken []Taken
	// Next is the dot to go to.
	Next int
	// Told is the last word; a dot that is taken well clears it.
	Told Told

	near []float64
	// on is the dot that the hand is on, -1 for none; rest and since where and since
	// when it has been at rest, closest how near it came to the next dot.
	on          int
	stopped     bool
	rest        geom.Point
	since       float64
	closest     float64
	beganMoving bool
}

// NewDots returns the dots of a line at the start of a trace.
func NewDots(l geom.Line) Dots {
	d := Dots{on: -1, closest: math.Inf(1)}
	last := 0.0
	for _, s := range l.Dots {
		d.At = append(d.At, l.At(s))
		d.near = append(d.near, math.Min(nearMM, (s-last)/2))
		last = s
	}
	d.Taken = make([]Taken, len(d.At))
	return d
}

// To goes on to p at time t. A hand at rest sends no samples, so the last place
// should be given again as time goes by. Cost O(dots).
func (d Dots) To(t float64, p geom.Point) Dots {
	if len(d.At) == 0 {
		return d
	}
	if !d.beganMoving || geom.Dist(p, d.rest) > restMM {
		d.rest, d.since = p, t
	}
	k := d.under(p)
	if !d.beganMoving {
		// Where the needle goes down it has stopped already.
		d.beganMoving, d.on, d.stopped = true, k, true
		if k == d.Next {
			d = d.take(k, StoppedOn)
		}
	}
	if k != d.on {
		if d.on >= 0 && !d.stopped {
			d = d.take(d.on, GoneThrough)
		}
		d.on, d.stopped = k, false
	}
	if k >= 0 && !d.stopped && t-d.since >= stopTime {
		d.stopped = true
		d = d.take(k, StoppedOn)
	}
	return d.passing(p)
}

// Rest goes on from the hand's place p at time t to where it has been at rest long
// enough for a stop: the needle stays down there, however long the hand is away.
func (d Dots) Rest(t float64, p geom.Point) Dots { return d.To(t, p).To(t+stopTime, p) }

// under returns the dot that p is on, -1 for none. Of several in one spot it is the
// next one, then the one just taken, then the first.
func (d Dots) under(p geom.Point) int {
	best, least := -1, DotMM+1e-9
	for k, at := range d.At {
		dist := geom.Dist(p, at)
		switch {
		case k == d.Next:
			dist -= 2e-6
		case k == d.Next-1:
			dist -= 1e-6
		}
		if dist < least {
			best, least = k, dist
		}
	}
	return best
}

// take takes dot k in the given way.
func (d Dots) take(k int, how Taken) Dots {
	switch {
	case k >= d.Next:
		d.Told = Told{}
		if how == GoneThrough {
			d.Told = Told{NoStop, k, k}
		}
		if k > d.Next {
			for i := d.Next; i < k; i++ {
				d.Taken[i] = PassedBy
			}
			d.Told = Told{LeftOut, d.Next, k - 1}
		}
		d.Taken[k] = how
		d.Next, d.closest = k+1, math.Inf(1)
	case how == GoneThrough: // on the way to another
	case d.Taken[k] != StoppedOn:
		d.Taken[k], d.Told = StoppedOn, Told{} // she went back for it
	case k < d.Next-1:
		d.Told = Told{OutOfOrder, k, k}
	}
	return d
}

// passing notices that the hand leaves the next dot aside.
func (d Dots) passing(p geom.Point) Dots {
	if d.Next >= len(d.At) || d.on >= 0 {
		return d
	}
	dist := geom.Dist(p, d.At[d.Next])
	d.closest = math.Min(d.closest, dist)
	if d.closest > d.near[d.Next] || dist < d.closest+leaveMM {
		return d
	}
	d.Taken[d.Next] = PassedBy
	d.Told = Told{LeftOut, d.Next, d.Next}
	d.Next, d.closest = d.Next+1, math.Inf(1)
	return d
}
