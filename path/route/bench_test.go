package route

import (
	"math"
	"math/rand/v2"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// block100 draws a block of a hundred lines: a grid of 36 shifted places with its
// 60 sides and 40 diagonals.
func block100() plane.Graph {
	rng := rand.New(rand.NewPCG(3, 3))
	var g plane.Graph
	for i := range 36 {
		g.Nodes = append(g.Nodes, geom.Pt(40*float64(i%6)+10*rng.Float64(), 40*float64(i/6)+10*rng.Float64()))
	}
	add := func(u, v int) {
		e := plane.Edge{U: u, V: v, Kind: plane.Sewn, Path: geom.Polyline{g.Nodes[u], g.Nodes[v]}}
		e.Length = e.Path.Length()
		g.Edges = append(g.Edges, e)
	}
	for i := range 36 {
		if i%6 < 5 {
			add(i, i+1)
		}
		if i < 30 {
			add(i, i+6)
		}
	}
	for i := 0; len(g.Edges) < 100; i++ {
		if x := i % 36; x%6 < 5 && x < 30 {
			if i < 36 {
				add(x, x+7)
			} else {
				add(x+1, x+6)
			}
		}
	}
	return g
}

// BenchmarkPlan is the whole plan of a drawing: route, smoothing and reasons.
func BenchmarkPlan(b *testing.B) {
	plan := func(b *testing.B, g plane.Graph, rules Rules) {
		for b.Loop() {
			r, err := Solve(g, rules)
			if err != nil {
				b.Fatal(err)
			}
			if _, err := Explain(g, rules, r); err != nil {
				b.Fatal(err)
			}
		}
	}
	costs := Costs{Retrace: 1, Seam: 0.3, Jump: math.Inf(1)}
	for name, ends := range map[string]Ends{
		"closed": {Rule: Closed, Start: 0}, "fixed": {Rule: Fixed, Start: 0, Exit: 35}, "free": {Rule: Free},
	} {
		b.Run("block100_"+name, func(b *testing.B) { plan(b, block100(), Rules{Costs: costs, Ends: ends}) })
	}
	for _, name := range []string{"row12_onepass", "row12_outback_seams", "grid30", "stress2000"} {
		in := load(b, "../../testdata/routes/"+name+".json")
		b.Run(name, func(b *testing.B) { plan(b, in.Graph, in.Rules) })
	}
}

func BenchmarkSolve(b *testing.B) {
	for _, name := range []string{"grid10", "grid20", "grid30", "row12_onepass", "stress2000"} {
		in := load(b, "../../testdata/routes/"+name+".json")
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Solve(in.Graph, in.Rules); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkAlternatives(b *testing.B) {
	g := block100()
	rules := Rules{Costs: Costs{Retrace: 1, Seam: 0.3, Jump: math.Inf(1)}, Ends: Ends{Rule: Closed, Start: 0}}
	for b.Loop() {
		if _, err := Alternatives(g, rules); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkLoose ties up nine motifs of 96 lines and seams, exactly.
func BenchmarkLoose(b *testing.B) {
	for name, jump := range map[string]float64{"seams": math.Inf(1), "seams_and_stops": 60} {
		g := loosePieces(3, 10, 1)
		rules := Rules{Costs: Costs{Retrace: 1, Seam: 0.3, Jump: jump}, Ends: Ends{Rule: Closed, Start: Nowhere}}
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if r, err := Solve(g, rules); err != nil || !r.Exact {
					b.Fatalf("error %v, exact %v", err, r.Exact)
				}
			}
		})
	}
}
