package progress

import (
	"math"

	"unthreaded/scoring"
)

// Measure names a figure that is followed over the weeks.
type Measure string

// The measures that a report gives. Less is better for all but Covered and Flow.
const (
	Spacing  Measure = "spacing"  // coefficient of variation of the stitch lengths
	Speed    Measure = "speed"    // coefficient of variation of the hand's speed
	Beside   Measure = "beside"   // mm beside the line, the mean
	Farthest Measure = "farthest" // mm beside the line, the 95th percentile
	Corners  Measure = "corners"  // mm past the corners, the mean
	Slowing  Measure = "slowing"  // distance of the exponent of the law of curves from 0
	Flow     Measure = "flow"     // spectral arc length; on the same line only
	Covered  Measure = "covered"  // share of the line that was followed
	// Uneven is that of a movement, see Place: 0 where every stitch is as long as
	// the hand's usual one.
	Uneven Measure = "uneven"
)

// Better tells which way a measure gets better: -1 where less is better, 1 where
// more is.
func (m Measure) Better() int {
	if m == Covered || m == Flow {
		return 1
	}
	return -1
}

// Figures returns the measures of a report that are defined.
func Figures(rep scoring.Report) map[Measure]float64 {
	slowing := rep.Slowing.Exponent
	slowing.Value = math.Abs(slowing.Value)
	out := map[Measure]float64{}
	for m, f := range map[Measure]scoring.Figure{
		Spacing: rep.Evenness.SpacingCV, Speed: rep.Evenness.SpeedCV, Slowing: slowing, Flow: rep.SPARC, Covered: rep.Coverage,
		Beside: rep.Lateral.MeanError, Farthest: rep.Lateral.P95, Corners: rep.Turns.MeanOvershoot,
	} {
		if f.Defined {
			out[m] = f.Value
		}
	}
	return out
}
