package route

import (
	"math"
	"slices"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/route"
	"unthreaded/path/route/steps"
)

// Own is the person's own order.
type Own struct {
	// Asked tells that taps on the cloth add to the order.
	Asked bool
	// Lines are the pieces of line in her order, as indices of the graph.
	Lines []int
	// Found tells how the order does; nil as long as it is empty.
	Found *route.Findings
	// Trace is what a pointer draws along the lines, in mm.
	Trace geom.Polyline
}

// askOwn begins a new order, or puts it away.
func (r Room) askOwn(on bool) Room {
	r.own = Own{Asked: on}
	r.why, r.lit, r.inside = false, none, none
	r.rev++
	return r.rewound()
}

// nearestLine returns the piece of line nearest to a place, none where none is near.
func (r Room) nearestLine(p geom.Point) int {
	best, d := none, lineReach/r.view.Scale
	for i, e := range r.Desk.Graph.Edges {
		for j := 1; j < len(e.Path); j++ {
			if _, q := geom.NearestOnSegment(p, e.Path[j-1], e.Path[j]); geom.Dist(p, q) < d {
				best, d = i, geom.Dist(p, q)
			}
		}
	}
	return best
}

// wholeLines returns the lines as they were drawn; a stretch of a seam is one of its own.
func (r Room) wholeLines() []steps.Line {
	g := r.Desk.Graph
	all := make([]int, len(g.Edges))
	for i := range all {
		all[i] = i
	}
	out := steps.Lines(g, all)
	for i, e := range g.Edges {
		if !e.Kind.Must() {
			out = append(out, steps.Line{Name: e.Stroke, Kind: e.Kind, Edges: []int{i}, Back: []bool{false}, Nodes: []int{e.U, e.V}, Length: e.Length})
		}
	}
	return out
}

// tap adds the line nearest to a place to the order, whole: from where the order stands, and
// the first line from the end nearer to the tap.
func (r Room) tap(p geom.Point) Room {
	edge := r.nearestLine(p)
	for _, l := range r.wholeLines() {
		if slices.Contains(l.Edges, edge) {
			return r.take(l, p)
		}
	}
	return r
}

// take adds a line to the order, from the end nearer to where the order stands or, of the
// first one, to a place.
func (r Room) take(l steps.Line, from geom.Point) Room {
	nodes := r.Desk.Graph.Nodes
	if f := r.own.Found; f != nil {
		from = nodes[f.Route.Exit]
	}
	edges := slices.Clone(l.Edges)
	if geom.Dist(from, nodes[l.Nodes[len(l.Nodes)-1]]) < geom.Dist(from, nodes[l.Nodes[0]]) {
		slices.Reverse(edges)
	}
	return r.add(edges...)
}

// traced is the share of a piece of line that has to be drawn along to be meant.
const traced = 0.5

// along adds the lines that a pointer was drawn along, in order.
func (r Room) along(trace geom.Polyline) Room {
	l, err := geom.NewLine(trace)
	if err != nil {
		return r
	}
	step := 4 / r.view.Scale // mm
	covered := map[int]float64{}
	var order []int
	for s := 0.0; s <= l.Length(); s += step {
		if e := r.nearestLine(l.At(s)); e >= 0 {
			if covered[e] == 0 {
				order = append(order, e)
			}
			covered[e] += step
		}
	}
	edges := r.Desk.Graph.Edges
	return r.add(slices.DeleteFunc(order, func(e int) bool { return covered[e] < traced*edges[e].Length })...)
}

// add takes pieces of line into her order.
func (r Room) add(edges ...int) Room {
	k := r.Desk
	if !r.own.Asked || len(edges) == 0 || slices.Min(edges) < 0 || slices.Max(edges) >= len(k.Graph.Edges) {
		return r
	}
	r.own = Own{Asked: true, Lines: slices.Concat(r.own.Lines, edges)}
	r.rev++
	terms := k.Terms()
	terms.FewestMoves = false // her moves are counted, not the best
	if f, err := route.Check(k.Graph, terms, r.own.Lines); err == nil {
		r.own.Found = &f
	}
	return r
}

// mostNext is how many lines are offered to go on with.
const mostNext = 6

// nextLines returns the lines that go on from where her order stands, or from nearest to
// it, for those who choose by keyboard; before the first line those at the start of the
// plan.
func (r Room) nextLines() []next {
	k := r.Desk
	at := geom.Point{}
	if f := r.own.Found; f != nil {
		at = k.Graph.Nodes[f.Route.Exit]
	} else if moves := k.Moves(); len(moves) > 0 {
		at = moves[0].Path[0]
	}
	taken := map[int]bool{}
	for _, e := range r.own.Lines {
		taken[e] = true
	}
	var out []next
	for i, l := range r.wholeLines() {
		if taken[l.Edges[0]] {
			continue
		}
		a, z := k.Graph.Nodes[l.Nodes[0]], k.Graph.Nodes[l.Nodes[len(l.Nodes)-1]]
		n := next{line: i, far: geom.Dist(at, a), from: a, to: z}
		if d := geom.Dist(at, z); d < n.far {
			n.far, n.from, n.to = d, z, a
		}
		n.text = k.Leading(k.Graph.Edges[l.Edges[0]], n.from, n.to)
		out = append(out, n)
	}
	slices.SortStableFunc(out, func(a, b next) int { return int(math.Copysign(1, a.far-b.far-1e-9)) })
	return out[:min(mostNext, len(out))]
}

// next is a line that can follow in her order, how far off in mm it begins, and where it
// leads.
type next struct {
	line     int
	far      float64
	from, to geom.Point
	text     words.Msg
}

// addLine takes a line by its number among all.
func (r Room) addLine(i int) Room {
	lines := r.wholeLines()
	if i < 0 || i >= len(lines) {
		return r
	}
	at := r.Desk.Graph.Nodes[lines[i].Nodes[0]]
	if moves := r.Desk.Moves(); len(moves) > 0 {
		at = moves[0].Path[0]
	}
	return r.take(lines[i], at)
}

// ownSummary says how her order does.
func (r Room) ownSummary() words.Msg {
	f := r.own.Found
	if f == nil {
		return words.Of("route.own-empty")
	}
	moves := len(r.ownMoves())
	if n := r.untaken(); n > 0 {
		return words.Of("route.own-so-far", moves, n, gaps(f))
	}
	return words.Of("route.own-all", moves, gaps(f), len(f.Doubled), r.compared(f, moves))
}

// compared tells how her order does beside the best plan: what it adds and its moves.
func (r Room) compared(f *route.Findings, moves int) words.Msg {
	best := r.Desk.Choices[0]
	n := 0
	for _, m := range best.Moves {
		if m.Kind != steps.StopMove {
			n++
		}
	}
	added := words.Of("route.own-best")
	switch {
	case math.IsInf(f.More, 1):
		added = words.Msg{}
	case f.More > 0.5:
		added = words.Of("route.own-more", words.LengthMM(f.More))
	}
	return words.Of("route.own-compared", added, n, moves == n)
}

// ownMoves returns the moves of her order, with the ways across where it breaks off.
func (r Room) ownMoves() []steps.Move {
	if r.own.Found == nil {
		return nil
	}
	return slices.DeleteFunc(steps.Moves(r.Desk.Graph, r.own.Found.Route.Steps), func(m steps.Move) bool { return m.Kind == steps.StopMove })
}

// untaken counts the lines to be sewn that are not wholly in her order yet. Those that a
// way across runs along are not hers.
func (r Room) untaken() int {
	taken := map[int]bool{}
	for _, e := range r.own.Lines {
		taken[e] = true
	}
	n := 0
	for _, l := range r.wholeLines() {
		if l.Kind.Must() && slices.ContainsFunc(l.Edges, func(e int) bool { return !taken[e] }) {
			n++
		}
	}
	return n
}

// gaps tells of breaks in the order.
func gaps(f *route.Findings) words.Msg {
	var cost float64
	for _, g := range f.Gaps {
		cost += g.Cost
	}
	switch n := len(f.Gaps); {
	case n == 0:
		return words.Msg{}
	case n == 1 && f.Gaps[0].Before == 0:
		return words.Of("route.own-away")
	case math.IsInf(cost, 1):
		return words.Of("route.own-broken", n)
	default:
		return words.Of("route.own-across", n, words.LengthMM(cost))
	}
}
