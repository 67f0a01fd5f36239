package route

import (
	"math"
	"math/rand/v2"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// loosePieces draws side x side motifs, each a closed ring of six lines with two
// spokes, in the cells of a grid of seams that touches each ring at two places.
// With shift 0 all are alike, as on a quilt.
func loosePieces(side int, shift float64, seed uint64) plane.Graph {
	rng := rand.New(rand.NewPCG(seed, 1))
	var g plane.Graph
	node := func(x, y float64) int {
		g.Nodes = append(g.Nodes, geom.Pt(x+shift*(rng.Float64()-0.5), y+shift*(rng.Float64()-0.5)))
		return len(g.Nodes) - 1
	}
	add := func(u, v int, kind plane.Kind) {
		e := plane.Edge{U: u, V: v, Kind: kind, Path: geom.Polyline{g.Nodes[u], g.Nodes[v]}}
		e.Length = math.Round(e.Path.Length()*1000) / 1000
		g.Edges = append(g.Edges, e)
	}
	corner := map[[2]int]int{}
	for y := 0; y <= side; y++ {
		for x := 0; x <= side; x++ {
			corner[[2]int{x, y}] = node(100*float64(x), 100*float64(y))
		}
	}
	for y := 0; y <= side; y++ {
		for x := 0; x <= side; x++ {
			if x < side {
				add(corner[[2]int{x, y}], corner[[2]int{x + 1, y}], plane.Seam)
			}
			if y < side {
				add(corner[[2]int{x, y}], corner[[2]int{x, y + 1}], plane.Seam)
			}
		}
	}
	for y := 0; y < side; y++ {
		for x := 0; x < side; x++ {
			var ring []int
			for k := 0; k < 6; k++ {
				a := float64(k) * math.Pi / 3
				ring = append(ring, node(100*float64(x)+50+30*math.Cos(a), 100*float64(y)+50+30*math.Sin(a)))
			}
			for k := range ring {
				add(ring[k], ring[(k+1)%6], plane.Sewn)
			}
			add(ring[4], corner[[2]int{x, y}], plane.Seam)
			add(ring[1], corner[[2]int{x + 1, y + 1}], plane.Seam)
		}
	}
	return g
}

// Four and nine motifs that hang together by seams or stops only, all alike and
// each a little different: every plan says that it is exact, is a valid walk, and
// costs no more than tying the pieces up one after another. For four motifs the
// sweep and branch and bound, which share nothing, agree; with stops the latter
// leaves a gap, and the sweep's answer lies in it.
func TestLoosePieces(t *testing.T) {
	for _, c := range []struct {
		side  int
		shift float64
		jump  float64
		ends  EndRule
	}{
		{2, 0, math.Inf(1), Closed}, {2, 10, math.Inf(1), Free}, {2, 10, 60, Closed}, {2, 10, 60, StartOnly},
		{3, 0, math.Inf(1), Closed}, {3, 10, math.Inf(1), Closed}, {3, 10, 60, Fixed},
	} {
		g := loosePieces(c.side, c.shift, 1)
		rules := Rules{Costs: Costs{Retrace: 1, Seam: 0.3, Jump: c.jump}, Ends: Ends{Rule: c.ends, Start: Nowhere, Exit: 8}}
		if c.ends == Fixed || c.ends == StartOnly {
			rules.Ends.Start = 0
		}
		r, err := Solve(g, rules)
		if err != nil {
			t.Fatalf("%+v: %v", c, err)
		}
		if err := walk(g, rules, r); err != nil {
			t.Errorf("%+v: %v", c, err)
		}
		n := newNetwork(g, rules)
		d := n.demandOf(rules)
		f := &finder{n: n, work: searchWork}
		tied, err := f.tiePieces(d)
		if err != nil {
			t.Fatalf("%+v: %v", c, err)
		}
		if !r.Exact || r.Added > mm(tied.cost)+costTolerance {
			t.Errorf("%+v: exact %v, added %v, tied up one by one %v", c, r.Exact, r.Added, mm(tied.cost))
		}
		if c.side > 2 {
			continue
		}
		root, _, err := f.leastJoin(d)
		if err != nil {
			t.Fatal(err)
		}
		best, bound, err := f.branchAndBound(d, root, tied)
		if err != nil {
			t.Fatal(err)
		}
		if met := mm(bound) == r.Added; mm(best.cost) < r.Added || mm(bound) > r.Added || !met && math.IsInf(c.jump, 1) {
			t.Errorf("%+v: the sweep finds %v, branch and bound %v with bound %v", c, r.Added, mm(best.cost), mm(bound))
		}
	}
}

// A drawing too wide and too loose to be solved within the budget says so, and
// gives its bound.
func TestTooLooseIsSaid(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of a short run: it takes long")
	}
	g := loosePieces(7, 0, 1)
	rules := Rules{Costs: Costs{Retrace: 1, Seam: 0.3, Jump: math.Inf(1)}, Ends: Ends{Rule: Closed, Start: Nowhere}}
	n := newNetwork(g, rules)
	d := n.demandOf(rules)
	f := &finder{n: n, work: changeWork}
	j, bound, _, err := f.leastConnected(d)
	if err != nil {
		t.Fatal(err)
	}
	r, _, err := n.routeOf(d, j, bound, rules)
	if err != nil {
		t.Fatal(err)
	}
	if err := walk(g, rules, r); err != nil {
		t.Error(err)
	}
	if r.Exact || r.LowerBound >= r.Added {
		t.Errorf("49 pieces: exact %v, added %v, lower bound %v", r.Exact, r.Added, r.LowerBound)
	}
}
