package progress

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mathext"
)

// Confidence of all intervals of this package.
const Confidence = 0.95

// Interval is a range that holds what was estimated in 95 of 100 cases.
type Interval struct {
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

// Width returns its width.
func (i Interval) Width() float64 { return i.High - i.Low }

// SlopeInterval returns the interval for the slope of TheilSen: of the N slopes in
// order, those that stand z*sqrt(Var S) places apart round the middle, Var S that of
// Mann-Kendall with ties in times and values counted (Sen 1968, equation 2.6; Gilbert,
// Statistical Methods for Environmental Pollution Monitoring, 1987, section 16.4.2).
// Ranks are rounded to the nearest, and stay within the N slopes: with few values the
// interval is all that there is and holds less often than promised. Fails as TheilSen
// does. Cost O(n^2 log n).
func SlopeInterval(t, x []float64) (Interval, error) {
	slopes, err := slopes(t, x)
	if err != nil {
		return Interval{}, err
	}
	slices.Sort(slopes)
	n := float64(len(slopes))
	c := mathext.NormalQuantile((1+Confidence)/2) * math.Sqrt(tieVariance(len(t), append(tied(t), tied(x)...)))
	low := max(0, int(math.RoundToEven((n-c)/2))-1)
	high := min(len(slopes)-1, int(math.RoundToEven((n+c)/2)))
	return Interval{slopes[low], slopes[high]}, nil
}

// tieVariance returns the variance of the S of Mann and Kendall, rises less falls, for n values with groups of equal ones.
func tieVariance(n int, groups []float64) float64 {
	spread := func(k float64) float64 { return k * (k - 1) * (2*k + 5) }
	v := spread(float64(n))
	for _, g := range groups {
		v -= spread(g)
	}
	return max(0, v/18)
}

// slopes returns the slopes between all pairs of different times.
func slopes(t, x []float64) ([]float64, error) {
	if err := pairs(t, x); err != nil {
		return nil, err
	}
	var out []float64
	for i := range t {
		for j := i + 1; j < len(t); j++ {
			if t[j] != t[i] {
				out = append(out, (x[j]-x[i])/(t[j]-t[i]))
			}
		}
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("no two of the %d times differ, so there is no slope", len(t))
	}
	return out, nil
}

// chiSquared returns the p-quantile of the chi-squared distribution with df degrees
// of freedom, a positive number and not always whole.
func chiSquared(p, df float64) float64 { return 2 * mathext.GammaIncRegInv(df/2, p) }

// fisher returns the p-quantile of the F distribution with a and b degrees of
// freedom.
func fisher(p, a, b float64) float64 {
	x := mathext.InvRegIncBeta(a/2, b/2, p)
	return b * x / (a * (1 - x))
}

// tied returns the sizes of the groups of equal values.
func tied(x []float64) []float64 {
	s := slices.Clone(x)
	slices.Sort(s)
	var out []float64
	for i := 0; i < len(s); {
		j := i
		for j < len(s) && s[j] == s[i] {
			j++
		}
		if j-i > 1 {
			out = append(out, float64(j-i))
		}
		i = j
	}
	return out
}
