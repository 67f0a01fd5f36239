package sketch

import (
	"fmt"
	"math"
)

// Options tell how closely Fit follows a hand. Lengths are mm on the cloth.
type Options struct {
	// Tolerance is the farthest the result may lie from the smoothed stroke.
	Tolerance float64
	// Scale is the length over which a direction is judged; details shorter than it
	// are smoothed away, and the legs of a zigzag must be longer. A stroke whose
	// jitter asks for more gets up to twice as much.
	Scale float64
	// Corner is the least turn, in radians, that is kept as a corner.
	Corner float64
	// Close is the farthest that the ends of a stroke may be apart to be joined;
	// 0 leaves all strokes open.
	Close float64
	// Straight is how far the smoothed stroke between two corners may bow from
	// its chord to be made straight (at most a twentieth of the chord, so that
	// small arcs stay arcs); 0 leaves it as it is.
	Straight float64
}

// Usual returns options that suit a hand drawing on a screen on which one pixel
// shows pixel mm of the cloth: a tolerance of half a millimetre or one and a half
// pixels, whichever is more, and the rest in proportion.
func Usual(pixel float64) Options {
	return Options{
		Tolerance: math.Max(0.5, 1.5*pixel),
		Scale:     math.Max(3, 9*pixel),
		Corner:    50 * math.Pi / 180,
		Close:     math.Max(4, 12*pixel),
		Straight:  math.Max(1, 3*pixel),
	}
}

// Validate names the option that is out of its range.
func (o Options) Validate() error {
	for _, c := range []struct {
		name          string
		value, lo, hi float64
	}{
		{"tolerance", o.Tolerance, 0.001, 1000},
		{"scale", o.Scale, 0.01, 1000},
		{"corner", o.Corner, 0.2, math.Pi},
		{"close", o.Close, 0, 1000},
		{"straight", o.Straight, 0, 1000},
	} {
		if !(c.value >= c.lo && c.value <= c.hi) {
			return fmt.Errorf("option %s is %v, it must be from %v to %v", c.name, c.value, c.lo, c.hi)
		}
	}
	return nil
}

// Fitted tells what Fit made of a stroke.
type Fitted struct {
	// Corners are the nodes of the result that are corners, ascending; the ends
	// of an open line are not among them, node 0 of a closed one may be.
	Corners []int
	// Closed tells that the ends of the stroke were joined.
	Closed bool
	// Pieces is the number of cubic pieces, Straight how many are straight.
	Pieces, Straight int
	// MaxChange and MeanChange are the largest and the mean distance in mm between
	// stroke and result, looked at both ways: from each sample to the result and
	// from places all along the result to the stroke.
	MaxChange, MeanChange float64
}
