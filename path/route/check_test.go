package route

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The best route, given as her own order, has no fault and costs the same; with
// a line taken out it is missed, unless a bridge goes along it.
func TestCheckOfTheBestOrder(t *testing.T) {
	d := drawing{columns: 4, rows: 3, seams: true, jumps: true, most: 24}
	rapid.Check(t, func(rt *rapid.T) {
		g := d.draw(rt)
		rules := d.drawRules(rt, g)
		r, err := Solve(g, rules)
		if err != nil {
			return
		}
		var order []int
		for _, s := range r.Steps {
			if s.Way != Jump {
				order = append(order, s.Edge)
			}
		}
		got, err := Check(g, rules, order)
		if err != nil {
			rt.Fatal(err)
		}
		if len(got.Missed) > 0 || len(got.Gaps) > r.Jumps || got.More > costTolerance {
			rt.Fatalf("missed %v, gaps %v of %d, more %v", got.Missed, got.Gaps, r.Jumps, got.More)
		}
		got.Route.TurningBound, got.Route.LowerBound = 0, 0
		if err := walk(g, rules, got.Route); err != nil && !strings.Contains(err.Error(), "third time") {
			rt.Fatal(err)
		}
		out := rapid.IntRange(0, len(order)-1).Draw(rt, "out")
		rest := slices.Delete(slices.Clone(order), out, out+1)
		if e := order[out]; len(rest) > 0 && g.Edges[e].Kind.Must() && !slices.Contains(rest, e) {
			got, err := Check(g, rules, rest)
			if err != nil {
				rt.Fatal(err)
			}
			sewn := slices.ContainsFunc(got.Route.Steps, func(s Step) bool { return s.Edge == e })
			if sewn == slices.Contains(got.Missed, e) {
				rt.Fatalf("line %d: sewn %v, missed %v", e, sewn, got.Missed)
			}
		}
	})
}

// The house of St Nicholas, drawn from its lower left corner (see the file for
// its sources): an order that leaves out the roof, jumps and goes twice along the
// floor.
func TestCheckNamesFaults(t *testing.T) {
	in := load(t, "../../testdata/routes/house_free.json")
	line := func(u, v int) int {
		for i, e := range in.Graph.Edges {
			if e.U == u && e.V == v || e.U == v && e.V == u {
				return i
			}
		}
		t.Fatalf("the house has no line from %d to %d", u, v)
		return 0
	}
	a, b, c, d, e := 0, 1, 2, 3, 4
	got, err := Check(in.Graph, in.Rules, []int{line(a, b), line(a, b), line(b, c), line(a, d)})
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(got.Doubled, []int{line(a, b)}) || len(got.Gaps) != 1 || got.Gaps[0].Before != 3 || got.Gaps[0].Cost != 1 {
		t.Errorf("doubled %v, gaps %+v; want the floor, and one gap before the fourth line that costs 1", got.Doubled, got.Gaps)
	}
	if slices.Contains(got.Missed, line(a, b)) || !slices.Contains(got.Missed, line(d, e)) || !slices.Contains(got.Missed, line(c, e)) {
		t.Errorf("missed %v; want the roof among them and not the floor", got.Missed)
	}
	if got.More <= 0 || math.IsInf(got.More, 0) {
		t.Errorf("more %v than the best", got.More)
	}
	for _, bad := range [][]int{nil, {0, 99}, {-1}} {
		if _, err := Check(in.Graph, in.Rules, bad); err == nil {
			t.Errorf("order %v was accepted", bad)
		}
	}
}
