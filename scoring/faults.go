package scoring

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"

	"unthreaded/scoring/align"
)

// FaultKind names what went wrong.
type FaultKind string

// The kinds of fault, with the unit of their size.
const (
	AnotherFigure FaultKind = "another-figure" // none
	Backwards     FaultKind = "backwards"      // mm of line
	MissedLine    FaultKind = "missed-line"    // mm of line
	MissedDot     FaultKind = "missed-dot"     // mm from the dot, or 0 if it was not come by
	EarlyDot      FaultKind = "early-dot"      // number of the dot, from 1
	SewnTwice     FaultKind = "sewn-twice"     // mm of line
	AnotherSize   FaultKind = "another-size"   // size of the movement over that of the line
	AllAside      FaultKind = "all-aside"      // mm, the mean
	KnotHere      FaultKind = "knot"           // seconds at rest
	Unsteady      FaultKind = "unsteady"       // share of the speed, up and down
	SlowCurves    FaultKind = "slow-curves"    // exponent
	TooSlow       FaultKind = "slow-part"      // share of the speed elsewhere
	TooFast       FaultKind = "fast-part"      // share of the speed elsewhere
	Hesitated     FaultKind = "hesitation"     // share of the speed left
	AllUneven     FaultKind = "all-uneven"     // coefficient of variation of the stitches
	Overshot      FaultKind = "overshot"       // mm past the vertex
	CutCorner     FaultKind = "cut-corner"     // mm from the vertex
	Aside         FaultKind = "aside"          // mm, in one place
	PastEnd       FaultKind = "past-end"       // mm
	OffPace       FaultKind = "off-pace"       // share of the planned speed
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
	// Gravity sets faults in order that are of equal rank; 1 just deserves a word.
	Gravity float64 `json:"gravity"`
}

// The least sizes that count as faults. They lie above what the device and a
// good hand leave by chance; they are ours, to be set anew from recorded hands.
const (
	leastOvershoot = 1.0  // mm
	leastCut       = 1.5  // mm
	leastAside     = 2.0  // mm, over asideMM
	asideMM        = 5.0  // mm of the movement
	leastMean      = 1.5  // mm, of the mean over all of the movement
	leastSizeShare = 0.04 // of the size
	leastKnot      = 0.20 // s
	leastUnsteady  = 0.12 // share, above the noise
	unsteadyFit    = 0.5  // share of the variance
	leastExponent  = 0.10
	exponentFit    = 0.4  // share of the variance
	deepHesitation = 0.7  // share of the expected speed left
	leastUneven    = 0.25 // coefficient of variation
	leastRange     = 2.0  // the 95th percentile of the stitches over the 5th
	paceSlow       = 1 - NearShare
	paceFast       = 1 / (1 - NearShare)
)

// clear tells whether the hand followed the law of curves so clearly that it is
// a habit and no chance.
func (s Slowing) clear() bool {
	return s.Exponent.Defined && s.Exponent.Value >= leastExponent && s.Fit.Value >= exponentFit
}

// faults collects what went wrong, the gravest first: by rank, and within one by gravity.
// Of another figure nothing else can be said.
func (r *run) faults(rep Report) []Fault {
	if r.m.Another {
		return []Fault{{Kind: AnotherFigure, To: r.line.Length(), Gravity: 1}}
	}
	f := []Fault{}
	f = append(f, r.routeFaults(rep)...)
	corners := cornerFaults(rep.Turns)
	f = append(f, corners...)
	f = append(f, r.besideFaults(rep, corners)...)
	f = append(f, r.pastFaults()...)
	speed := r.speedFaults(rep)
	f = append(f, speed...)
	f = append(f, r.unevenFault(rep, speed)...)
	slices.SortStableFunc(f, func(a, b Fault) int {
		return cmp.Or(cmp.Compare(r.rank(a), r.rank(b)), cmp.Compare(b.Gravity, a.Gravity))
	})
	return f
}

// rank sets the faults in the one order in which they are spoken of: what makes the trace
// another one than was meant before how well it was made. Little of the line left out or
// sewn twice is no graver than a corner.
func (r *run) rank(f Fault) int {
	if (f.Kind == MissedLine || f.Kind == SewnTwice) && f.Size < littleMissed && f.Size < littleShare*r.line.Length() {
		return ranks[Aside]
	}
	return ranks[f.Kind]
}

var ranks = map[FaultKind]int{
	AnotherFigure: 0, Backwards: 1, MissedLine: 2, MissedDot: 2, EarlyDot: 3, SewnTwice: 3, AnotherSize: 4, AllAside: 4, KnotHere: 5,
	Unsteady: 6, SlowCurves: 6, TooSlow: 6, TooFast: 6, Hesitated: 6, AllUneven: 6,
	Overshot: 7, CutCorner: 7, Aside: 7, PastEnd: 7, OffPace: 8,
}

const (
	// littleMissed in mm and littleShare of the line bound what little of the line is.
	littleMissed = 20.0
	littleShare  = 0.05
)

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

// besideFaults tells of a movement that lies beside the line as a whole, at another size
// or in places.
func (r *run) besideFaults(rep Report, corners []Fault) []Fault {
	l, size := rep.Lateral, r.m.Fit.Size
	f := Fault{To: r.line.Length(), At: l.MaxAt.Value}
	if resized := math.Abs(size - 1); r.m.Fit.Kind != align.Shifted && resized >= leastSizeShare {
		f.Kind, f.Size, f.Gravity = AnotherSize, size, resized/leastSizeShare
		return []Fault{f}
	}
	if l.MeanError.Defined && (l.MeanError.Value >= leastMean || l.P95.Value > r.set.ToleranceMM) {
		f.Kind, f.Size, f.Gravity = AllAside, l.MeanError.Value, max(1, l.MeanError.Value/leastMean)
		return []Fault{f}
	}
	return r.asideFaults(corners)
}

// unevenFault tells of stitches that differ much where nothing told of them already.
func (r *run) unevenFault(rep Report, told []Fault) []Fault {
	for _, f := range told {
		if f.Gravity >= 1 && f.Kind != KnotHere && f.Kind != OffPace {
			return nil
		}
	}
	cv := rep.Evenness.SpacingCV
	var lengths []float64
	var worst float64
	usual := median(r.stitches())
	at := 0.0
	for _, k := range r.counted() {
		i := r.index(r.falls[k].T)
		if !r.steady(i) || !r.steady(r.index(r.falls[k-1].T)) {
			continue
		}
		lengths = append(lengths, r.falls[k].Length)
		if d := math.Abs(math.Log(max(0.1, r.falls[k].Length/usual))); d > worst {
			worst, at = d, r.m.Place[i]
		}
	}
	if !cv.Defined || len(lengths) < 10 {
		return nil
	}
	slices.Sort(lengths)
	gravity := quiet(lengths, r.noise.stitch).Value / leastUneven
	lo, hi := stat.Quantile(0.05, stat.Empirical, lengths, nil), stat.Quantile(0.95, stat.Empirical, lengths, nil)
	if lo > 0 {
		gravity = max(gravity, hi/lo/leastRange)
	}
	if gravity < 1 {
		return nil
	}
	return []Fault{{Kind: AllUneven, To: r.line.Length(), At: at, Size: cv.Value, Gravity: gravity}}
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
