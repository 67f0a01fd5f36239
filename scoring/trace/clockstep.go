package trace

import (
	"math"
	"sort"
)

// ClockStep returns the smallest step in s between different times of the samples, 0
// where there is none. Cost O(n log n).
func ClockStep(samples []Sample) float64 {
	t := make([]float64, len(samples))
	for i := range samples {
		t[i] = samples[i].T
	}
	sort.Float64s(t)
	step := math.Inf(1)
	for i := 1; i < len(t); i++ {
		// Below a microsecond only rounding differs.
		if d := t[i] - t[i-1]; d > 1e-6 {
			step = math.Min(step, d)
		}
	}
	if math.IsInf(step, 1) {
		return 0
	}
	return math.Round(step*1e6) / 1e6
}
