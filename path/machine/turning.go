package machine

import (
	"math"

	"unthreaded/path/geom"
)

// Turning is how a line turns.
type Turning struct {
	// Total is the sum in radians of all turns regardless of their side, Net that
	// of all turns with their sign, clockwise positive. Both leave out a closed
	// line's turn from its end into its beginning.
	Total, Net float64
	// Wound is the largest angle in radians between two headings along the line,
	// turns counted through: how far cloth that is fed winds up at most.
	Wound float64
	// Closed tells whether the line ends where it starts. Its rotation index is
	// then the whole number of turns, with their sign, that the direction makes in
	// one round, the turn at the start included. Closed curves without corners can
	// be bent into each other exactly where they share it (Whitney, Compositio
	// Mathematica 4, 1937: Whitney-Graustein).
	Closed bool
	Index  int
}

// Rotations returns the number of full turns of the quilt, either way, if the
// feed dogs carry it and it is turned to follow the line.
func (t Turning) Rotations() float64 { return t.Total / (2 * math.Pi) }

// NetRotations returns how many full turns remain at the end, clockwise positive.
func (t Turning) NetRotations() float64 { return t.Net / (2 * math.Pi) }

// TurningOf measures l from the turns at its vertices, which for a flattened curve
// sum up to the turning of the curve between its first and last chord. A fold (a
// turn by half a circle) counts as clockwise. Cost O(points).
func TurningOf(l geom.Line) Turning {
	path := l.Path()
	t := Turning{Closed: l.Closed()}
	lo, hi := 0.0, 0.0
	for i := 1; i < len(path)-1; i++ {
		a := geom.TurnAngle(path[i-1], path[i], path[i+1])
		t.Total += math.Abs(a)
		t.Net += a
		lo, hi = math.Min(lo, t.Net), math.Max(hi, t.Net)
	}
	t.Wound = hi - lo
	if t.Closed {
		n := len(path)
		last := geom.TurnAngle(path[n-2], path[n-1], geom.Pt(path[n-1].X+path[1].X-path[0].X, path[n-1].Y+path[1].Y-path[0].Y))
		t.Index = int(math.Round((t.Net + last) / (2 * math.Pi)))
	}
	return t
}
