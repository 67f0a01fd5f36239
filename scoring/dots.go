package scoring

import (
	"math"

	"unthreaded/path/geom"
)

// Dot is one dot of ruler work as it was taken.
type Dot struct {
	// At is the place of the dot in mm along the line.
	At float64 `json:"at_mm"`
	// Reached tells whether the movement, as laid over the line, came within the tolerance of it, at T
	// seconds for the first time, and Distance is how near in mm it came, on the
	// way round if it was passed by.
	Reached  bool   `json:"reached"`
	T        Figure `json:"t_s"`
	Distance Figure `json:"distance_mm"`
	// Early tells that it was reached out of order, before one that comes first.
	Early bool `json:"early"`
	// Stop is how long in seconds the hand stood still on it, or was away with the
	// needle down there.
	Stop float64 `json:"stop_s"`
}

// dots looks for each dot of the line in the movement: it is reached where the
// hand came near while its place was by the dot, so that a line that passes the
// same spot twice has it counted once.
func (r *run) dots() []Dot {
	out := make([]Dot, len(r.line.Dots))
	for k, s := range r.line.Dots {
		out[k] = Dot{At: s, T: undefined(NotReached), Distance: undefined(NotReached)}
	}
	if len(out) == 0 {
		return out
	}
	for i, place := range r.m.Place {
		k := nearest(r.line.Dots, place)
		if !r.matched(i) || math.Abs(place-out[k].At) > cornerMM {
			continue
		}
		d := geom.Dist(r.m.Laid[i], r.line.At(out[k].At))
		if !out[k].Distance.Defined || d < out[k].Distance.Value {
			out[k].Distance = figure(d)
		}
		if d <= r.set.ToleranceMM && !out[k].Reached {
			out[k].Reached, out[k].T = true, figure(r.p.Time(i))
		}
	}
	for _, c := range r.cuts {
		for k := range out {
			if d := &out[k]; !d.Reached && d.At >= c.From && d.At <= c.To {
				// The hand may have gone from one side to the other within one step: its
				// way is that from the point before to the point after.
				near, _ := deviation(r.m.Laid[max(0, c.i-1):min(len(r.m.Laid), c.end+1)], r.line.At(d.At))
				d.Distance = figure(near)
			}
		}
	}
	for _, s := range r.stops {
		if s.Kind == AtDot {
			out[nearest(r.line.Dots, s.At)].Stop += s.Seconds
		}
	}
	r.restsOn(out)
	markEarly(out)
	return out
}

// markEarly marks the fewest dots without which the others were reached in
// order: those not in a longest ascending series of times, the earlier dots being
// kept where there is a choice. Cost O(dots^2).
func markEarly(dots []Dot) {
	length := make([]int, len(dots)) // of the longest series that begins here
	next := make([]int, len(dots))
	best := -1
	for k := len(dots) - 1; k >= 0; k-- {
		if !dots[k].Reached {
			continue
		}
		length[k], next[k] = 1, -1
		for j := k + 1; j < len(dots); j++ {
			if dots[j].Reached && dots[j].T.Value > dots[k].T.Value && length[j]+1 > length[k] {
				length[k], next[k] = length[j]+1, j
			}
		}
		if best < 0 || length[k] >= length[best] {
			best = k
		}
		dots[k].Early = true
	}
	for k := best; k >= 0; k = next[k] {
		dots[k].Early = false
	}
}
