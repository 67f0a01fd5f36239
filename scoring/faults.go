package scoring

import (
	"math"
	"slices"
)

// FaultKind names what went wrong.
type FaultKind string

// The kinds of fault, with the unit of their size.
const (
	MissedDot  FaultKind = "missed dot"       // mm from the dot, or 0 if it was not come by
	EarlyDot   FaultKind = "early dot"        // number of the dot, from 1
	MissedLine FaultKind = "missed line"      // mm of line
	SewnTwice  FaultKind = "sewn twice"       // mm of line
	Backwards  FaultKind = "sewn backwards"   // mm of line
	Overshot   FaultKind = "overshot corner"  // mm past the vertex
	CutCorner  FaultKind = "cut corner"       // mm from the vertex
	KnotHere   FaultKind = "knot"             // seconds at rest
	Unsteady   FaultKind = "unsteady speed"   // share of the speed, up and down
	SlowCurves FaultKind = "slowed in curves" // exponent
	TooSlow    FaultKind = "slow part"        // share of the speed elsewhere
	TooFast    FaultKind = "fast part"        // share of the speed elsewhere
	Aside      FaultKind = "beside the line"  // mm
	PastEnd    FaultKind = "past the end"     // mm
	Hesitated  FaultKind = "hesitation"       // share of the speed left
	OffPace    FaultKind = "off the pace"     // share of the planned speed
)

// Fault is one thing that went wrong, with its place and size.
type Fault struct {
	Kind FaultKind `json:"kind"`
	// From and To bound the part of the line concerned, At is its worst place,
	// all in mm along the line.
	From float64 `json:"from_mm"`
	To   float64 `json:"to_mm"`
	At   float64 `json:"at_mm"`
	// Size has the unit that the kind states.
	Size float64 `json:"size"`
	// Number is that of the corner or dot concerned, from 1, else 0.
	Number int `json:"number,omitempty"`
	// Gravity sets faults of all kinds in order; 1 just deserves a word.
	Gravity float64 `json:"gravity"`
}

// The least sizes that count as faults. They lie above what the device and a
// good hand leave by chance; they are ours, to be set anew from recorded hands.
const (
	leastOvershoot = 1.0  // mm
	leastCut       = 1.5  // mm
	leastAside     = 2.0  // mm, over asideMM
	asideMM        = 5.0  // mm of the movement
	leastKnot      = 0.20 // s
	leastUnsteady  = 0.12 // share, above the noise
	unsteadyFit    = 0.5  // share of the variance
	leastExponent  = 0.10
	exponentFit    = 0.4 // share of the variance
	deepHesitation = 0.5 // share of the expected speed left
	paceSlow       = 0.75
	paceFast       = 1.33
)

// clear tells whether the hand followed the law of curves so clearly that it is
// a habit and no chance.
func (s Slowing) clear() bool {
	return s.Exponent.Defined && s.Exponent.Value >= leastExponent && s.Fit.Value >= exponentFit
}

// faults collects what went wrong, the gravest first.
func (r *run) faults(rep Report) []Fault {
	f := []Fault{}
	f = append(f, r.routeFaults(rep)...)
	corners := cornerFaults(rep.Turns)
	f = append(f, corners...)
	f = append(f, r.asideFaults(corners)...)
	f = append(f, r.pastFaults()...)
	f = append(f, r.speedFaults(rep)...)
	slices.SortStableFunc(f, func(a, b Fault) int {
		switch {
		case a.Gravity > b.Gravity:
			return -1
		case a.Gravity < b.Gravity:
			return 1
		}
		return 0
	})
	return f
}

func cornerFaults(t Turns) []Fault {
	var out []Fault
	for k, c := range t.Corners {
		f := Fault{From: c.At, To: c.At, At: c.At, Number: k + 1}
		switch {
		case c.Overshoot.Defined && c.Overshoot.Value >= leastOvershoot:
			f.Kind, f.Size, f.Gravity = Overshot, c.Overshoot.Value, c.Overshoot.Value/leastOvershoot
		case c.Cut && c.Deviation.Value >= leastCut:
			f.Kind, f.Size, f.Gravity = CutCorner, c.Deviation.Value, c.Deviation.Value/leastCut
		default:
			continue
		}
		out = append(out, f)
	}
	return out
}

// asideFaults finds the parts that ran beside the line, apart from corners that
// have a fault of their own.
func (r *run) asideFaults(corners []Fault) []Fault {
	var bad []float64
	for _, c := range corners {
		bad = append(bad, c.At)
	}
	height := func(i int) float64 {
		if !r.matched(i) || r.round[i] || r.past[i] || distance(bad, r.m.Place[i]) < 2*cornerMM {
			return math.NaN()
		}
		return math.Abs(r.m.Offset[i])
	}
	long := func(z zone) bool { return r.p.Arc[z.end-1]-r.p.Arc[z.i] >= asideMM }
	var out []Fault
	for _, z := range zones(r.m.Offset, height, leastAside, long) {
		f := r.fault(Aside, z)
		f.Size = math.Abs(z.worst)
		f.Gravity = f.Size / leastAside
		out = append(out, f)
	}
	return out
}

// fault places a fault at a zone.
func (r *run) fault(kind FaultKind, z zone) Fault {
	a, b, at := r.m.Place[z.i], r.m.Place[z.end-1], r.m.Place[z.at]
	return Fault{Kind: kind, From: min(a, b, at), To: max(a, b, at), At: at, Size: z.worst}
}
