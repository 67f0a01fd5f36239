package steps

import (
	"slices"

	"unthreaded/path/route"
)

// label is a way to a junction: what it costs and the lines that must be sewn
// before it can be walked.
type label struct {
	cost int64
	over mask
}

// way lists the ways between two stations that no other undercuts, the cheapest
// first; the last needs no line sewn, if there is one that does not.
type way []label

// cheapest returns the cheapest way that can be walked once the lines of sewn are,
// unreached if there is none.
func (w way) cheapest(sewn mask) int64 {
	for _, l := range w {
		if l.over.within(sewn) {
			return l.cost
		}
	}
	return unreached
}

// mostLabels is the number of ways to one junction that are kept.
const mostLabels = 6

// node is an entry of the queue of a search over ways.
type node struct {
	label
	at   int32
	prev int32 // index into the nodes taken off, -1 at the source
	by   arc
}

// queue is a binary heap of nodes, the cheapest first.
type queue []node

func (q *queue) push(n node) {
	*q = append(*q, n)
	h := *q
	i := len(h) - 1
	for i > 0 && h[(i-1)/2].cost > n.cost {
		h[i] = h[(i-1)/2]
		i = (i - 1) / 2
	}
	h[i] = n
}

func (q *queue) pop() node {
	h := *q
	top, last := h[0], len(h)-1
	n := h[last]
	h = h[:last]
	*q = h
	i := 0
	for {
		down := 2*i + 1
		if down >= last {
			break
		}
		if down+1 < last && h[down+1].cost < h[down].cost {
			down++
		}
		if h[down].cost >= n.cost {
			break
		}
		h[i] = h[down]
		i = down
	}
	if last > 0 {
		h[i] = n
	}
	return top
}

// row returns the ways from a station to all others: Dijkstra's search with several
// labels a junction (Martins, EJOR 16, 1984, from memory), a label giving way to one
// that costs no more and needs no other line. Cost O(labels log labels), held down
// by the price of a stop.
func (b *ground) row(s int) []way {
	if b.ways == nil {
		b.ways = make([][]way, len(b.nodes))
	}
	if b.ways[s] != nil {
		return b.ways[s]
	}
	out := make([]way, len(b.nodes))
	b.search(b.nodes[s], func(n node, _ []node) bool {
		if t, is := b.station[n.at]; is {
			out[t] = append(out[t], n.label)
		}
		return true
	}, func(mask) bool { return true })
	if b.jump < unreached {
		for t := range out {
			if k := len(out[t]); t != s && (k == 0 || out[t][k-1].over != mask{}) {
				out[t] = append(out[t], label{cost: b.jump})
			}
		}
	}
	b.ways[s] = out
	return out
}

// search takes labels off the queue, cheapest first, while take wants more; may
// tells whether lines can be walked. Ways that cost as much as a stop are left out.
func (b *ground) search(from int32, take func(n node, done []node) bool, may func(mask) bool) {
	m := &b.scratch
	if m.settled == nil {
		m.settled = make([][]label, len(b.arcs))
	}
	for _, v := range m.touched {
		m.settled[v] = m.settled[v][:0]
	}
	m.touched, m.done, m.queue = m.touched[:0], m.done[:0], m.queue[:0]
	m.queue.push(node{at: from, prev: -1})
	for len(m.queue) > 0 {
		n := m.queue.pop()
		if !m.settle(n) {
			continue
		}
		if !take(n, m.done) {
			return
		}
		for _, a := range b.arcs[n.at] {
			next := label{n.cost + a.cost, n.over}
			if a.line >= 0 && !b.pre {
				next.over = next.over.with(int(a.line))
			}
			if next.cost < b.jump && !m.known(a.to, next) && may(next.over) {
				m.queue.push(node{next, a.to, int32(len(m.done) - 1), a})
			}
		}
	}
}

// settle keeps a label that was taken off the queue; false if it gives way to others.
func (m *scratch) settle(n node) bool {
	if m.known(n.at, n.label) {
		return false
	}
	if len(m.settled[n.at]) == 0 {
		m.touched = append(m.touched, n.at)
	}
	m.settled[n.at] = append(m.settled[n.at], n.label)
	m.done = append(m.done, n)
	return true
}

// known tells that a label gives way to those of its junction, all of which cost no
// more.
func (m *scratch) known(at int32, l label) bool {
	list := m.settled[at]
	if len(list) >= mostLabels {
		return true
	}
	for i := range list {
		if list[i].over.within(l.over) {
			return true
		}
	}
	return false
}

// travel returns the steps of the cheapest way between two junctions once the lines
// of sewn are, false if there is none.
func (b *ground) travel(from, to int, sewn mask) ([]route.Step, bool) {
	if from == to {
		return nil, true
	}
	var out []route.Step
	found := false
	b.search(int32(from), func(n node, done []node) bool {
		if n.at != int32(to) {
			return true
		}
		found = true
		for ; n.prev >= 0; n = done[n.prev] {
			e := b.g.Edges[n.by.edge]
			s := route.Step{Edge: int(n.by.edge), Reverse: e.V != int(n.at), From: e.U, To: e.V, Way: route.Hidden}
			if s.Reverse {
				s.From, s.To = e.V, e.U
			}
			if n.by.line >= 0 {
				s.Way = route.Again
			}
			out = append(out, s)
		}
		return false
	}, func(over mask) bool { return over.within(sewn) })
	slices.Reverse(out)
	switch {
	case found:
		return out, true
	case b.jump < unreached:
		return []route.Step{{Edge: route.Nowhere, Way: route.Jump, From: from, To: to}}, true
	}
	return nil, false
}

// between returns what it costs to go on from the end of walk v with walk w.
func (b *ground) between(v, w int, sewn mask) int64 {
	s, t := b.to[v], b.from[w]
	if s == t {
		if b.breaks(v, w) {
			return 1
		}
		return 0
	}
	return b.across(s, t, sewn) + 1
}

// across returns the cost of a way between stations.
func (b *ground) across(s, t int, sewn mask) int64 {
	if s == t {
		return 0
	}
	if b.big() {
		return b.once(s, t, sewn)
	}
	return b.row(s)[t].cheapest(sewn)
}

// big tells that there are too many lines to keep all ways between them.
func (b *ground) big() bool { return len(b.lines) > mostExchanged }

// once returns what one way costs without keeping it.
func (b *ground) once(s, t int, sewn mask) int64 {
	least := b.jump
	b.search(b.nodes[s], func(n node, _ []node) bool {
		if n.at == b.nodes[t] {
			least = n.cost
			return false
		}
		return true
	}, func(over mask) bool { return over.within(sewn) })
	return least
}
