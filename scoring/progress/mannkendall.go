package progress

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// exactMost is the largest number of values for which the exact distribution of S
// is used; from about ten on the normal one is as good.
const exactMost = 10

// MannKendall is the test for a trend that only looks at which values are larger
// (Mann, Econometrica 13, 1945; Kendall, Rank Correlation Methods).
type MannKendall struct {
	// S is the number of pairs that rise less those that fall, Variance what it
	// would be without a trend, ties counted.
	S        int
	Variance float64
	// Z is S in standard deviations, less 1 towards 0 for continuity.
	Z float64
	// P is the chance of an S at least as far from 0 without a trend, to either
	// side: exact up to 10 values without ties, else by the normal distribution.
	P     float64
	Exact bool
}

// Trend applies the Mann-Kendall test to values in the order of their times. It
// fails on fewer than 3 values or one that is not finite. Cost O(n^2).
func Trend(x []float64) (MannKendall, error) {
	if len(x) < 3 {
		return MannKendall{}, fmt.Errorf("%d values show no trend, 3 may", len(x))
	}
	if err := pairs(x, x); err != nil {
		return MannKendall{}, err
	}
	s := 0
	for i := range x {
		s += rises(x[:i], x[i])
	}
	return testOf(x, s), nil
}

// rises returns by how many more of the values before it x is larger than smaller.
func rises(before []float64, x float64) int {
	s := 0
	for _, b := range before {
		s += cmp.Compare(x, b)
	}
	return s
}

// testOf is the test of values whose S is known. Cost O(n log n).
func testOf(x []float64, s int) MannKendall {
	m := MannKendall{S: s}
	ties := tied(x)
	m.Variance = tieVariance(len(x), ties)
	if m.S != 0 && m.Variance > 0 {
		m.Z = (math.Abs(float64(m.S)) - 1) / math.Sqrt(m.Variance)
		m.Z = math.Copysign(m.Z, float64(m.S))
	}
	if m.Exact = len(ties) == 0 && len(x) <= exactMost; m.Exact {
		m.P = min(1, 2*UpperTail(len(x), max(m.S, -m.S)))
	} else {
		m.P = math.Erfc(math.Abs(m.Z) / math.Sqrt2)
	}
	return m
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

// UpperTail returns the chance that n values in random order, none equal, have a
// Mann-Kendall S of at least s: the share of the n! orders, counted by their falls
// (inversions) as values are added one at a time. Cost O(n^3).
func UpperTail(n, s int) float64 {
	pairs := n * (n - 1) / 2
	chance := make([]float64, pairs+1) // of so many falls
	chance[0] = 1
	for k := 2; k <= n; k++ {
		next := make([]float64, pairs+1)
		for falls, c := range chance {
			for more := 0; more < k && falls+more <= pairs; more++ {
				next[falls+more] += c / float64(k)
			}
		}
		chance = next
	}
	var sum float64
	for falls, c := range chance {
		if pairs-2*falls >= s {
			sum += c
		}
	}
	return sum
}
