package route

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// unitGrid draws a grid of m x n junctions one mm apart.
func unitGrid(m, n int) plane.Graph {
	var g plane.Graph
	add := func(u, v int) {
		e := plane.Edge{U: u, V: v, Kind: plane.Sewn, Path: geom.Polyline{g.Nodes[u], g.Nodes[v]}, Length: 1}
		g.Edges = append(g.Edges, e)
	}
	for y := 0; y < n; y++ {
		for x := 0; x < m; x++ {
			g.Nodes = append(g.Nodes, geom.Pt(float64(x), float64(y)))
		}
	}
	for v := range g.Nodes {
		if v%m < m-1 {
			add(v, v+1)
		}
		if v+m < m*n {
			add(v, v+m)
		}
	}
	return g
}

// What holds for every least join of lines that hang together, checked without
// any matching:
// on every cycle the part that is walked again is at most half (Guan, Chinese
// Mathematics 1, 1962, from memory); a bridge is walked
// again just if an odd number of odd junctions lies on either side.
func TestInvariantsOfLeastJoins(t *testing.T) {
	d := drawing{columns: 3, rows: 3, most: 16}
	rapid.Check(t, func(rt *rapid.T) {
		g := d.draw(rt)
		rules := Rules{Costs: Costs{Retrace: 1, Jump: math.Inf(1)}, Ends: Ends{Rule: Closed, Start: Nowhere}}
		r, err := Solve(g, rules)
		if err != nil {
			return
		}
		again := make([]bool, len(g.Edges))
		for _, s := range r.Steps {
			if s.Way == Again {
				again[s.Edge] = true
			}
		}
		eachCycle(g, func(cycle []int) {
			all, part := 0.0, 0.0
			for _, e := range cycle {
				all += g.Edges[e].Length
				if again[e] {
					part += g.Edges[e].Length
				}
			}
			if part > all/2+costTolerance {
				rt.Fatalf("%v of the %v mm round %v are walked again", part, all, cycle)
			}
		})
		for i := range g.Edges {
			if odd, bridge := oddBeyond(g, i); bridge && again[i] != odd {
				rt.Fatalf("bridge %d: walked again %v, odd junctions beyond it odd in number %v", i, again[i], odd)
			}
		}
	})
}

// eachCycle calls f with every simple cycle, as often as it comes up.
func eachCycle(g plane.Graph, f func(edges []int)) {
	var edges []int
	on := make([]bool, len(g.Nodes))
	var grow func(root, here int)
	grow = func(root, here int) {
		for i, e := range g.Edges {
			if i <= edges[0] && len(edges) > 0 || e.U != here && e.V != here {
				continue
			}
			next := e.U + e.V - here
			if next == root {
				f(append(edges, i))
			} else if !on[next] {
				on[next] = true
				edges = append(edges, i)
				grow(root, next)
				edges = edges[:len(edges)-1]
				on[next] = false
			}
		}
	}
	// The line of the lowest index is walked first, from its U.
	for i, e := range g.Edges {
		edges = []int{i}
		clear(on)
		on[e.U], on[e.V] = true, true
		if e.U != e.V {
			grow(e.U, e.V)
		}
	}
}

// oddBeyond tells whether line i is a bridge, and whether an odd number of odd
// junctions lies beyond it.
func oddBeyond(g plane.Graph, i int) (odd, bridge bool) {
	reached := map[int]bool{g.Edges[i].U: true}
	for grown := true; grown; {
		grown = false
		for k, e := range g.Edges {
			if k != i && reached[e.U] != reached[e.V] {
				reached[e.U], reached[e.V], grown = true, true, true
			}
		}
	}
	if reached[g.Edges[i].V] {
		return false, false
	}
	ends := 0
	for _, e := range g.Edges {
		if reached[e.U] {
			ends++
		}
		if reached[e.V] {
			ends++
		}
	}
	// The sum of the numbers of line ends is odd just if that of the odd
	// junctions is.
	return ends%2 == 1, true
}

// What is added does not change when the drawing is moved, turned by a right
// angle, mirrored, when its lines are given in another order or direction, or
// when a line is cut in two; and it grows in step with the drawing.
func TestAddedUnderChangesOfTheDrawing(t *testing.T) {
	d := drawing{columns: 4, rows: 3, seams: true, jumps: true, most: 20}
	rapid.Check(t, func(rt *rapid.T) {
		g := d.draw(rt)
		rules := d.drawRules(rt, g)
		r, err := Solve(g, rules)
		if err != nil {
			return
		}
		same := func(what string, h plane.Graph, rules Rules, want float64) {
			anew, err := Solve(h, rules)
			if err != nil {
				rt.Fatalf("%s: %v", what, err)
			}
			if math.Abs(anew.Added-want) > costTolerance {
				rt.Fatalf("%s: added %v, was %v", what, anew.Added, want)
			}
		}
		turned := mapped(g, func(p geom.Point) geom.Point { return geom.Pt(40-p.Y, p.X+7) })
		same("turned and moved", turned, rules, r.Added)
		same("mirrored", mapped(g, func(p geom.Point) geom.Point { return geom.Pt(-p.X, p.Y) }), rules, r.Added)
		other := plane.Graph{Nodes: g.Nodes}
		for _, k := range rapid.Permutation(indices(len(g.Edges))).Draw(rt, "order") {
			e := g.Edges[k]
			e.U, e.V, e.Path = e.V, e.U, e.Path.Reversed()
			other.Edges = append(other.Edges, e)
		}
		same("in another order", other, rules, r.Added)
		cut := cutInTwo(g, rapid.IntRange(0, len(g.Edges)-1).Draw(rt, "cut"))
		if rules.Ends.freeEnds() == 0 && math.IsInf(rules.Costs.Jump, 1) {
			same("with a line cut in two", cut, rules, r.Added)
		}
		double := rules
		double.Costs.Retrace, double.Costs.Seam, double.Costs.Jump = 2, 2*rules.Costs.Seam, 2*rules.Costs.Jump
		same("at double prices", g, double, 2*r.Added)
	})
}

func indices(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

func mapped(g plane.Graph, f func(geom.Point) geom.Point) plane.Graph {
	var h plane.Graph
	for _, p := range g.Nodes {
		h.Nodes = append(h.Nodes, f(p))
	}
	for _, e := range g.Edges {
		e.Path = e.Path.Map(f)
		h.Edges = append(h.Edges, e)
	}
	return h
}

// cutInTwo puts a junction in the middle of line i.
func cutInTwo(g plane.Graph, i int) plane.Graph {
	h := plane.Graph{Nodes: append([]geom.Point(nil), g.Nodes...), Edges: append([]plane.Edge(nil), g.Edges...)}
	e := h.Edges[i]
	mid := geom.Lerp(e.Path[0], e.Path[1], 0.5)
	h.Nodes = append(h.Nodes, mid)
	first, second := e, e
	first.V, second.U = len(h.Nodes)-1, len(h.Nodes)-1
	first.Path = geom.Polyline{e.Path[0], mid}
	second.Path = append(geom.Polyline{mid}, e.Path[1:]...)
	first.Length = math.Round(e.Length*400) / 1000
	second.Length = math.Round((e.Length-first.Length)*1000) / 1000
	h.Edges[i] = first
	h.Edges = append(h.Edges, second)
	return h
}
