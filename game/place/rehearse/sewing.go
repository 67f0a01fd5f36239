package rehearse

import (
	"math"

	"unthreaded/scoring/trace"
)

// sewing runs along the stitches of a trace once, after the lift.
type sewing struct {
	on bool
	t  float64 // s since the lift
}

// sewSeconds is how long the stitches take to run along the line.
const sewSeconds = 1.0

// sews has the stitches run along the line, where the system does not ask for less motion.
func (r Room) sews() Room {
	r.sewing = sewing{on: r.Moves && r.Open != nil && len(r.Open.Falls) > 0}
	return r
}

// settled has all stitches lie there; anything that she does ends their running.
func (r Room) settled() Room {
	r.sewing = sewing{}
	return r
}

// advanced moves the stitches after the lift, or the replay, on by dt s.
func (r Room) advanced(dt float64) Room {
	if !r.sewing.on {
		r.Replay = r.Replay.Advance(dt)
		return r
	}
	r.sewing.t += math.Max(0, math.Min(dt, 0.1))
	r.sewing.on = r.sewing.t < sewSeconds
	return r
}

// shownT returns the time in s of the trace up to which its stitches are shown.
func (r Room) shownT() float64 {
	if r.sewing.on {
		return r.Replay.Length * r.sewing.t / sewSeconds
	}
	if r.ideals() {
		return math.Inf(1) // hers lies there whole while the ideal needle moves
	}
	return r.Replay.T
}

// runs has the stitches of a trace run along the line that she ended herself.
func (r Room) runs(end trace.Ending) Room {
	if end == trace.Interrupted {
		return r
	}
	return r.sews()
}

// repeatAt returns which repeat of the row a place in mm along the line lies in, from 1; 0
// where the row has no repeats.
func (r Room) repeatAt(s float64) int {
	for k, end := range r.ends {
		if s <= end {
			return k + 1
		}
	}
	return len(r.ends)
}
