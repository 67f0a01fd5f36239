package route

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/plane"
)

// Drawings whose lines all cost the same have many least routes that walk other
// lines twice. Against the least turning of them all, by brute force: none turns
// less than that, and nearly all turn no more.
func TestTurningAmongAllLeastRoutes(t *testing.T) {
	d := drawing{columns: 3, rows: 3, most: 11}
	met, all := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		g := d.draw(rt)
		for i := range g.Edges {
			g.Edges[i].Length = 10
		}
		rules := Rules{Costs: Costs{Retrace: 1, Jump: math.Inf(1)}, Ends: Ends{Rule: Closed, Start: Nowhere}}
		r, err := Solve(g, rules)
		if err != nil || r.Added == 0 || len(r.Steps) > 14 {
			return
		}
		want := leastTurningOfAll(g, r)
		if r.Turning < want-1e-6 {
			rt.Fatalf("turns %v, below the least %v", r.Turning, want)
		}
		all++
		if r.Turning < want+1e-4 {
			met++
		}
	})
	if all > 20 && met*100 < all*95 {
		t.Errorf("%d of %d routes turn as little as any that adds as little", met, all)
	}
}

// leastTurningOfAll tries all closed tours that walk as many lines twice as r.
func leastTurningOfAll(g plane.Graph, r Route) float64 {
	best := math.Inf(1)
	twice := len(r.Steps) - len(g.Edges)
	var try func(i, left int, steps []Step)
	try = func(i, left int, steps []Step) {
		if left == 0 || i == len(g.Edges) {
			if left == 0 && even(g, steps) {
				other := r
				other.Steps = steps
				best = min(best, leastTurning(g, other, func([]Step) bool { return true }))
			}
			return
		}
		try(i+1, left, steps)
		try(i+1, left-1, append(steps[:len(steps):len(steps)], Step{Edge: i}))
	}
	var once []Step
	for i := range g.Edges {
		once = append(once, Step{Edge: i})
	}
	try(0, twice, once)
	return best
}

func even(g plane.Graph, steps []Step) bool {
	degree := make([]int, len(g.Nodes))
	for _, s := range steps {
		degree[g.Edges[s.Edge].U]++
		degree[g.Edges[s.Edge].V]++
	}
	for _, d := range degree {
		if d%2 == 1 {
			return false
		}
	}
	return true
}
