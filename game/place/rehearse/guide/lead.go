package guide

import (
	"math"

	"unthreaded/path/geom"
)

const (
	// HeadStart in s is how far ahead of the hand a running needle begins.
	HeadStart = 0.5
	// ReachMM is how near the hand must be for a waiting needle to go on.
	ReachMM = 10.0
	// beyondMM is how far along the line beyond a waiting needle a hand may have
	// come and still take it along.
	beyondMM = 25.0
	// longestWait in s is the most that one step of a waiting needle takes: after a
	// page has stalled it must not leap.
	longestWait = 0.25
)

// Lead is an ideal needle that goes along the line before the hand.
type Lead struct {
	// Waits tells whether it goes on only while the hand is near.
	Waits bool
	// S is its place in mm along the line.
	S float64
}

// NewLead returns the needle at the start of a trace planned at speed mm/s.
func NewLead(waits bool, speed float64) Lead {
	if waits {
		return Lead{Waits: true}
	}
	return Lead{S: speed * HeadStart}
}

// Advance moves the needle on by dt seconds at speed mm/s. A waiting one stays where
// it is unless the hand is within ReachMM of it or of the line just beyond it.
func (l Lead) Advance(dt, speed float64, line geom.Line, hand geom.Point) Lead {
	if l.Waits {
		if !l.met(line, hand) {
			return l
		}
		dt = math.Min(dt, longestWait)
	}
	l.S = math.Min(line.Length(), l.S+math.Max(0, dt)*speed)
	return l
}

// met tells whether the hand is near the needle or has overtaken it.
func (l Lead) met(line geom.Line, hand geom.Point) bool {
	for s := l.S; s <= math.Min(line.Length(), l.S+beyondMM); s += ReachMM / 4 {
		if geom.Dist(line.At(s), hand) <= ReachMM {
			return true
		}
	}
	return false
}
