package route

import (
	"fmt"
	"math"
	"slices"

	"unthreaded/path/plane"
)

// RowPass tells how one row of a top is sewn.
type RowPass struct {
	// First is the index of the row's first step; the steps before it, from the
	// end of the row before, only lead here.
	First int
	// Second is the index of the first step of its second pass, or that after its
	// last step where there is one pass.
	Second int
	// After is the index after its last step.
	After   int
	Through Through
	// FromRight is true where the row is begun at the right of its last block.
	FromRight bool
}

// TopRoute is a route through all rows of a top.
type TopRoute struct {
	Route
	Rows []RowPass
}

// way is one way through a row and the junctions at its ends.
type way struct {
	steps       []Step
	second      int
	through     Through
	fromRight   bool
	start, exit int
	added       float64
}

// SolveTop returns a route through rows in the given order, each in one pass or
// two, from either end: of all those choices the one that adds least, walks and
// stops between rows included, by dynamic programming along the rows. With one
// pass each that is the serpentine, with two all rows are begun from one side.
// Of the rules all but the ends hold; the route begins and leaves at whichever
// ends of rows suit best, or if the rules give a start, at that end of the first
// row. Exact and LowerBound speak of routes that finish a row before the next.
func SolveTop(g plane.Graph, rows [][]Block, rules Rules) (TopRoute, error) {
	f, err := NewTopFinder(g, rows, rules)
	for err == nil && !f.Ready() {
		f, err = f.Step()
	}
	if err != nil {
		return TopRoute{}, err
	}
	return f.Route()
}

// rowChoice is the state of the dynamic programme: the least that the rows up to
// here add if this one is sewn in a given way, and the way of the row before.
type rowChoice struct {
	added float64
	from  int
}

// inOrder chooses a way through each row so that ways and walks between them add
// least, and strings them together.
func (f *finder) inOrder(ways [][]way) ([]Step, []RowPass, error) {
	choices := make([][]rowChoice, len(ways))
	trees := make([]map[int]*tree, len(ways)) // the walks from the exits of each row's ways
	for i, list := range ways {
		trees[i] = map[int]*tree{}
		for _, w := range list {
			c := rowChoice{added: w.added}
			if i > 0 {
				c = cheapestBefore(choices[i-1], ways[i-1], trees[i-1], w)
			}
			choices[i] = append(choices[i], c)
			if _, done := trees[i][w.exit]; !done {
				trees[i][w.exit] = f.search([]int32{int32(w.exit)}, nil, -1).clone()
			}
		}
	}
	last := len(ways) - 1
	k := 0
	for other, c := range choices[last] {
		if c.added < choices[last][k].added-costSlack {
			k = other
		}
	}
	if math.IsInf(choices[last][k].added, 1) {
		return nil, nil, fmt.Errorf("between the rows: %w", ErrApart)
	}
	chosen := make([]way, len(ways))
	for i := last; i >= 0; i-- {
		chosen[i] = ways[i][k]
		k = choices[i][k].from
	}
	steps, passes := f.n.stringRows(chosen, trees)
	return steps, passes, nil
}

// cheapestBefore returns the best choice that ends with way w, given those for
// the row before.
func cheapestBefore(choices []rowChoice, before []way, trees map[int]*tree, w way) rowChoice {
	best := rowChoice{added: math.Inf(1)}
	for k, c := range choices {
		dist := trees[before[k].exit].dist[w.start]
		if dist == unreached {
			continue
		}
		if added := c.added + mm(dist) + w.added; added < best.added {
			best = rowChoice{added: added, from: k}
		}
	}
	return best
}

func (n *network) stringRows(chosen []way, trees []map[int]*tree) ([]Step, []RowPass) {
	var steps []Step
	var passes []RowPass
	for i, w := range chosen {
		if i > 0 {
			steps = append(steps, n.stepsTo(trees[i-1][chosen[i-1].exit], w.start)...)
		}
		p := RowPass{First: len(steps), Second: len(steps) + w.second, After: len(steps) + len(w.steps)}
		p.Through, p.FromRight = w.through, w.fromRight
		steps, passes = append(steps, w.steps...), append(passes, p)
	}
	return steps, passes
}

// stepsTo returns the steps of the walk to junction v from a source of t; those
// along sewn lines are left for settle to judge.
func (n *network) stepsTo(t *tree, v int) []Step {
	var out []Step
	here, up := int32(v), int32(-1) // up: where a stop comes down
	n.walk(t, here, func(l int32) {
		a := n.lines[l]
		other := a.u + a.v - here
		switch {
		case other == n.air && n.air >= 0:
			up = here
		case here == n.air && n.air >= 0:
			out = append(out, Step{Edge: Nowhere, Way: Jump, From: int(other), To: int(up)})
		default:
			s := Step{Edge: int(l), Reverse: a.v == other, From: int(other), To: int(here)}
			if !n.g.Edges[l].Kind.Must() {
				s.Way = Hidden
			}
			out = append(out, s)
		}
		here = other
	})
	slices.Reverse(out)
	return out
}
