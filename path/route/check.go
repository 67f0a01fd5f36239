package route

import (
	"errors"
	"fmt"

	"unthreaded/path/plane"
)

// Gap is a place where her order does not go on from where she is.
type Gap struct {
	// Before is the index in the order of the line that begins elsewhere; the
	// length of the order where the exit is still to be reached.
	Before int
	// From and To are the junctions on either side.
	From, To int
	// Cost is the cheapest way across by lines, seams or a stop, in mm at the
	// prices of the rules; +Inf if there is none.
	Cost float64
}

// Findings tell how an order of hers does.
type Findings struct {
	// Missed are the lines to be sewn that are left out, Doubled those walked more
	// than once, Barred the seams travelled against the rules; all ascending.
	Missed, Doubled, Barred []int
	Gaps                    []Gap
	// Route is the order as it would be sewn, with the gaps bridged and each line
	// turned so that gaps cost least. It adds +Inf if a gap cannot be bridged. Its
	// LowerBound is that of the best route.
	Route Route
	// Best is the best route under the rules.
	Best Route
	// More is what the order adds beyond the best. It says little as long as lines
	// are missed.
	More float64
}

// Check follows an order of lines, given by their index in g, one by one: which
// are missed, which doubled, where it breaks off, and how it compares with the
// best route. Which way a line is walked follows from its neighbours. It fails on
// an order without lines or with one that is not in g. Cost: that of Solve and a
// search for each line of the order.
func Check(g plane.Graph, rules Rules, order []int) (Findings, error) {
	best, err := Solve(g, rules)
	if err != nil {
		return Findings{}, err
	}
	if len(order) == 0 {
		return Findings{}, errors.New("the order has no lines")
	}
	for i, e := range order {
		if e < 0 || e >= len(g.Edges) {
			return Findings{}, fmt.Errorf("place %d of the order: line %d is not one of %d", i+1, e, len(g.Edges))
		}
	}
	n := newNetwork(g, rules)
	w := &wayfinder{finder: &finder{n: n, bans: n.demandOf(rules).bans}, known: map[int]*tree{}}
	steps := w.directed(order, rules.Ends)
	out := Findings{Best: best}
	all, gaps := w.bridged(steps, rules.Ends)
	out.Gaps = gaps
	out.Route = n.routeAlong(all)
	out.Route.LowerBound = best.LowerBound
	out.More = out.Route.Added - best.Added
	times := make([]int, len(g.Edges))
	for _, s := range all {
		if s.Way != Jump {
			times[s.Edge]++
		}
	}
	for i, e := range g.Edges {
		switch {
		case e.Kind.Must() && times[i] == 0:
			out.Missed = append(out.Missed, i)
		case e.Kind.Must() && times[i] > 1:
			out.Doubled = append(out.Doubled, i)
		case !e.Kind.Must() && times[i] > 0 && rules.bars(e.Stroke):
			out.Barred = append(out.Barred, i)
		}
	}
	return out, nil
}
