// Package progress tells whether figures change over weeks of practice.
package progress

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// TheilSen returns the line through the values x at the times t that wild values
// pull least: its slope is the median of the slopes between all pairs of different
// times, its intercept the median of x less the slope times the median of t (Sen,
// Journal of the American Statistical Association 63, 1968). It fails on lists of
// different length, on a value that is not finite, and where fewer than two times
// differ. Cost O(n^2 log n).
func TheilSen(t, x []float64) (slope, intercept float64, err error) {
	slopes, err := slopes(t, x)
	if err != nil {
		return 0, 0, err
	}
	slope = median(slopes)
	return slope, median(x) - slope*median(t), nil
}

func pairs(t, x []float64) error {
	if len(t) != len(x) {
		return fmt.Errorf("%d times for %d values", len(t), len(x))
	}
	for i := range t {
		if math.IsNaN(t[i]+x[i]) || math.IsInf(t[i]+x[i], 0) {
			return fmt.Errorf("value %d: %v at time %v is not finite", i, x[i], t[i])
		}
	}
	return nil
}

// median returns the median, the mean of the middle two of an even number.
func median(v []float64) float64 {
	s := slices.Clone(v)
	slices.Sort(s)
	return stat.Mean(s[(len(s)-1)/2:len(s)/2+1], nil)
}
