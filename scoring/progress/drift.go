package progress

import (
	"math"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat"
)

// Drift returns how far scores in a row drift, in standard deviations of what chance does to
// a person who stays as she is: the slope of the scores over the root of their number, in
// standard errors, as the quantile of the normal distribution that is as rare as it is
// of Student's t with two degrees of freedom less than scores. Over the root, since hands
// learn fast first and slowly then. 0 for fewer than 4 scores or scores all alike. Cost O(n).
func Drift(x []float64) float64 {
	n := len(x)
	if n < 4 {
		return 0
	}
	root := make([]float64, n)
	for i := range root {
		root[i] = math.Sqrt(float64(i + 1))
	}
	_, slope := stat.LinearRegression(root, x, nil, false)
	mr, mx := stat.Mean(root, nil), stat.Mean(x, nil)
	var left, spread float64
	for i, v := range x {
		d := root[i] - mr
		e := v - mx - slope*d
		left, spread = left+e*e, spread+d*d
	}
	free := float64(n - 2)
	t := slope * math.Sqrt(spread*free/left)
	switch {
	case slope == 0 || math.IsNaN(t):
		return 0
	case left <= 1e-20*slope*slope*spread:
		return math.Copysign(mostDrift, slope)
	}
	// The chance beyond t to one side, by the incomplete beta function; its quantile is taken
	// in the upper tail, where it is exact.
	tail := mathext.RegIncBeta(free/2, 0.5, free/(free+t*t)) / 2
	if tail < 1e-300 {
		return math.Copysign(mostDrift, slope)
	}
	return math.Copysign(min(mostDrift, -mathext.NormalQuantile(tail)), slope)
}

// mostDrift bounds a drift: chances smaller than that are no numbers any more.
const mostDrift = 37.0
