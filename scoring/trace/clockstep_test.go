package trace

import "testing"

// The step is the least between two times, whatever their order; equal ones do not count.
func TestClockStep(t *testing.T) {
	for _, c := range []struct {
		times []float64
		want  float64
	}{
		{nil, 0}, {[]float64{1}, 0}, {[]float64{1, 1}, 0}, {[]float64{0, 0.008, 0.024, 0.028}, 0.004},
		{[]float64{0.5, 0, 0.1, 0.1 + 1e-9}, 0.1},
	} {
		var s []Sample
		for _, at := range c.times {
			s = append(s, Sample{T: at})
		}
		if got := ClockStep(s); got != c.want {
			t.Errorf("the step of %v is %v, want %v", c.times, got, c.want)
		}
	}
}
