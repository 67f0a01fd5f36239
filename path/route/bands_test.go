package route

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/plane"
)

// The bands of every connected instance and of random drawings: their widths add
// up to what is added, none is negative, none overlaps another, and each cut
// through a band parts an odd number of odd junctions from the others.
func TestBands(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of a short run: it takes long")
	}
	for _, in := range instances(t) {
		r, err := Solve(in.Graph, in.Rules)
		if err != nil {
			t.Fatalf("%s: %v", in.file, err)
		}
		if err := checkBands(in.Graph, in.Rules, r); err != nil {
			t.Errorf("%s: %v", in.file, err)
		}
	}
	d := drawing{columns: 6, rows: 5, seams: true, most: 100}
	rapid.Check(t, func(rt *rapid.T) {
		g := d.draw(rt)
		rules := d.drawRules(rt, g)
		if rules.Costs.Seam == 0 {
			return // a walk that costs nothing has no place for bands
		}
		r, err := Solve(g, rules)
		if err != nil {
			return
		}
		if err := checkBands(g, rules, r); err != nil {
			rt.Fatal(err)
		}
	})
}

func checkBands(g plane.Graph, rules Rules, r Route) error {
	n := newNetwork(g, rules).withoutTies()
	d := n.demandOf(rules)
	d.ends = Ends{Rule: Fixed, Start: r.Start, Exit: r.Exit}
	f := &finder{n: n}
	j, p, err := f.leastJoin(d)
	if err != nil {
		return err
	}
	sum := 0.0
	spans := make([][][2]float64, len(g.Edges))
	bands := f.bands(p)
	for i, b := range bands {
		sum += b.Width
		if b.Width <= 0 || len(b.Members)%2 == 0 {
			return fmt.Errorf("band %d: width %v, members %v", i, b.Width, b.Members)
		}
		for _, s := range b.Spans {
			spans[s.Edge] = append(spans[s.Edge], [2]float64{min(s.From, s.To), max(s.From, s.To)})
		}
		for _, share := range []float64{0.1, 0.5, 0.9} {
			if err := checkCut(g, rules, b, share*b.Width, p.odd); err != nil {
				return fmt.Errorf("band %d round %v at %v of %v: %w", i, b.Members, share*b.Width, b.Width, err)
			}
		}
	}
	if want := mm(j.cost); math.Abs(sum-want) > costTolerance || sum > r.Added+costTolerance {
		return fmt.Errorf("the bands add up to %v, the join costs %v, the route adds %v", sum, want, r.Added)
	}
	if n.connected(d, j) && math.Abs(sum-r.Added) > costTolerance {
		return fmt.Errorf("the bands add up to %v, the route adds %v", sum, r.Added)
	}
	for i, list := range spans {
		slices.SortFunc(list, func(a, b [2]float64) int { return int(math.Copysign(1, a[0]-b[0])) })
		for k := 1; k < len(list); k++ {
			if list[k][0] < list[k-1][1]-1e-6 {
				return fmt.Errorf("line %d: bands cover %v and %v", i, list[k-1], list[k])
			}
		}
		if k := len(list) - 1; k >= 0 && (list[0][0] < -1e-9 || list[k][1] > g.Edges[i].Length+1e-9) {
			return fmt.Errorf("line %d of %v mm: bands cover %v to %v", i, g.Edges[i].Length, list[0], list[k])
		}
	}
	return nil
}

// checkCut cuts every line where it passes the given depth of the band, and
// counts the odd junctions on the members' side: an odd number, and all members.
func checkCut(g plane.Graph, rules Rules, b Band, depth float64, odd []int32) error {
	cut := make([]int, len(g.Edges))
	for _, s := range b.Spans {
		price := rules.Costs.Retrace
		if !g.Edges[s.Edge].Kind.Must() {
			price = rules.Costs.Seam
		}
		if s.Depth <= depth && depth < s.Depth+price*math.Abs(s.To-s.From) {
			cut[s.Edge]++
		}
	}
	inside := map[int]bool{}
	for _, v := range b.Members {
		inside[v] = true
	}
	for grown := true; grown; {
		grown = false
		for i, e := range g.Edges {
			if cut[i] == 0 && inside[e.U] != inside[e.V] && (e.Kind.Must() || !rules.bars(e.Stroke)) {
				inside[e.U], inside[e.V], grown = true, true, true
			}
		}
	}
	count := 0
	for _, v := range odd {
		if inside[int(v)] {
			count++
		}
	}
	if count != len(b.Members) {
		return fmt.Errorf("the cut parts off %d odd junctions, not %d", count, len(b.Members))
	}
	return nil
}
