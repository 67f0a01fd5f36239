package sketch

import (
	"cmp"
	"math"
	"slices"
)

// sweeps bounds the sweeps of singular; columns are orthogonal to rounding after 6 to 10
// (Golub & Van Loan, Matrix Computations, 4th ed., 8.6.3).
const sweeps = 40

// singular returns the singular values of a matrix of 9 columns, the largest first, and the
// right singular vector of each, by the one-sided Jacobi method (Hestenes 1958; Golub & Van
// Loan 8.6.3): pairs of columns are turned in their plane until all are orthogonal. rows are
// written over. Cost O(81 rows) for each of some 8 sweeps.
//
// A library for matrices of any size would do the same and weigh half a megabyte in the
// page, for this one use; tests hold both against each other.
func singular(rows [][9]float64) (values [9]float64, vectors [9][9]float64) {
	var v [9][9]float64 // by columns
	for i := range v {
		v[i][i] = 1
	}
	for range sweeps {
		turned := false
		for p := range 9 {
			for q := p + 1; q < 9; q++ {
				turned = turn(rows, &v, p, q) || turned
			}
		}
		if !turned {
			break
		}
	}
	var length [9]float64
	for c := range 9 {
		for _, r := range rows {
			length[c] = math.Hypot(length[c], r[c])
		}
	}
	byLength := []int{0, 1, 2, 3, 4, 5, 6, 7, 8}
	slices.SortStableFunc(byLength, func(a, b int) int { return cmp.Compare(length[b], length[a]) })
	for i, c := range byLength {
		values[i], vectors[i] = length[c], v[c]
	}
	return values, vectors
}

// turn makes columns p and q orthogonal and tells whether they were not.
func turn(rows [][9]float64, v *[9][9]float64, p, q int) bool {
	var pp, qq, pq float64
	for _, r := range rows {
		pp, qq, pq = pp+r[p]*r[p], qq+r[q]*r[q], pq+r[p]*r[q]
	}
	if pq == 0 || math.Abs(pq) <= 1e-15*math.Sqrt(pp*qq) {
		return false
	}
	zeta := (qq - pp) / (2 * pq)
	t := math.Copysign(1/(math.Abs(zeta)+math.Hypot(1, zeta)), zeta)
	cos := 1 / math.Hypot(1, t)
	sin := cos * t
	for i := range rows {
		a, b := rows[i][p], rows[i][q]
		rows[i][p], rows[i][q] = cos*a-sin*b, sin*a+cos*b
	}
	for i := range 9 {
		a, b := v[p][i], v[q][i]
		v[p][i], v[q][i] = cos*a-sin*b, sin*a+cos*b
	}
	return true
}
