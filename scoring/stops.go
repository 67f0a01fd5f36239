package scoring

import "unthreaded/path/geom"

const (
	// stopShare of the cruising speed is what the speed is below in a stop.
	stopShare = 0.20
	// leastStop is the shortest time in seconds that counts as a stop: a hand
	// that turns a sharp corner or turns round is slow for less than that.
	leastStop = 0.10
)

// StopKind tells where a hand stood still.
type StopKind string

// The kinds of stop. On a dot the needle is meant to stop. At the start and the
// end the hand waits, and so it does where it lets go with the needle down and takes
// hold anew; anywhere else stitches pile up to a knot.
const (
	AtDot    StopKind = "dot"
	AtCorner StopKind = "corner"
	AtStart  StopKind = "start"
	AtEnd    StopKind = "end"
	AtRest   StopKind = "rest"
	Knot     StopKind = "knot"
)

// Stop is a stretch of time in which the hand moved at less than a fifth of its
// cruising speed.
type Stop struct {
	// At is the place in mm along the line, T the time in seconds at which it
	// begins and Seconds how long it lasts.
	At      float64  `json:"at_mm"`
	T       float64  `json:"t_s"`
	Seconds float64  `json:"seconds"`
	Kind    StopKind `json:"kind"`
	// Stitches is how often the needle went down meanwhile.
	Stitches float64 `json:"stitches"`

	i, end int // the points within
}

// findStops lets a stop last until the hand is clearly under way, at half as much
// speed again as begins it, so that one that trembles is one stop.
func (r *run) findStops() []Stop {
	below := func(i int, share float64) bool { return !r.inGap[i] && r.p.Speed[i] < share*r.speed }
	out := []Stop{}
	for i := 0; i < len(r.p.Speed); i++ {
		if !below(i, stopShare) {
			continue
		}
		end := i
		k := i
		for ; k < len(r.p.Speed) && below(k, 1.5*stopShare); k++ {
			if below(k, stopShare) {
				end = k + 1
			}
		}
		if s := r.stop(i, end); s.Seconds >= leastStop {
			out = append(out, s)
		}
		i = k
	}
	return out
}

func (r *run) stop(i, end int) Stop {
	mid := (i + end - 1) / 2
	s := Stop{
		At: r.m.Place[mid], T: r.p.Time(i), Seconds: float64(end-i) / r.p.Rate,
		Kind: Knot, i: i, end: end,
	}
	s.Stitches = s.Seconds * r.needleRate()
	// A hand that comes to rest trembles, and a pixel more is quick: the ends take in
	// what lies as near to them as is left out of evenness.
	ends := int(endTime * r.p.Rate)
	switch {
	case r.at(r.line.Dots, mid):
		s.Kind = AtDot
	case i < ends:
		s.Kind = AtStart
	case end > len(r.p.Speed)-ends:
		s.Kind = AtEnd
	case r.rests(i, end):
		s.Kind = AtRest
	case r.at(r.line.Corners, mid):
		s.Kind = AtCorner
	}
	return s
}

// at tells whether point i lies within the tolerance of one of the places on
// the line.
func (r *run) at(places []float64, i int) bool {
	k := nearest(places, r.m.Place[i])
	return k >= 0 && geom.Dist(r.m.Laid[i], r.line.At(places[k])) <= r.set.ToleranceMM
}
