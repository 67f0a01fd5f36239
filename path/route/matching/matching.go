// Package matching finds minimum-weight perfect matchings in general graphs by Edmonds'
// blossom algorithm, and with each answer the numbers that prove it: the dual.
package matching

import (
	"errors"
	"fmt"
	"math"
)

// Missing stands in a cost matrix where two vertices may not be paired.
const Missing = math.MaxInt64

// ErrNone is returned where no pairing leaves every vertex with a partner.
var ErrNone = errors.New("no perfect matching")

// Group is an odd set of three or more vertices round which the proof lays a
// band.
type Group struct {
	// Members are the vertices, ascending.
	Members []int
	// Width is the dual of the set in halves of the cost unit, above 0.
	Width int64
}

// Result is a perfect matching of least weight and its proof. Radius and Width
// are such that for every pair its doubled cost is at least the sum over the
// vertices and groups that the pair separates from its partner; every perfect
// matching leaves each vertex and each (odd) group at least once, so no matching
// costs less than the sum of them all, and this one costs exactly that.
type Result struct {
	// Mate holds the partner of each vertex.
	Mate []int
	// Weight is the sum of the costs of the pairs.
	Weight int64
	// Radius is the dual of each vertex, in halves of the cost unit. It may be
	// negative, but never is where the costs keep the triangle inequality and are
	// not negative.
	Radius []int64
	// Groups holds each group after the groups inside it.
	Groups []Group
}

// Perfect returns a perfect matching of least weight on n vertices. cost is the
// symmetric n x n matrix of costs by rows; its diagonal is not read. It fails
// with ErrNone where there is none, or on costs so large that their sums would
// not fit. The proof of the answer is checked before it is returned.
//
// The method is Edmonds' blossom algorithm (J. Research NBS 69B, 1965) in the
// dense O(n^3) form of Gabow (J. ACM 23, 1976) and Galil (ACM Computing Surveys
// 18, 1986), with memory O(n^2).
func Perfect(n int, cost []int64) (Result, error) {
	if n < 0 || len(cost) != n*n {
		return Result{}, fmt.Errorf("cost matrix of %d vertices has %d entries, want %d", n, len(cost), n*n)
	}
	if n%2 == 1 {
		return Result{}, fmt.Errorf("%w: %d vertices", ErrNone, n)
	}
	if err := checkCosts(n, cost); err != nil {
		return Result{}, err
	}
	s := newSolver(n, cost)
	s.start()
	for s.unmatched() {
		if !s.stage() {
			return Result{}, ErrNone
		}
	}
	r := s.result()
	if err := r.Certify(cost); err != nil {
		return Result{}, fmt.Errorf("matching of %d vertices: %w", n, err)
	}
	return r, nil
}

// checkCosts reports the first pair whose cost is not symmetric or too large.
// The duals stay below the number of vertices times the largest cost, doubled.
func checkCosts(n int, cost []int64) error {
	limit := int64(math.MaxInt64) / int64(8*(n+1))
	for u := 0; u < n; u++ {
		for v := u + 1; v < n; v++ {
			c := cost[u*n+v]
			if c != cost[v*n+u] {
				return fmt.Errorf("pair %d, %d: cost %d one way and %d the other", u, v, c, cost[v*n+u])
			}
			if c != Missing && (c > limit || c < -limit) {
				return fmt.Errorf("pair %d, %d: cost %d is beyond %d", u, v, c, limit)
			}
		}
	}
	return nil
}
