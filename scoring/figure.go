package scoring

import "math"

// Figure is a measured value, or the reason why there is none. It is written to
// JSON without infinities and NaN, which JSON does not know.
type Figure struct {
	// Value is 0 where the figure is not defined.
	Value float64 `json:"value"`
	// Defined tells that Value was measured.
	Defined bool `json:"defined"`
	// Why tells why it was not.
	Why Reason `json:"why,omitempty"`
	// Least is, HiddenByPixels, the least value that could be told from none.
	Least float64 `json:"least,omitempty"`
}

// Reason is why there is no figure.
type Reason string

// The reasons.
const (
	NoPlan         Reason = "no-plan"          // no stitch length or needle rate was planned
	NoMovement     Reason = "no-movement"      // the hand did not move
	NoNumber       Reason = "no-number"        // the arithmetic gave no finite number
	NoSwing        Reason = "no-swing"         // the speed does not swing
	NotReached     Reason = "not-reached"      // the movement did not come by, or hardly
	NeverNear      Reason = "never-near"       // it never came near the line
	TooFar         Reason = "too-far"          // it strays too far from the order of the line
	TooShort       Reason = "too-short"        // too little movement away from ends, corners and gaps
	FewStitches    Reason = "few-stitches"     // the same, of stitches
	FewCurves      Reason = "few-curves"       // too little of the line was taken in curves
	AlikeCurves    Reason = "alike-curves"     // the curves of the line are too alike
	LongLine       Reason = "long-line"        // the line is too long to compare hole by hole
	Unsettled      Reason = "unsettled"        // not settled on the line before the next corner
	CoarsePixels   Reason = "coarse-pixels"    // whole pixels are too coarse for a hand this slow
	HiddenByPixels Reason = "hidden-by-pixels" // whole pixels hide a variation below Least
)

// figure returns a defined figure; a value that is no finite number becomes
// undefined.
func figure(v float64) Figure {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return undefined(NoNumber)
	}
	return Figure{Value: v, Defined: true}
}

func undefined(why Reason) Figure { return Figure{Why: why} }
