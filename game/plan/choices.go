package plan

import (
	"fmt"
	"math"

	"unthreaded/game/words"
	"unthreaded/path/plane"
	"unthreaded/path/route"
	"unthreaded/path/route/steps"
)

// Choice is a route on offer.
type Choice struct {
	// Good are the keys of what it is good at, in game/words: "least-retrace".
	Good []string
	// Route measures it. Its steps run over the graph of the desk; where the drawing is
	// sewn as in a quilt there are none.
	Route route.Route
	// Moves are what a hand does, in order, stops among them; Pieces the paths between
	// the stops, whose stretches name moves.
	Moves  []steps.Move
	Pieces []route.Piece
	// Second is the first move of a second pass through a row, 0 where there is none.
	// Groups are the first moves of each stay in a place of a row, Names what those are
	// called.
	Second int
	Groups []int
	Names  []words.Msg
	// Whole tells that lines are sewn whole though that adds something, or as in a quilt.
	Whole bool
	// Longer and Times are those of Sewn.
	Longer float64
	Times  int
}

// choices returns the routes on offer, the best first.
func (k Desk) choices() ([]Choice, error) {
	if k.Fixed {
		return nil, nil
	}
	if k.Drawing.Row {
		rows, err := k.rowChoices()
		return append(rows, k.natural()...), err
	}
	ranked, err := route.Alternatives(k.Graph, k.Terms())
	if err != nil {
		return nil, err
	}
	var out []Choice
	for _, r := range ranked {
		var good []string
		for _, w := range r.Wishes {
			good = append(good, string(w))
		}
		c, err := k.choice(good, r.Route, 0)
		if err != nil {
			return nil, err
		}
		out = append(out, c)
	}
	return append(out, k.natural()...), nil
}

// bestOnly returns the one route that adds least.
func (k Desk) bestOnly() ([]Choice, error) {
	terms := k.Terms()
	terms.FewestMoves = false // to look for them takes longer than a hand waits
	r, err := route.Solve(k.Graph, terms)
	if err != nil {
		return nil, err
	}
	c, err := k.choice([]string{string(route.LeastAdded)}, r, 0)
	return []Choice{c}, err
}

// rowChoices are one pass, from the far left to the far right, and out and back.
func (k Desk) rowChoices() ([]Choice, error) {
	blocks := k.blocks()
	var out []Choice
	for _, w := range []struct {
		name    string
		through route.Through
	}{{"one-pass", route.OnePass}, {"out-and-back", route.OutAndBack}} {
		r, err := route.SolveRow(k.Graph, blocks, k.Terms(), w.through)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", w.name, err)
		}
		second := 0
		if r.Through == route.OutAndBack {
			second = r.Second
		}
		c, err := k.choice([]string{w.name}, r.Route, second)
		if err != nil {
			return nil, err
		}
		out = append(out, c)
	}
	if out[1].Route.Added < out[0].Route.Added {
		out[0], out[1] = out[1], out[0]
	}
	return out, nil
}

// choice makes a choice of a route over the graph, whose second pass begins with a step.
func (k Desk) choice(good []string, r route.Route, second int) (Choice, error) {
	c := Choice{Good: good, Route: r, Moves: steps.Moves(k.Graph, r.Steps)}
	if second > 0 {
		c.Second = moveOf(c.Moves, second)
	}
	var err error
	c.Pieces, err = pieces(c.Moves)
	return c, err
}

// moveOf returns the first move that sews a step or what comes after it.
func moveOf(moves []steps.Move, step int) int {
	for i, m := range moves {
		if m.Last >= step {
			return i
		}
	}
	return len(moves) - 1
}

// blocks returns the blocks of a row, left to right, with the junctions where a
// pass enters and leaves each: those nearest to half its height that it shares
// with its neighbour, or that lie farthest out.
func (k Desk) blocks() []route.Block {
	var names []string
	edges := map[string][]int{}
	for i, e := range k.Graph.Edges {
		if edges[e.Block] == nil {
			names = append(names, e.Block)
		}
		edges[e.Block] = append(edges[e.Block], i)
	}
	_, hi := Bounds(k.Graph)
	out := make([]route.Block, len(names))
	for i, name := range names {
		out[i] = route.Block{Edges: edges[name], Left: route.Nowhere, Right: route.Nowhere}
	}
	for i := range out {
		if i == 0 {
			out[i].Left = k.port(junctions(k.Graph, out[i].Edges), nil, hi.Y/2, -1)
		} else {
			out[i].Left = out[i-1].Right
		}
		var next map[int]bool
		if i+1 < len(out) {
			next = junctions(k.Graph, out[i+1].Edges)
		}
		out[i].Right = k.port(junctions(k.Graph, out[i].Edges), next, hi.Y/2, 1)
	}
	return out
}

func junctions(g plane.Graph, edges []int) map[int]bool {
	out := map[int]bool{}
	for _, e := range edges {
		out[g.Edges[e].U], out[g.Edges[e].V] = true, true
	}
	return out
}

// port returns the junction of a block that is also one of shared (unless that is
// nil), the farthest to the side (-1 left, 1 right) and of these the nearest to
// height y.
func (k Desk) port(of, shared map[int]bool, y, side float64) int {
	best := route.Nowhere
	for v := range of {
		if shared != nil && !shared[v] {
			continue
		}
		if best == route.Nowhere || k.better(v, best, y, side) {
			best = v
		}
	}
	return best
}

func (k Desk) better(v, than int, y, side float64) bool {
	p, q := k.Graph.Nodes[v], k.Graph.Nodes[than]
	if d := side * (p.X - q.X); math.Abs(d) > 1e-6 {
		return d > 0
	}
	if d := math.Abs(p.Y-y) - math.Abs(q.Y-y); math.Abs(d) > 1e-6 {
		return d < 0
	}
	return v < than // so that the order of a map decides nothing
}
