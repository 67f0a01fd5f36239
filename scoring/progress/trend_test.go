package progress

import (
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g within %g", what, got, want, tol)
	}
}

type trends struct {
	Examples []struct {
		ID        string
		T, X      []float64
		S         int
		Var       float64 `json:"var_S"`
		Z         float64
		PNormal   float64    `json:"p_two_sided_normal"`
		Slope     float64    `json:"theil_sen_slope"`
		SlopeCI   [2]float64 `json:"slope_ci95"`
		PExact    float64    `json:"p_scipy_kendall"`
		Intercept float64    `json:"theil_sen_intercept_median_y_minus_slope_median_t"`
	}
	Exact []struct {
		N    int
		Tail []struct {
			S int
			P float64
		} `json:"upper_tail"`
	} `json:"exact_upper_tail_no_ties"`
	Error struct {
		Test1, Test2 []float64
		Value        float64 `json:"typical_error"`
		SDC          float64 `json:"sdc95"`
	} `json:"typical_error"`
	Odds []struct {
		Threshold float64 `json:"threshold_in_typical_errors"`
		Odds      float64
	} `json:"odds_table"`
}

func readTrends(t *testing.T) (f trends) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/vectors/trend.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &f); err != nil {
		t.Fatal(err)
	}
	if len(f.Examples) == 0 || len(f.Exact) == 0 || len(f.Error.Test1) == 0 || len(f.Odds) == 0 {
		t.Fatal("trend.json lacks cases")
	}
	return f
}

// trend.json: a published example (Little, College of the Holy Cross), a textbook
// one (Gilbert 1987) and others, with Theil-Sen slopes by scipy.stats 1.10.1.
// Tolerance 1e-9.
func TestTrendsAgainstPublishedExamples(t *testing.T) {
	for _, c := range readTrends(t).Examples {
		near(t, c.ID+": variance", tieVariance(len(c.X), tied(c.X)), c.Var, 1e-9*c.Var)
		ci, err := SlopeInterval(c.T, c.X)
		if err != nil {
			t.Fatalf("%s: %v", c.ID, err)
		}
		near(t, c.ID+": low end of the slope", ci.Low, c.SlopeCI[0], 1e-9)
		near(t, c.ID+": high end of the slope", ci.High, c.SlopeCI[1], 1e-9)
		slope, intercept, err := TheilSen(c.T, c.X)
		if err != nil {
			t.Fatalf("%s: %v", c.ID, err)
		}
		near(t, c.ID+": slope", slope, c.Slope, 1e-9)
		near(t, c.ID+": intercept", intercept, c.Intercept, 1e-9)
	}
}

// Adding a line to the values adds its slope; turning them upside down turns the
// drift round, and neither a scale nor another zero changes it.
func TestTrendInvariants(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		x := rapid.SliceOfN(rapid.Float64Range(-10, 10), 3, 14).Draw(rt, "x")
		k := rapid.Float64Range(0.1, 5).Draw(rt, "k")
		at, up, down := make([]float64, len(x)), make([]float64, len(x)), make([]float64, len(x))
		for i, v := range x {
			at[i] = float64(i)
			up[i], down[i] = v+k*at[i], 7-2*v
		}
		s0, _, err0 := TheilSen(at, x)
		s1, _, err1 := TheilSen(at, up)
		if err0 != nil || err1 != nil || math.Abs(s1-s0-k) > 1e-9 {
			rt.Fatalf("slope %v, with %v more a step %v", s0, k, s1)
		}
		if d := Drift(x); math.Abs(d+Drift(down)) > 1e-6*(1+math.Abs(d)) {
			rt.Fatalf("drift %v, upside down %v", d, Drift(down))
		}
	})
}

func TestBadSeriesAreNamed(t *testing.T) {
	_, _, err1 := TheilSen([]float64{1, 2}, []float64{1})
	_, _, err2 := TheilSen([]float64{1, 1}, []float64{1, 2})
	_, err3 := UsualVariation([]float64{1, math.NaN(), 2, 3})
	for i, c := range []struct {
		err  error
		want string
	}{
		{err1, "2 times for 1 values"}, {err2, "no two of the 2 times differ"}, {err3, "value 1: NaN"},
	} {
		if c.err == nil || !strings.Contains(c.err.Error(), c.want) {
			t.Errorf("case %d: error %v, want %q", i, c.err, c.want)
		}
	}
}
