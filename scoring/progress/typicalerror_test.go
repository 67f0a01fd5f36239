package progress

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat"
)

// trend.json: eight pairs by numpy 1.24.2; tolerance 1e-12. The smallest change that is
// real in 95 of 100 cases is 1.96 sqrt(2) typical errors.
func TestTypicalErrorOfPairs(t *testing.T) {
	f := readTrends(t)
	te, err := retest(f.Error.Test1, f.Error.Test2)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "typical error", te.Value, f.Error.Value, 1e-12)
	near(t, "smallest detectable change", 1.96*math.Sqrt2*te.Value, f.Error.SDC, 1e-12)
	near(t, "degrees of freedom", te.Freedom, 7, 0)
	// Quantiles 16.013 and 1.690 of chi-squared with 7 degrees of freedom.
	near(t, "low end", te.Interval.Low, te.Value*math.Sqrt(7/16.013), 1e-4*te.Value)
	near(t, "high end", te.Interval.High, te.Value*math.Sqrt(7/1.690), 1e-3*te.Value)
}

// trend.json: odds that a change of so many typical errors is one; tolerance 1e-9. Hopkins
// (2000) prints 12 to 1 at 2.
func TestOdds(t *testing.T) {
	for _, c := range readTrends(t).Odds {
		near(t, fmt.Sprintf("odds at %v typical errors", c.Threshold), Odds(c.Threshold), c.Odds, 1e-9*c.Odds)
	}
	near(t, "odds at none", Odds(0), 1, 1e-15)
}

// Upper 5 % points of the F distribution and both 2.5 % points of chi-squared, from
// the tables of the NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.
func TestQuantilesAgainstTables(t *testing.T) {
	for _, c := range []struct{ a, b, want float64 }{{1, 5, 6.608}, {2, 10, 4.103}, {1, 20, 4.351}, {2, 5, 5.786}} {
		near(t, fmt.Sprintf("F with %v and %v", c.a, c.b), fisher(0.95, c.a, c.b), c.want, 5e-4)
	}
	for _, c := range []struct{ p, df, want float64 }{{0.975, 7, 16.013}, {0.025, 7, 1.690}, {0.975, 10, 20.483}, {0.025, 10, 3.247}} {
		near(t, fmt.Sprintf("chi-squared with %v", c.df), chiSquared(c.p, c.df), c.want, 5.1e-4)
	}
	near(t, "normal", mathext.NormalQuantile(0.975), 1.959963985, 1e-9)
}

// The degrees of freedom and the mean of the sum of squares are those of the matrix of
// the quadratic form, here multiplied out.
func TestUsualVariationAgainstMatrix(t *testing.T) {
	for _, n := range []int{4, 5, 9, 30} {
		m := n - 1
		// Row i of d takes the i-th difference less the mean difference.
		d := make([][]float64, m)
		for i := range d {
			d[i] = make([]float64, n)
			d[i][i]--
			d[i][i+1]++
			d[i][0] += 1 / float64(m)
			d[i][n-1] -= 1 / float64(m)
		}
		var trace, square float64
		for a := range n {
			for b := range n {
				var q float64
				for i := range d {
					q += d[i][a] * d[i][b]
				}
				if square += q * q; a == b {
					trace += q
				}
			}
		}
		x := make([]float64, n)
		x[1] = 1
		var sum float64
		for i := range d {
			sum += d[i][1] * d[i][1]
		}
		te, err := UsualVariation(x)
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("degrees of freedom of %d scores", n), te.Freedom, trace*trace/square, 1e-9)
		near(t, fmt.Sprintf("usual variation of %d scores", n), te.Value, math.Sqrt(sum/trace), 1e-12)
	}
}

func TestBadScoresAreNamed(t *testing.T) {
	for name, try := range map[string]func() error{
		"one pair":     func() error { _, err := retest([]float64{1}, []float64{2}); return err },
		"odd lists":    func() error { _, err := retest([]float64{1, 2}, []float64{2}); return err },
		"three scores": func() error { _, err := UsualVariation([]float64{1, 2, 3}); return err },
		"infinite":     func() error { _, err := UsualVariation([]float64{1, 2, 3, math.Inf(1)}); return err },
		"one time":     func() error { _, err := SlopeInterval([]float64{1, 1}, []float64{2, 3}); return err },
	} {
		if err := try(); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// retest returns the typical error from pairs of a test and its repetition, each
// pair on its own, with as many degrees of freedom as pairs less one: a mean change
// between the tests is no error. It fails on lists of different length, fewer than
// two pairs and a value that is not finite.
func retest(first, second []float64) (TypicalError, error) {
	if err := pairs(first, second); err != nil {
		return TypicalError{}, err
	}
	if len(first) < 2 {
		return TypicalError{}, fmt.Errorf("a typical error needs two pairs, there are %d", len(first))
	}
	d := make([]float64, len(first))
	for i := range d {
		d[i] = second[i] - first[i]
	}
	return newTypicalError(stat.StdDev(d, nil)/math.Sqrt2, float64(len(d)-1)), nil
}
