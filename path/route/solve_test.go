package route

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/plane"
)

// All ways to walk small drawings, with loose pieces, seams, stops and every rule
// for the ends, against Solve.
func TestAgainstAllWalks(t *testing.T) {
	d := drawing{columns: 3, rows: 2, seams: true, jumps: true, most: 8}
	rapid.Check(t, func(rt *rapid.T) {
		g := d.draw(rt)
		rules := d.drawRules(rt, g)
		want := leastOfAllWalks(g, rules)
		r, err := Solve(g, rules)
		if errors.Is(err, ErrNothing) {
			return
		}
		if math.IsInf(want, 1) != errors.Is(err, ErrApart) {
			rt.Fatalf("error %v, brute force finds %v", err, want)
		}
		if err != nil {
			if !errors.Is(err, ErrApart) {
				rt.Fatal(err)
			}
			return
		}
		if err := walk(g, rules, r); err != nil {
			rt.Fatal(err)
		}
		if !r.Exact || math.Abs(r.Added-want) > costTolerance {
			rt.Fatalf("added %v (exact %v), want %v", r.Added, r.Exact, want)
		}
	})
}

// leastOfAllWalks tries all numbers of walks along every line, one or two for
// those that must be sewn and up to two for seams, and all ends.
func leastOfAllWalks(g plane.Graph, rules Rules) float64 {
	times := make([]int, len(g.Edges))
	best := math.Inf(1)
	var try func(i int, cost float64)
	try = func(i int, cost float64) {
		if cost >= best {
			return
		}
		if i < len(times) {
			e := g.Edges[i]
			low, price := 0, rules.Costs.Seam
			if e.Kind.Must() {
				low, price = 1, rules.Costs.Retrace
			}
			for times[i] = low; times[i] <= 2; times[i]++ {
				try(i+1, cost+price*e.Length*float64(times[i]-low))
			}
			return
		}
		eachEnds(g, rules.Ends, func(s, t int) {
			if jumps := stopsNeeded(g, times, s, t); jumps == 0 {
				best = min(best, cost)
			} else if !math.IsInf(rules.Costs.Jump, 1) {
				best = min(best, cost+float64(jumps)*rules.Costs.Jump)
			}
		})
	}
	try(0, 0)
	return best
}

// eachEnds calls f with each start and exit that the rule allows; Nowhere for
// both stands for a closed route that may begin anywhere.
func eachEnds(g plane.Graph, e Ends, f func(s, t int)) {
	switch e.Rule {
	case Closed:
		f(e.Start, e.Start)
	case Fixed:
		f(e.Start, e.Exit)
	case StartOnly:
		for t := range g.Nodes {
			f(e.Start, t)
		}
	case Free:
		f(Nowhere, Nowhere)
		for s := range g.Nodes {
			for t := range g.Nodes {
				f(s, t)
			}
		}
	}
}

// stopsNeeded returns the least number of stop-and-starts with which lines
// walked so often make one route from s to t. Every part needs as many ends of
// stops as it has odd junctions, s and t counted as one more line end each; a
// part that has none needs two if there are other parts.
func stopsNeeded(g plane.Graph, times []int, s, t int) int {
	part := make([]int, len(g.Nodes))
	for v := range part {
		part[v] = v
	}
	degree := make([]int, len(g.Nodes))
	there := make([]bool, len(g.Nodes))
	for i, e := range g.Edges {
		if times[i] == 0 {
			continue
		}
		degree[e.U] += times[i]
		degree[e.V] += times[i]
		there[e.U], there[e.V] = true, true
		old, now := part[e.U], part[e.V]
		for v := range part {
			if part[v] == old {
				part[v] = now
			}
		}
	}
	for _, end := range []int{s, t} {
		if end != Nowhere {
			degree[end]++
			there[end] = true
		}
	}
	odd := map[int]int{}
	for v := range part {
		if there[v] {
			odd[part[v]] += degree[v] % 2
		}
	}
	total := 0
	for _, count := range odd {
		if count == 0 && len(odd) > 1 {
			count = 2
		}
		total += count
	}
	return total / 2
}
