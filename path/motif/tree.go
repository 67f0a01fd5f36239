package motif

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// tree joins the first n points by a tree of Delaunay sides as randomTree does, with at
// most so many branches at a point while others will do; a side costs its length and up
// to luck times that.
func tree(pts []geom.Point, near [][]int, n, branches int, luck float64, rnd *rand.Rand) map[[2]int]bool {
	sides := costly(pts, near, n, luck, rnd)
	join, tree, at := newForest(n), map[[2]int]bool{}, make([]int, n)
	for _, most := range []int{branches, n} {
		for _, s := range sides {
			if at[s.a] < most && at[s.b] < most && join(s.a, s.b) {
				tree[[2]int{s.a, s.b}] = true
				at[s.a]++
				at[s.b]++
			}
		}
	}
	return tree
}

// side is one that a tree may take.
type side struct {
	a, b int
	cost float64
}

// costly returns the sides between the first n points, the cheapest first.
func costly(pts []geom.Point, near [][]int, n int, luck float64, rnd *rand.Rand) []side {
	var sides []side
	for a := range n {
		for _, b := range near[a] {
			if a < b && b < n {
				sides = append(sides, side{a, b, geom.Dist(pts[a], pts[b]) * (1 + luck*rnd.Float64())})
			}
		}
	}
	slices.SortFunc(sides, func(x, y side) int { return cmp.Compare(x.cost, y.cost) })
	return sides
}

// randomTree joins the first n points by a tree of Delaunay sides, the shorter and
// the luckier first (Kruskal 1956). The result tells for a pair, the lower index
// first, whether the tree joins it.
func randomTree(pts []geom.Point, near [][]int, n int, rnd *rand.Rand) map[[2]int]bool {
	sides := costly(pts, near, n, 1, rnd)
	join := newForest(n)
	tree := map[[2]int]bool{}
	for _, s := range sides {
		if join(s.a, s.b) {
			tree[[2]int{s.a, s.b}] = true
		}
	}
	return tree
}

// newForest returns a function that joins the trees of two of n points and tells
// whether they were apart.
func newForest(n int) func(a, b int) bool {
	root := make([]int, n)
	for i := range root {
		root[i] = i
	}
	find := func(i int) int {
		for root[i] != i {
			root[i] = root[root[i]]
			i = root[i]
		}
		return i
	}
	return func(a, b int) bool {
		a, b = find(a), find(b)
		root[a] = b
		return a != b
	}
}

// walkRound returns the closed polygon round the tree: it crosses every other side
// of a triangle a quarter of its length from either end, at most rim mm from a
// point where the side leads to a point outside the tree.
func walkRound(pts []geom.Point, near [][]int, tree map[[2]int]bool, rim float64) []geom.Point {
	in := func(a, b int) bool { return tree[[2]int{min(a, b), max(a, b)}] }
	// The tree joins the first points; there is one more of them than sides.
	size := len(tree) + 1
	first := slices.IndexFunc(near[0], func(w int) bool { return !in(0, w) })
	var out []geom.Point
	v, k, came := 0, first, -1
	for {
		w := near[v][k]
		if in(v, w) {
			if came >= 0 {
				// Two branches with one triangle between: keep off its long side.
				out = append(out, geom.Lerp(pts[v], geom.Lerp(pts[came], pts[w], 0.5), 0.45))
			}
			v, k, came = w, slices.Index(near[w], v), v
		} else {
			d := r2.Sub(pts[w], pts[v])
			share := 0.25
			if w >= size {
				share = rim / r2.Norm(d)
			}
			out = append(out, r2.Add(pts[v], r2.Scale(share, d)))
			came = -1
		}
		k = (k + 1) % len(near[v])
		if v == 0 && k == first {
			return out
		}
	}
}
