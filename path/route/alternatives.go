package route

import (
	"cmp"
	"fmt"
	"math"

	"slices"

	"unthreaded/path/plane"
)

// Wish is what a route is good at.
type Wish string

// The wishes that Alternatives looks at.
const (
	LeastAdded   Wish = "least-added"
	LeastRetrace Wish = "least-retrace"
	Smoothest    Wish = "smoothest"
	FewestStops  Wish = "fewest-stops"
	NeverCrosses Wish = "never-crosses"
	// Otherwise is another choice of lines to walk twice, or another order.
	Otherwise Wish = "otherwise"
)

// Ranked is a route and the wishes that it fulfils best of all that were found.
type Ranked struct {
	Wishes []Wish
	Route  Route
}

const (
	// mostExtra is how much more the smoothest route may add, as a share of the
	// least: length and turning together are NP-hard (Clossey, Laporte & Soriano,
	// JORS 52, 2001), so joins at most so much dearer are sampled.
	mostExtra = 0.10
	// farExtra is by how much prices are shifted to find another choice of lines.
	farExtra = 1.0
	// joinSamples is the number of joins sampled for either, orderSamples that of
	// other orders over the same walks.
	joinSamples, orderSamples = 12, 8
	// enough is the number of different routes that Alternatives tries to give.
	enough = 3
)

// Alternatives returns different routes under the same rules, at least three if
// so many are found, by what they add, then stops, moves and turning. A route that is
// best in several ways comes once, with all its wishes. Cost: some twenty times
// that of Solve.
func Alternatives(g plane.Graph, rules Rules) ([]Ranked, error) {
	best, err := Solve(g, rules)
	if err != nil {
		return nil, err
	}
	s := newSampler(g, rules, best)
	pool, err := s.joins(mostExtra)
	if err != nil {
		return nil, err
	}
	pool = append(pool, best)
	for _, special := range []Rules{shyOfRetrace(rules), shyOfStops(rules), byAngle(rules)} {
		r, err := Solve(g, special)
		if err != nil {
			return nil, fmt.Errorf("at other prices: %w", err)
		}
		pool = append(pool, s.repriced(r))
	}
	never := rules
	never.NeverCross = true
	uncrossed, err := Solve(g, never)
	if err != nil {
		return nil, fmt.Errorf("without crossings: %w", err)
	}
	pool = append(pool, uncrossed)
	for _, more := range []func() ([]Route, error){
		func() ([]Route, error) { return s.joins(farExtra) }, s.orders,
	} {
		if list := choose(pool, best, uncrossed); len(list) >= enough {
			return list, nil
		}
		others, err := more()
		if err != nil {
			return nil, err
		}
		pool = append(pool, others...)
	}
	return choose(pool, best, uncrossed), nil
}

// choose gives each wish to the route of the pool that fulfils it best, the first
// in rank where several do, and fills up with others.
func choose(pool []Route, best, uncrossed Route) shortlist {
	slices.SortStableFunc(pool, compareRoutes)
	var list shortlist
	list.add(LeastAdded, pool[0])
	for _, w := range []struct {
		wish    Wish
		measure func(Route) float64
	}{
		{LeastRetrace, func(r Route) float64 { return r.RetraceMM }},
		{FewestStops, func(r Route) float64 { return float64(r.Jumps) }},
		{Smoothest, func(r Route) float64 {
			if r.Added > best.Added*(1+mostExtra)+costSlack {
				return math.Inf(1)
			}
			return r.Turning
		}},
	} {
		winner := pool[0]
		for _, r := range pool[1:] {
			if w.measure(r) < w.measure(winner)-1e-6 {
				winner = r
			}
		}
		list.add(w.wish, winner)
	}
	list.add(NeverCrosses, uncrossed)
	for _, r := range pool {
		if len(list) < enough {
			list.add(Otherwise, r)
		}
	}
	slices.SortStableFunc(list, func(a, b Ranked) int { return compareRoutes(a.Route, b.Route) })
	return list
}

func compareRoutes(a, b Route) int {
	if math.Abs(a.Added-b.Added) > costSlack {
		return cmp.Compare(a.Added, b.Added)
	}
	return cmp.Or(cmp.Compare(a.Jumps, b.Jumps), cmp.Compare(a.Moves, b.Moves), cmp.Compare(a.Turning, b.Turning))
}

// byAngle asks for the smoothest route, whatever moves it makes.
func byAngle(r Rules) Rules {
	r.FewestMoves = false
	return r
}

// shyOfRetrace makes seams as good as free.
func shyOfRetrace(r Rules) Rules {
	r.Costs.Seam = math.Min(r.Costs.Seam, 0.01)
	r.Costs.Retrace = math.Max(r.Costs.Retrace, 1)
	return r
}

// shyOfStops makes a stop dearer than any walk.
func shyOfStops(r Rules) Rules {
	r.Costs.Jump = maxTotalMM
	return r
}

// shortlist collects different routes.
type shortlist []Ranked

// add puts in a route for a wish; one that is there already gets the wish too.
func (l *shortlist) add(wish Wish, r Route) {
	for i, other := range *l {
		if sameRoute(other.Route, r) {
			if wish != Otherwise {
				(*l)[i].Wishes = append(other.Wishes, wish)
			}
			return
		}
	}
	*l = append(*l, Ranked{Wishes: []Wish{wish}, Route: r})
}

// sameRoute tells whether two routes make the same passages, whichever way round
// they are walked and, if closed, wherever they begin.
func sameRoute(a, b Route) bool {
	return slices.Equal(a.passages(), b.passages())
}

// passages lists the pairs of line ends that the route joins, and its ends, in an
// order that does not depend on the direction of the walk.
func (r Route) passages() [][2]int32 {
	var out [][2]int32
	add := func(a, b int32) { out = append(out, [2]int32{min(a, b), max(a, b)}) }
	dart := func(s Step, leaving bool) int32 {
		if s.Way == Jump {
			return Nowhere
		}
		if leaving {
			return s.leaves()
		}
		return s.arrives()
	}
	for i, s := range r.Steps[1:] {
		add(dart(r.Steps[i], false), dart(s, true))
	}
	last := r.Steps[len(r.Steps)-1]
	if r.Start == r.Exit {
		add(dart(last, false), dart(r.Steps[0], true))
	} else {
		add(int32(r.Start), int32(r.Exit))
	}
	slices.SortFunc(out, func(a, b [2]int32) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
	return out
}
