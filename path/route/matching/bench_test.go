package matching

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// Pairing of random places by distance: growth of time with the number of odd
// junctions.
func BenchmarkPerfect(b *testing.B) {
	for _, n := range []int{24, 50, 100, 200, 400} {
		rng := rand.New(rand.NewPCG(1, uint64(n)))
		cost := matrix(n)
		x, y := make([]int64, n), make([]int64, n)
		for i := range x {
			x[i], y[i] = rng.Int64N(1e9), rng.Int64N(1e9)
		}
		for u := 0; u < n; u++ {
			for v := u + 1; v < n; v++ {
				set(cost, n, u, v, abs(x[u]-x[v])+abs(y[u]-y[v]))
			}
		}
		b.Run(fmt.Sprintf("odd=%d", n), func(b *testing.B) {
			for b.Loop() {
				if _, err := Perfect(n, cost); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
