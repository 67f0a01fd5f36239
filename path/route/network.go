package route

import (
	"math"

	"unthreaded/path/plane"
)

// costUnit is one cost unit per mm-equivalent: micrometres times hundredths of
// the price.
const costUnit = 1000 * 100

// tieBits are the low bits of a cost that hold its tie-break, so that among
// joins that cost the same the one with the lowest sum of tie-breaks wins.
const tieBits = 16

// line is one line of a network: a line of the graph, or (from the number of
// those on) half a stop-and-start, between a junction and the air.
type line struct {
	u, v int32
	cost int64 // of a walk that is not the first along a sewn line
}

// half is a line seen from one of its ends.
type half struct{ to, line int32 }

// network is the graph as the search for extra walks sees it. Where stops are
// allowed the air is one more junction, joined to every other by a line of half
// the price: up, and down elsewhere. All stops cost the same wherever they lead,
// so it does not matter which way up is followed by which way down, and the air
// joins up loose pieces as any junction does.
type network struct {
	g     plane.Graph
	dirs  compass
	lines []line
	first []int32 // the halves of junction v are halves[first[v]:first[v+1]]
	at    []half
	air   int32   // -1 if there is none
	next  []int32 // see follows; nil until asked for
}

// newNetwork prices the lines of g, barred ones too. Tie-breaks prefer lines that can be
// retraced without turning much, and any walk to a stop.
func newNetwork(g plane.Graph, rules Rules) *network {
	n := &network{g: g, dirs: newCompass(g), air: -1}
	for _, e := range g.Edges {
		l := line{u: int32(e.U), v: int32(e.V), cost: price(e.Length, rules.Costs.Seam)}
		if e.Kind.Must() {
			l.cost = price(e.Length, rules.Costs.Retrace)
		}
		n.lines = append(n.lines, l)
	}
	if !math.IsInf(rules.Costs.Jump, 1) {
		n.air = int32(len(g.Nodes))
		half := (int64(math.Round(rules.Costs.Jump*costUnit))/2)<<tieBits + 1
		for v := range g.Nodes {
			n.lines = append(n.lines, line{u: int32(v), v: n.air, cost: half})
		}
	}
	n.index()
	n.breakTies()
	return n
}

// price returns the cost of length mm at a price per mm, its tie-break empty.
func price(length, perMM float64) int64 {
	return int64(math.Round(length*1000)) * int64(math.Round(perMM*100)) << tieBits
}

// mm returns the worth of a cost in mm, without its tie-break.
func mm(cost int64) float64 { return float64(cost>>tieBits) / costUnit }

// junctions returns the number of junctions, the air included.
func (n *network) junctions() int { return len(n.first) - 1 }

// index sorts the halves of lines by junction.
func (n *network) index() {
	count := len(n.g.Nodes)
	if n.air >= 0 {
		count++
	}
	n.first = make([]int32, count+1)
	for _, l := range n.lines {
		n.first[l.u+1]++
		n.first[l.v+1]++
	}
	for v := 0; v < count; v++ {
		n.first[v+1] += n.first[v]
	}
	n.at = make([]half, 2*len(n.lines))
	next := append([]int32(nil), n.first[:count]...)
	for i, l := range n.lines {
		n.at[next[l.u]] = half{l.v, int32(i)}
		next[l.u]++
		n.at[next[l.v]] = half{l.u, int32(i)}
		next[l.v]++
	}
}

func (n *network) halves(v int32) []half { return n.at[n.first[v]:n.first[v+1]] }

// breakTies adds to each line's cost how much a second walk along it has to
// turn at its ends, scaled so that all of them together stay below one unit.
func (n *network) breakTies() {
	edges := len(n.g.Edges)
	scale := float64(int64(1)<<tieBits-1-int64(2*len(n.g.Nodes))) / (2 * math.Pi * float64(edges+1))
	for i := range n.lines[:edges] {
		if scale > 0 {
			turns := n.leastTurn(int32(2*i)) + n.leastTurn(int32(2*i+1))
			n.lines[i].cost += int64(scale * turns)
		}
	}
}

// leastTurn returns the least angle by which a walk turns that arrives along
// the line of dart d and leaves along another.
func (n *network) leastTurn(d int32) float64 {
	least := math.Pi
	v := n.lines[d/2].u
	if d%2 == 1 {
		v = n.lines[d/2].v
	}
	for _, h := range n.halves(v) {
		if int(h.line) >= len(n.g.Edges) {
			continue
		}
		for _, o := range [2]int32{2 * h.line, 2*h.line + 1} {
			if o != d && n.foot(o) == v {
				least = math.Min(least, n.dirs.turn(d, o))
			}
		}
	}
	return least
}

// foot returns the junction that dart d leaves.
func (n *network) foot(d int32) int32 {
	if d%2 == 0 {
		return n.lines[d/2].u
	}
	return n.lines[d/2].v
}
