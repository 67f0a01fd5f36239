package route

import (
	"math"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/route"
)

// Own is the person's own order.
type Own struct {
	// Asked tells that taps on the cloth add to the order.
	Asked bool
	// Lines are the lines in her order, as indices of the graph.
	Lines []int
	// Found tells how the order does; nil as long as it is empty.
	Found *route.Findings
}

// tapReach is how near in mm a tap must come to a line.
const tapReach = 5.0

// askOwn begins a new order, or puts it away.
func (r Room) askOwn(on bool) Room {
	r.own = Own{Asked: on}
	r.rev++
	return r
}

// tap adds the line nearest to a place to the order.
func (r Room) tap(p geom.Point) Room {
	best, d := -1, tapReach
	for i, e := range r.Desk.Graph.Edges {
		for j := 1; j < len(e.Path); j++ {
			_, q := geom.NearestOnSegment(p, e.Path[j-1], e.Path[j])
			if dist := geom.Dist(p, q); dist < d {
				best, d = i, dist
			}
		}
	}
	return r.add(best)
}

// add takes a line into her order.
func (r Room) add(edge int) Room {
	k := r.Desk
	if !r.own.Asked || edge < 0 || edge >= len(k.Graph.Edges) {
		return r
	}
	lines := append(append([]int(nil), r.own.Lines...), edge)
	r.own = Own{Asked: true, Lines: lines}
	r.rev++
	if f, err := route.Check(k.Graph, k.Terms(), lines); err == nil {
		r.own.Found = &f
	}
	return r
}

// nextLines returns the lines that go on from where her order stands, for those who
// choose by keyboard; before the first line those at the start of the route shown.
func (r Room) nextLines() []next {
	k := r.Desk
	at := k.Route().Start
	if r.own.Found != nil {
		at = r.own.Found.Route.Exit
	}
	if at == route.Nowhere {
		return nil
	}
	var out []next
	for i, e := range k.Graph.Edges {
		if e.U == at {
			out = append(out, next{i, k.Leg(i, false)})
		}
		if e.V == at && e.V != e.U {
			out = append(out, next{i, k.Leg(i, true)})
		}
	}
	return out
}

// next is a line that can follow in her order, and where it leads.
type next struct {
	edge int
	text words.Msg
}

// ownSummary says how her order does.
func (r Room) ownSummary() words.Msg {
	f := r.own.Found
	if f == nil {
		return words.Of("route.own-empty")
	}
	if n := r.untaken(); n > 0 {
		return words.Of("route.own-so-far", len(r.own.Lines), n, gaps(f))
	}
	less := words.Msg{}
	switch {
	case math.IsInf(f.More, 1):
	case f.More > 0.5:
		less = words.Of("route.own-more", words.LengthMM(f.More))
	default:
		less = words.Of("route.own-best")
	}
	return words.Of("route.own-all", gaps(f), len(f.Doubled), less)
}

// untaken counts the lines to be sewn that are not in her order yet. Those that a
// way across runs along are not hers.
func (r Room) untaken() int {
	taken := map[int]bool{}
	for _, e := range r.own.Lines {
		taken[e] = true
	}
	n := 0
	for i, e := range r.Desk.Graph.Edges {
		if e.Kind.Must() && !taken[i] {
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
