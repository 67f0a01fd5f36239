package sketch

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// Values and vectors are those that gonum's decomposition (LAPACK dgesvd) finds: the same
// values, and the rows times a vector are as long as its value.
func TestSingularValues(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := make([][9]float64, rapid.IntRange(1, 12).Draw(t, "rows"))
		m := mat.NewDense(max(len(rows), 9), 9, nil)
		for i := range rows {
			for c := range 9 {
				rows[i][c] = rapid.Float64Range(-10, 10).Draw(t, "x")
				m.Set(i, c, rows[i][c])
			}
		}
		var svd mat.SVD
		if !svd.Factorize(m, mat.SVDNone) {
			t.Fatal("gonum found none")
		}
		want := svd.Values(nil)
		before := append([][9]float64(nil), rows...)
		values, vectors := singular(rows)
		near := 1e-9 * (1 + want[0])
		for i, v := range values {
			if math.Abs(v-want[i]) > near {
				t.Fatalf("value %d is %v, want %v", i, v, want[i])
			}
			long, unit := 0.0, 0.0
			for _, r := range before {
				dot := 0.0
				for c := range 9 {
					dot += r[c] * vectors[i][c]
				}
				long = math.Hypot(long, dot)
			}
			for _, x := range vectors[i] {
				unit = math.Hypot(unit, x)
			}
			if math.Abs(long-v) > near || math.Abs(unit-1) > 1e-9 {
				t.Fatalf("vector %d of length %v is carried to %v, want %v", i, unit, long, v)
			}
		}
	})
}
