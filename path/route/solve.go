package route

import (
	"fmt"
	"math"

	"unthreaded/path/plane"
)

// Solve returns a route round g with the least added under the rules, and of
// those that walk the same lines one with the least turning; where several
// choices of lines add the same, some are looked at. It is exact where Route says
// so: always in what it adds as long as the lines hang together, else within a
// budget. Cost: a search over the lines round each odd junction, and the cube of
// their number; see leastConnected for loose pieces.
func Solve(g plane.Graph, rules Rules) (Route, error) {
	if err := validateGraph(g); err != nil {
		return Route{}, err
	}
	if err := rules.Validate(g); err != nil {
		return Route{}, err
	}
	n := newNetwork(g, rules)
	f := &finder{n: n, work: searchWork}
	return f.plan(n.demandOf(rules), rules)
}

// plan returns the least route for d.
func (f *finder) plan(d demand, rules Rules) (Route, error) {
	j, bound, _, err := f.leastConnected(d)
	if err != nil {
		return Route{}, err
	}
	r, count, err := f.n.routeOf(d, j, bound, rules)
	if err != nil {
		return Route{}, err
	}
	return f.smootherTie(d, j, bound, rules, r, count)
}

// demandOf asks for all lines that must be sewn and bans the seams that the rules
// bar.
func (n *network) demandOf(rules Rules) demand {
	d := demand{must: make([]bool, len(n.lines)), bans: make([]bool, len(n.lines)), ends: rules.Ends}
	for i, e := range n.g.Edges {
		d.must[i] = e.Kind.Must()
		d.bans[i] = !e.Kind.Must() && rules.bars(e.Stroke)
	}
	return d
}

// routeOf makes the tour of the must lines and the walks of j, and returns with
// it what smoothing counts: its turns and the ruler lines that it breaks off.
func (n *network) routeOf(d demand, j join, bound int64, rules Rules) (Route, int64, error) {
	w := newWalks(n, d.must, j, rules.NeverCross)
	w.moves = rules.FewestMoves
	c, least, err := w.smoothest()
	if err != nil {
		return Route{}, 0, fmt.Errorf("smoothing: %w", err)
	}
	r := n.routeAlong(c.steps(j.start))
	r.LowerBound, r.Exact = mm(bound), mm(bound) == mm(j.cost)
	r.TurningBound, r.TurningExact = r.Turning, c.cost == least
	if !r.TurningExact {
		r.TurningBound = float64(least) / turnUnit
	}
	if w.moves {
		r, err = w.againstSmoothest(r, least, j)
		return r, c.cost, err
	}
	if n.dirs.rules() {
		r.TurningBound, err = w.turningBound()
	}
	return r, c.cost, err
}

// againstSmoothest adds to the route of fewest moves, no tour of which counts less than
// least, how it compares with the smoothest tour of the same walks.
func (w *walks) againstSmoothest(r Route, least int64, j join) (Route, error) {
	// A stop begins a move without a turn, and so does an open route; a closed one
	// begins where it turns, if it turns anywhere.
	r.MovesBound = int(least/moveUnit) + r.Jumps + w.n.corners(r.Steps)
	if j.exit != Nowhere || r.MovesBound == 0 {
		r.MovesBound++
	}
	r.MovesBound = min(r.MovesBound, r.Moves)
	w.moves = false
	c, _, err := w.smoothest()
	if err != nil {
		return r, fmt.Errorf("smoothing: %w", err)
	}
	s := w.n.routeAlong(c.steps(j.start))
	r.Smoothest, r.TurningExact = s.Turning, r.Turning <= s.Turning
	r.TurningBound, err = w.turningBound()
	return r, err
}

// turningBound returns the sum over all junctions of the least turning there.
func (w *walks) turningBound() (float64, error) {
	w.plain, w.blur = true, 0
	c, err := w.cheapestCircuits()
	if err != nil {
		return 0, fmt.Errorf("bounding the turning: %w", err)
	}
	return float64(c.cost-c.loose) / turnUnit, nil
}

// routeAlong returns the route of the given steps and its measures.
func (n *network) routeAlong(steps []Step) Route {
	r := Route{Steps: steps, Start: steps[0].From, Exit: steps[len(steps)-1].To, Added: n.added(steps)}
	for _, s := range steps {
		switch s.Way {
		case Sew:
			r.SewnMM += n.g.Edges[s.Edge].Length
		case Again:
			r.RetraceMM += n.g.Edges[s.Edge].Length
		case Hidden:
			r.SeamMM += n.g.Edges[s.Edge].Length
		case Jump:
			r.Jumps++
		}
	}
	r.Turning, r.Moves = n.turning(steps), n.moves(steps)
	return r
}

// added returns what the steps add, in mm at the prices of the network; +Inf for
// a stop where none is allowed.
func (n *network) added(steps []Step) float64 {
	sum := int64(0)
	for _, s := range steps {
		switch {
		case s.Way == Again || s.Way == Hidden:
			sum += n.lines[s.Edge].cost >> tieBits
		case s.Way == Jump && n.air < 0:
			return math.Inf(1)
		case s.Way == Jump:
			sum += 2 * (n.lines[len(n.g.Edges)].cost >> tieBits)
		}
	}
	return float64(sum) / costUnit
}

// Along returns the route of the given steps and its measures: what it adds at the
// prices of the rules, and how it turns. Steps keep the way that they are given; each
// has to begin where the one before ends. Cost O(steps).
func Along(g plane.Graph, rules Rules, steps []Step) (Route, error) {
	if err := validateGraph(g); err != nil {
		return Route{}, err
	}
	if len(steps) == 0 {
		return Route{}, ErrNothing
	}
	for i, s := range steps {
		if i > 0 && steps[i-1].To != s.From {
			return Route{}, fmt.Errorf("step %d begins at junction %d, the one before ends at %d", i, s.From, steps[i-1].To)
		}
	}
	return newNetwork(g, rules).routeAlong(steps), nil
}

// Least returns what no route through a row in one pass from start to exit adds, in
// mm, out and back for start = exit: the least join of its odd junctions, whether it
// hangs together with the lines or not. Cost: that of the matching.
func Least(g plane.Graph, row []Block, rules Rules, start, exit int) (float64, error) {
	rules.Ends = Ends{Rule: Fixed, Start: start, Exit: exit}
	if start == exit {
		rules.Ends = Ends{Rule: Closed, Start: start}
	}
	n := newNetwork(g, rules)
	f := &finder{n: n}
	j, _, err := f.leastJoin(n.demandOfBlocks(rules, row...))
	if err != nil {
		return 0, err
	}
	return mm(j.cost), nil
}
