package route

import (
	"math"
	"testing"
)

// The published answers by name. The drawings are in testdata/routes with their
// sources; the figures stand here once more, typed in from those sources.
func TestPublishedAnswers(t *testing.T) {
	for _, c := range []struct {
		file, source string
		total, added float64 // mm walked and mm walked again; NaN: not published
	}{
		{"koenigsberg_closed", "Euler 1736 (E53): seven bridges, four odd banks; two more crossings close the walk", 9, 2},
		{"koenigsberg_free", "Euler 1736 (E53): one more crossing suffices with free ends", 8, 1},
		{"koenigsberg_weighted", "postman_problems, seven_bridges: distance walked 39, backed 6", 39, 6},
		{"pearson_ch3", "Decision Mathematics 1 (AQA), Pearson, ch. 3: 840 + 160", 1000, 160},
		{"pearson_ch3_from_A_to_H", "the same drawing from A to H, its odd vertices", 840, 0},
		{"jgrapht_2", "JGraphT ChinesePostmanTest.testUndirectedGraph2", 60, 12},
		{"jgrapht_3", "JGraphT ChinesePostmanTest.testUndirectedGraph3", 31, 4},
		{"jgrapht_4", "JGraphT ChinesePostmanTest.testUndirectedGraph4", 2590, math.NaN()},
		{"jgrapht_multi", "JGraphT ChinesePostmanTest.testGraphWithMultipleEdges", 42, math.NaN()},
		{"jgrapht_tree", "JGraphT ChinesePostmanTest.testUndirectedGraph5: a tree is walked twice", 10, 5},
		{"house_free", "the house of St Nicholas: drawn in one stroke", 8, 0},
		{"house_closed", "the same, closed: its two odd corners are neighbours", 9, 1},
		{"networkx_5952", "networkx issue 5952: adds 8, where eulerize once added 10", 39, 8},
		{"star_required_only", "postman_problems, star: 240 without the rim", 240, 120},
		{"star_rural", "postman_problems, star: 132 with the rim", 132, 12},
	} {
		in := load(t, "../../testdata/routes/"+c.file+".json")
		r, err := Solve(in.Graph, in.Rules)
		if err != nil {
			t.Errorf("%s: %v", c.file, err)
			continue
		}
		total := r.SewnMM + r.RetraceMM + r.SeamMM
		if math.Abs(total-c.total) > costTolerance || math.Abs(r.Added-c.added) > costTolerance {
			t.Errorf("%s: total %.4f added %.4f, want %v and %v (%s)", c.file, total, r.Added, c.total, c.added, c.source)
		}
	}
}

// The house of St Nicholas has 44 trails from either lower corner, 88 in all
// (zeit.de 2008/50; TU Darmstadt), and the planner's is the smoothest of them.
func TestTrailsOfTheHouse(t *testing.T) {
	in := load(t, "../../testdata/routes/house_free.json")
	r, err := Solve(in.Graph, in.Rules)
	if err != nil {
		t.Fatal(err)
	}
	for _, start := range []int{r.Start, r.Exit} {
		from := r
		from.Start, from.Exit = start, r.Start+r.Exit-start
		trails := 0
		least := leastTurning(in.Graph, from, func([]Step) bool { return true })
		eachTrail(in.Graph, from, func([]Step) { trails++ })
		if trails != 44 {
			t.Errorf("%d trails from corner %d, want 44", trails, start)
		}
		if math.Abs(r.Turning-least) > 1e-6 {
			t.Errorf("turns %v, the smoothest of the trails from corner %d %v", r.Turning, start, least)
		}
	}
}

// Grids of m x n junctions a unit apart: closed m+n-4 are added if both are even,
// else m+n-2; with free ends m+n-4 if both are odd, else m+n-5 (m, n >= 3). The
// closed forms were fitted elsewhere to matchings by networkx.
func TestGrids(t *testing.T) {
	for m := 3; m <= 9; m++ {
		for n := 3; n <= 9; n++ {
			g := unitGrid(m, n)
			closed, free := float64(m+n-2), float64(m+n-5)
			if m%2 == 0 && n%2 == 0 {
				closed = float64(m + n - 4)
			}
			if m%2 == 1 && n%2 == 1 {
				free = float64(m + n - 4)
			}
			for rule, want := range map[EndRule]float64{Closed: closed, Free: free} {
				rules := Rules{Costs: Costs{Retrace: 1, Jump: math.Inf(1)}, Ends: Ends{Rule: rule, Start: Nowhere}}
				r, err := Solve(g, rules)
				if err != nil {
					t.Fatal(err)
				}
				if math.Abs(r.Added-want) > costTolerance {
					t.Errorf("%d x %d %s: added %v, want %v", m, n, rule, r.Added, want)
				}
			}
		}
	}
}
