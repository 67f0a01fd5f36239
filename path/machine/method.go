package machine

import "slices"

// Method is a way of moving the cloth, with the foot it wants.
type Method string

// The methods.
const (
	// WalkingFoot: the feed dogs are up and carry the layers evenly; the quilt is
	// turned to follow the line.
	WalkingFoot Method = "walking"
	// FreeMotion: the feed dogs are down or covered, the hands move the cloth
	// every way without turning it.
	FreeMotion Method = "free"
	// RulerFoot: free motion, guided by a ruler against the foot's rim. Lines
	// without a ruler can be sewn freely with the same foot.
	RulerFoot Method = "ruler"
)

// Methods returns all methods in the order in which a page offers them.
func Methods() []Method { return []Method{WalkingFoot, FreeMotion, RulerFoot} }

// The limits on which advice rests. That fed cloth suits straight lines and
// gentle curves, that turning a quilt under the machine is what tires, and that
// long straight lines waver without a guide is common practice; the numbers are
// ours, to be overruled.
const (
	// GentleRadius is the tightest curve in mm for the walking foot.
	GentleRadius = 75.0
	// MaxRotations is the largest number of full turns of the quilt for each
	// metre of line: a square block of 250 mm sewn round has 1.
	MaxRotations = 1.0
	// MinStraightShare is the share of the line from which a guide pays.
	MinStraightShare = 0.7
	// MinRulerLines is the number of lines marked for a ruler that ask for its
	// foot.
	MinRulerLines = 1.0
)

// Figure is a figure of the design that the advice rests on.
type Figure string

// The figures: the smallest radius, the turns of the quilt, the lines marked for a
// ruler, and the straight share of the line.
const (
	Radius         Figure = "radius"
	Turns          Figure = "turns"
	RulerLineCount Figure = "ruler-lines"
	StraightPart   Figure = "straight"
)

// Reason is a figure with the limit it was held against.
type Reason struct {
	Figure Figure
	// Unit is "mm", "per m", "" for a count or a share.
	Unit         string
	Value, Limit float64
	// Holds tells whether the value keeps the limit: at most it for the turns of
	// the quilt, at least it for the others.
	Holds bool
	// Favours lists the methods that the figure speaks for.
	Favours []Method
}

// Need is one thing that would have to be different.
type Need struct {
	Figure     Figure
	Unit       string
	Now, Limit float64
	// Rise is true where the figure has to go up to or past the limit.
	Rise bool
}

// Change says what would lead to another method: all of its needs together.
type Change struct {
	To    Method
	Needs []Need
}

// Advice is the advised method. It is data: a person may choose otherwise.
type Advice struct {
	Method  Method
	Reasons []Reason
	// Changes lists for each other method the fewest needs that lead there.
	Changes []Change
}

// Advise chooses the foot: the walking foot where the curves are gentle and the
// quilt need not be turned much; else the ruler foot where lines are marked for a
// ruler or most is straight; else free motion.
func Advise(f Figures) Advice {
	return adviceFrom(tests(f))
}

// Against returns the reasons that speak against method m, for her who chooses it
// all the same.
func (a Advice) Against(m Method) []Reason {
	var out []Reason
	for _, r := range a.Reasons {
		if !slices.Contains(r.Favours, m) {
			out = append(out, r)
		}
	}
	return out
}
