package trace

import (
	"encoding/json"
	"math"
	"os"
	"testing"
)

// vectors reads one file of reference numbers.
func vectors(t testing.TB, name string, into any) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/vectors/" + name)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

// complainer is a test, or one draw of a property test.
type complainer interface {
	Helper()
	Errorf(format string, args ...any)
}

func near(t complainer, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g within %g", what, got, want, tol)
	}
}

// filters.json: coefficients and a forward-backward pass by scipy.signal 1.10.1
// (butter, filtfilt with its defaults). Tolerance 1e-12 for coefficients, 1e-9
// for the pass.
func TestFiltersAgainstScipy(t *testing.T) {
	var f struct {
		Butter []struct {
			Order  int
			FS, FC float64
			B, A   []float64
		}
		FiltFilt []struct{ X, Y []float64 }
		TwoPass  struct{ C float64 } `json:"two_pass_correction"`
	}
	vectors(t, "filters.json", &f)
	used := 0
	for _, c := range f.Butter {
		if c.Order != 2 {
			t.Fatalf("order %d: preparing a trace uses the second order only", c.Order)
		}
		used++
		q := Butterworth(c.FC, c.FS)
		for i := range q.B {
			near(t, "b", q.B[i], c.B[i], 1e-12)
			near(t, "a", q.A[i], c.A[i], 1e-12)
		}
	}
	if used == 0 || len(f.FiltFilt) == 0 {
		t.Fatal("filters.json holds no case")
	}
	for _, c := range f.FiltFilt {
		got := Butterworth(10, 100).FiltFilt(c.X)
		for i := range c.Y {
			near(t, "filtfilt", got[i], c.Y[i], 1e-9)
		}
	}
	near(t, "two-pass factor", twoPass, f.TwoPass.C, 1e-12)
}

// At its cut-off the filter that runs both ways lets 1/sqrt 2 of the amplitude
// through, by the definition of a -3 dB point.
func TestZeroPhaseCutoff(t *testing.T) {
	for _, fc := range []float64{6, 8, 10, 20} {
		x := make([]float64, 12000)
		for i := range x {
			x[i] = math.Sin(2 * math.Pi * fc * float64(i) / 120)
		}
		y := ZeroPhase(fc, 120).FiltFilt(x)
		var in, out float64
		for i := 3000; i < 9000; i++ {
			in += x[i] * x[i]
			out += x[i] * y[i]
		}
		near(t, "gain at the cut-off", out/in, 1/math.Sqrt2, 1e-6)
	}
}
