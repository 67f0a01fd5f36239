package bench

import (
	"slices"
	"strings"
)

// Trace is what is known of a trace that she kept, for her own speed.
type Trace struct {
	// Line names what was traced; Cruise is the middle speed of her hand in mm/s
	// where it moved freely, 0 where that was not noted.
	Line   string
	Cruise float64
}

// OwnPace is her own comfortable hand speed.
type OwnPace struct {
	// Hand is in mm/s, 0 where no trace tells it; Traces is how many it rests on.
	Hand   float64
	Traces int
	// Here is true where they are traces of this plan, false where of other lines.
	Here bool
	// Unnoted is how many traces were kept without their speed.
	Unnoted int
}

// paceTraces is how many traces her pace is the middle of: of late ones, since it
// changes as she learns.
const paceTraces = 5

// Pace returns her own speed from her traces, newest first: the middle one of the
// last few along this plan, or of other lines where there are none.
func (p Plan) Pace(traces []Trace) OwnPace {
	var here, other []float64
	out := OwnPace{}
	for _, t := range traces {
		switch {
		case t.Cruise <= 0:
			out.Unnoted++
		case p.isOf(t.Line):
			here = append(here, t.Cruise)
		default:
			other = append(other, t.Cruise)
		}
	}
	speeds := other
	if out.Here = len(here) > 0; out.Here {
		speeds = here
	}
	speeds = slices.Clone(speeds[:min(len(speeds), paceTraces)])
	slices.Sort(speeds)
	if n := len(speeds); n > 0 {
		out.Hand, out.Traces = (speeds[n/2]+speeds[(n-1)/2])/2, n
	}
	return out
}

// routeMark stands before the ID of the drawing in the name of a traced route, and
// digits after it.
const (
	routeMark = "route-"
	digits    = 9
)

// isOf tells whether a traced line is of this plan: the drawing itself, or a route
// through it, whose name ends in a dash and the digits of its path.
func (p Plan) isOf(line string) bool {
	rest, found := strings.CutPrefix(line, routeMark+p.ID)
	return line == p.ID || found && len(rest) == digits && rest[0] == '-'
}
