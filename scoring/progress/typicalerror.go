package progress

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"
)

// TypicalError is how far a person's score strays from one time to the next while
// nothing changes: the standard deviation of the differences over the root of 2
// (Hopkins, Sports Medicine 30, 2000).
type TypicalError struct {
	Value float64 `json:"value"`
	// Interval holds the true one in 95 of 100 cases if the scores stray normally.
	Interval Interval `json:"interval"`
	// Freedom is the number of degrees of freedom that it stands on.
	Freedom float64 `json:"freedom"`
}

// newTypicalError sets the interval by the chi-squared distribution, as Hopkins
// does.
func newTypicalError(value, freedom float64) TypicalError {
	bound := func(p float64) float64 { return value * math.Sqrt(freedom/chiSquared(p, freedom)) }
	return TypicalError{value, Interval{bound((1 + Confidence) / 2), bound((1 - Confidence) / 2)}, freedom}
}

// UsualVariation returns the typical error from scores in a row, each one paired with
// the next, so that a trend through them adds little. The pairs share their scores,
// which changes two things against pairs of their own (the quadratic form of the differences, as in
// von Neumann, Kent, Bellinson and Hart, Annals of Mathematical Statistics 12, 1941):
// the sum of squares has the mean 2 (m - 1/m) times the variance for m differences,
// and its degrees of freedom are fewer, by Satterthwaite's rule. One bad day widens it.
// It fails on fewer than 4 scores or one that is not finite.
func UsualVariation(scores []float64) (TypicalError, error) {
	if err := pairs(scores, scores); err != nil {
		return TypicalError{}, err
	}
	n := float64(len(scores))
	if n < 4 {
		return TypicalError{}, fmt.Errorf("the usual variation needs 4 scores, there are %d", len(scores))
	}
	d := make([]float64, len(scores)-1)
	for i := range d {
		d[i] = scores[i+1] - scores[i]
	}
	m := n - 1
	trace := 2 * (m - 1/m)
	traceOfSquare := 6*n - 8 - 4/m + 4/(m*m)
	return newTypicalError(math.Sqrt(stat.Variance(d, nil)*(m-1)/trace), trace*trace/traceOfSquare), nil
}

// Odds returns how likely it is, against 1, that a change of so many typical errors
// between two scores is one in truth, for somebody of whom nothing else is known: 12 to
// 1 at 2 typical errors (Hopkins 2000).
func Odds(typicalErrors float64) float64 {
	// Of a difference between two scores the standard error is sqrt(2) typical ones.
	wrong := math.Erfc(math.Abs(typicalErrors)/2) / 2
	return (1 - wrong) / wrong
}
