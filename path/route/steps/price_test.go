package steps

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/route"
)

// What block by block adds against the exact least of the row, over random rows: blocks of
// up to nine lines from side to side, one to seven of them, up to three different ones, with
// and without stops. The rows are the same in each run (the seeds are 0 to 299), so what is
// bounded here is what DEVELOPERS.md tells. In one pass the least is route.SolveRow's, rows
// where that is exact; out and back it is the bound that no route goes under.
func TestPriceOfNaturalness(t *testing.T) {
	row := rapid.Custom(func(rt *rapid.T) [][]chord {
		kinds := make([][]chord, rapid.IntRange(1, 3).Draw(rt, "kinds"))
		for i := range kinds {
			kinds[i] = drawChords(rt, 9)
		}
		out := make([][]chord, rapid.IntRange(1, 7).Draw(rt, "blocks"))
		for i := range out {
			out[i] = kinds[rapid.IntRange(0, len(kinds)-1).Draw(rt, "kind")]
		}
		return out
	})
	for _, c := range []struct {
		name    string
		through route.Through
		jump    float64
		// The most that is added, as a share of what is sewn: median, 90th percentile, any.
		median, ninetieth, most float64
	}{
		{"one pass, no stops", route.OnePass, math.Inf(1), 0.001, 0.02, 0.08},
		{"one pass, stops at 60 mm", route.OnePass, 60, 0.001, 0.02, 0.08},
		{"out and back, no stops", route.OutAndBack, math.Inf(1), 0.03, 0.15, 0.9},
	} {
		var shares []float64
		for seed := range 300 {
			g, blocks := rowOf(t, row.Example(seed))
			rules := fixedRules(blocks, route.Costs{Retrace: 1, Seam: 0.2, Jump: c.jump}, c.through)
			r, err := PlanRow(g, blocks, rules, c.through)
			if err != nil {
				t.Fatal(err)
			}
			least := r.Least
			if c.through == route.OnePass {
				exact, err := route.SolveRow(g, blocks, rules, c.through)
				if err != nil {
					t.Fatal(err)
				}
				if !exact.Exact {
					continue
				}
				least = exact.Added
			}
			if r.Added < least-1e-6 || r.Saves < r.Added-least-1e-6 {
				t.Errorf("%s, row %d: adds %.3f, the least is %.3f, and it says that cutting lines saves %.3f at most", c.name, seed, r.Added, least, r.Saves)
			}
			shares = append(shares, (r.Added-least)/r.SewnMM)
		}
		slices.Sort(shares)
		at := func(q float64) float64 { return shares[int(q*float64(len(shares)-1))] }
		t.Logf("%s, %d rows: more than the least of the row, of what is sewn: none in %.0f %%, median %.1f %%, 90th percentile %.1f %%, most %.1f %%",
			c.name, len(shares), 100*float64(count(shares, 1e-6))/float64(len(shares)), 100*at(0.5), 100*at(0.9), 100*at(1))
		if len(shares) < 200 || at(0.5) > c.median || at(0.9) > c.ninetieth || at(1) > c.most {
			t.Errorf("%s: %d rows, median %v, 90th percentile %v, most %v; want at most %v, %v, %v", c.name, len(shares), at(0.5), at(0.9), at(1), c.median, c.ninetieth, c.most)
		}
	}
}

// count tells how many of the shares are no more than that, in ascending order.
func count(shares []float64, most float64) int {
	n, _ := slices.BinarySearch(shares, most)
	return n
}
