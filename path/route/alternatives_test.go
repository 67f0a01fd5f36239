package route

import (
	"errors"
	"testing"

	"pgregory.net/rapid"
)

// Alternatives are valid, differ, stand in order, and keep what their wishes say:
// none of the others adds less, turns less, stops or retraces less.
func TestAlternatives(t *testing.T) {
	d := drawing{columns: 3, rows: 3, seams: true, jumps: true, most: 16}
	drawn, solved := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		g := d.draw(rt)
		rules := d.drawRules(rt, g)
		drawn++
		switch _, err := Solve(g, rules); {
		case errors.Is(err, ErrApart), errors.Is(err, ErrNothing):
			return
		case err != nil:
			rt.Fatal(err)
		}
		solved++
		list, err := Alternatives(g, rules)
		if err != nil {
			rt.Fatal(err)
		}
		seen := map[Wish]Route{}
		for i, a := range list {
			if err := walk(g, rules, a.Route); err != nil {
				rt.Fatalf("%v: %v", a.Wishes, err)
			}
			if i > 0 && compareRoutes(list[i-1].Route, a.Route) > 0 {
				rt.Fatalf("%v comes before %v", list[i-1].Wishes, a.Wishes)
			}
			for _, b := range list[:i] {
				if sameRoute(a.Route, b.Route) {
					rt.Fatalf("%v and %v are the same route", a.Wishes, b.Wishes)
				}
			}
			for _, w := range a.Wishes {
				seen[w] = a.Route
			}
		}
		for _, a := range list {
			r := a.Route
			if r.Added < seen[LeastAdded].Added-costTolerance || r.Jumps < seen[FewestStops].Jumps ||
				r.RetraceMM < seen[LeastRetrace].RetraceMM-costTolerance {
				rt.Fatalf("%v beats another at its own wish", a.Wishes)
			}
		}
		if crossesItself(g, seen[NeverCrosses].Steps) {
			rt.Fatal("the route that never crosses itself does")
		}
	})
	if 3*solved < drawn {
		t.Errorf("of %d drawings only %d have a route: too few were looked at", drawn, solved)
	}
}

// On drawings with some choice there are at least three.
func TestThreeAlternatives(t *testing.T) {
	for _, in := range instances(t) {
		if n := len(in.Graph.Edges); n < 8 || n > 800 {
			continue
		}
		list, err := Alternatives(in.Graph, in.Rules)
		if err != nil {
			t.Fatalf("%s: %v", in.file, err)
		}
		if len(list) < 3 {
			t.Errorf("%s: %d alternatives", in.file, len(list))
		}
	}
}
