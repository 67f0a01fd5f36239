package route

import (
	"cmp"
	"fmt"
	"math/bits"
	"slices"

	"unthreaded/path/route/matching"
)

// pairing is a way to join the darts of one junction into passages.
type pairing struct {
	pairs     [][2]int32
	cost      int64
	crossings int
	loose     int64 // by how much a pairing may cost less that was not looked for
}

// mostListed is the number of darts up to which all pairings of a junction are
// listed: 105 for 8 darts, 945 for 10.
const mostListed = 8

// compare orders pairings: the cheaper first, of those that cost the same the one
// with fewer crossings.
func (p pairing) compare(q pairing) int {
	return cmp.Or(cmp.Compare(p.cost, q.cost), cmp.Compare(p.crossings, q.crossings))
}

// pairings lists all pairings of the darts; if no passage may cross another, only
// those without. Darts must be even in number, at most mostListed.
func (w *walks) pairings(darts []int32) []pairing {
	var costs [mostListed][mostListed]int64
	for i, a := range darts {
		for k, b := range darts[:i] {
			costs[i][k] = w.cost(a, b)
			costs[k][i] = costs[i][k]
		}
	}
	var out []pairing
	var pairs [][2]int32
	var list func(free uint, p pairing)
	list = func(free uint, p pairing) {
		if free == 0 {
			p.pairs = slices.Clone(pairs)
			out = append(out, p)
			return
		}
		i := bits.TrailingZeros(free)
		free &^= 1 << i
		for rest := free; rest != 0; rest &= rest - 1 {
			k := bits.TrailingZeros(rest)
			q := p
			q.cost += costs[i][k]
			q.crossings += w.crossings(pairs, darts[i], darts[k])
			if w.never && q.crossings > 0 {
				continue
			}
			pairs = append(pairs, [2]int32{darts[i], darts[k]})
			list(free&^(1<<k), q)
			pairs = pairs[:len(pairs)-1]
		}
	}
	list(1<<len(darts)-1, pairing{})
	return out
}

// crossings counts the pairs that the passage a-b crosses.
func (w *walks) crossings(pairs [][2]int32, a, b int32) int {
	count := 0
	for _, p := range pairs {
		if w.crosses(p[0], p[1], a, b) {
			count++
		}
	}
	return count
}

// cheapest returns a pairing of least cost of the darts of one junction.
func (w *walks) cheapest(darts []int32) (pairing, error) {
	switch {
	case len(darts) == 2:
		return pairing{pairs: [][2]int32{{darts[0], darts[1]}}, cost: w.cost(darts[0], darts[1])}, nil
	case len(darts) == 4:
		return w.cheapestOfThree(darts), nil
	case len(darts) <= mostListed:
		return slices.MinFunc(w.pairings(darts), pairing.compare), nil
	case w.never:
		return w.cheapestNested(darts)
	}
	return w.cheapestMatched(darts)
}

// cheapestMatched is cheapest for many darts, crossings allowed.
func (w *walks) cheapestMatched(darts []int32) (pairing, error) {
	n := len(darts)
	cost := make([]int64, n*n)
	for i, a := range darts {
		for k, b := range darts {
			cost[i*n+k] = w.cost(a, b)
		}
	}
	m, err := matching.Perfect(n, cost)
	if err != nil {
		return pairing{}, fmt.Errorf("pairing %d line ends: %w", n, err)
	}
	p := pairing{cost: m.Weight}
	for i, k := range m.Mate {
		if i < k {
			p.pairs = append(p.pairs, [2]int32{darts[i], darts[k]})
		}
	}
	return p, nil
}

// cheapestOfThree is cheapest for four darts, which most crossings have.
func (w *walks) cheapestOfThree(darts []int32) pairing {
	a := darts[0]
	var best pairing
	for k := 1; k < 4; k++ {
		b, c, d := darts[k], darts[1+k%3], darts[1+(k+1)%3]
		p := pairing{cost: w.cost(a, b) + w.cost(c, d)}
		if w.crosses(a, b, c, d) {
			p.crossings = 1
		}
		if w.never && p.crossings > 0 || best.pairs != nil && p.compare(best) >= 0 {
			continue
		}
		p.pairs = append(best.pairs[:0], [2]int32{a, b}, [2]int32{c, d})
		best = p
	}
	return best
}

// cheapestNested returns a pairing of least cost of which no two pairs cross, in
// the given order: the first dart's partner splits the others into two runs that
// stand for themselves (dynamic programming over runs). Darts without a
// direction keep their place in the order, so with them it may not be the least.
// Cost O(n^3).
func (w *walks) cheapestNested(darts []int32) (pairing, error) {
	n := len(darts)
	least := make([][]int64, n+1) // of the run from i up to, not including, k
	partner := make([][]int, n+1) // of the first dart of that run
	for i := range least {
		least[i], partner[i] = make([]int64, n+1), make([]int, n+1)
	}
	for size := 2; size <= n; size += 2 {
		for i := 0; i+size <= n; i++ {
			k := i + size
			least[i][k] = matching.Missing
			for m := i + 1; m < k; m += 2 {
				if c := w.cost(darts[i], darts[m]) + least[i+1][m] + least[m+1][k]; c < least[i][k] {
					least[i][k], partner[i][k] = c, m
				}
			}
		}
	}
	p := pairing{cost: least[0][n]}
	var take func(i, k int)
	take = func(i, k int) {
		if i < k {
			m := partner[i][k]
			p.pairs = append(p.pairs, [2]int32{darts[i], darts[m]})
			take(i+1, m)
			take(m+1, k)
		}
	}
	take(0, n)
	if w.place[darts[n-1]] >= 0 {
		return p, nil
	}
	free, err := w.cheapestMatched(darts)
	p.loose = p.cost - free.cost
	return p, err
}
