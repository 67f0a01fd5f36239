package route

import (
	"cmp"
	"container/heap"
	"errors"
	"fmt"
)

// circuits is a pairing of all darts and the circuits that it makes.
type circuits struct {
	w    *walks
	mate []int32
	cost int64
	// loose is by how much the cheapest pairings may cost less than those found.
	loose int64
	ring  sets // of arcs: those on one circuit
	left  int  // circuits
	// Memory that is kept between calls.
	pairs [][2]int32
	queue swapQueue
}

// cheapestCircuits pairs the darts of every junction as cheaply as can be for
// that junction alone: no tour costs less, but for what is loose.
func (w *walks) cheapestCircuits() (*circuits, error) {
	c := &circuits{w: w, mate: make([]int32, 2*len(w.arcs))}
	for v, darts := range w.at {
		if len(darts) == 0 {
			continue
		}
		if len(darts)%2 == 1 {
			return nil, fmt.Errorf("junction %d: %d line ends are walked, an odd number", v, len(darts))
		}
		p, err := w.cheapest(darts)
		if err != nil {
			return nil, fmt.Errorf("junction %d: %w", v, err)
		}
		c.pair(p)
	}
	c.trace()
	return c, nil
}

func (c *circuits) pair(p pairing) {
	for _, ab := range p.pairs {
		c.mate[ab[0]], c.mate[ab[1]] = ab[1], ab[0]
	}
	c.cost += p.cost
	c.loose += p.loose
}

// trace finds the circuits. Cost O(arcs).
func (c *circuits) trace() {
	if c.ring == nil {
		c.ring = make(sets, len(c.w.arcs))
	}
	c.ring.part()
	c.left = len(c.w.arcs)
	for d, m := range c.mate {
		if int32(d) < m && c.ring.union(int32(d/2), m/2) {
			c.left--
		}
	}
}

// apart tells whether darts a and b lie on different circuits.
func (c *circuits) apart(a, b int32) bool { return c.ring.find(a/2) != c.ring.find(b/2) }

// swap is an exchange at junction v: the passages a-b and c-d give way to a-c
// and b-d.
type swap struct {
	v          int
	a, b, c, d int32
	delta      int64
	crossings  int // how many more
}

// passages returns the pairs of darts at junction v, valid until the next call.
func (c *circuits) passages(v int) [][2]int32 {
	c.pairs = c.pairs[:0]
	for _, d := range c.w.at[v] {
		if m := c.mate[d]; d < m {
			c.pairs = append(c.pairs, [2]int32{d, m})
		}
	}
	return c.pairs
}

// swaps adds to out the exchanges of two passages at junction v, only those on
// different circuits if apart is set, and none that make a forbidden crossing.
func (c *circuits) swaps(out []swap, v int, apart bool) []swap {
	if len(c.w.at[v]) < 4 {
		return out
	}
	pairs := c.passages(v)
	for i, p := range pairs {
		for _, q := range pairs[i+1:] {
			if apart && !c.apart(p[0], q[0]) {
				continue
			}
			for _, s := range [2]swap{
				{v: v, a: p[0], b: p[1], c: q[0], d: q[1]},
				{v: v, a: p[0], b: p[1], c: q[1], d: q[0]},
			} {
				w := c.w
				s.delta = w.cost(s.a, s.c) + w.cost(s.b, s.d) - w.cost(s.a, s.b) - w.cost(s.c, s.d)
				s.crossings = c.moreCrossings(s, pairs)
				if !w.never || s.crossings <= 0 {
					out = append(out, s)
				}
			}
		}
	}
	return out
}

// moreCrossings returns how many more crossings s makes among the passages of
// its junction.
func (c *circuits) moreCrossings(s swap, pairs [][2]int32) int {
	old := [][2]int32{{s.a, s.b}, {s.c, s.d}}
	fresh := [][2]int32{{s.a, s.c}, {s.b, s.d}}
	more := c.w.crossings(fresh[:1], s.b, s.d) - c.w.crossings(old[:1], s.c, s.d)
	for _, p := range pairs {
		if p[0] != s.a && p[1] != s.a && p[0] != s.c && p[1] != s.c {
			more += c.w.crossings(fresh, p[0], p[1]) - c.w.crossings(old, p[0], p[1])
		}
	}
	return more
}

func (c *circuits) apply(s swap) {
	c.mate[s.a], c.mate[s.c], c.mate[s.b], c.mate[s.d] = s.c, s.a, s.d, s.b
	c.cost += s.delta
}

// errNotOne is returned where circuits cannot be joined up.
var errNotOne = errors.New("the lines to be walked do not make one circuit")

// swapQueue is a queue of exchanges, the cheapest first.
type swapQueue []swap

func (q swapQueue) Len() int { return len(q) }
func (q swapQueue) Less(i, j int) bool {
	return cmp.Or(cmp.Compare(q[i].delta, q[j].delta), cmp.Compare(q[i].crossings, q[j].crossings),
		cmp.Compare(q[i].v, q[j].v), cmp.Compare(q[i].a, q[j].a), cmp.Compare(q[i].c, q[j].c)) < 0
}
func (q swapQueue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *swapQueue) Push(x any)   { *q = append(*q, x.(swap)) }
func (q *swapQueue) Pop() any {
	last := (*q)[len(*q)-1]
	*q = (*q)[:len(*q)-1]
	return last
}

// joinUp makes one circuit of them all by the cheapest exchanges between two, at
// the junctions that may be touched (Kruskal, Proc. AMS 7, 1956). Where no junction has more than four darts, and
// all were paired as cheaply as can be, no tour costs less: any tour differs from
// that pairing at junctions that tie all circuits together, an exchange at each of
// them costs at least this much, and each is free to be made by itself.
func (c *circuits) joinUp(may func(v int) bool) error {
	c.queue = c.queue[:0]
	for v := range c.w.at {
		if may(v) {
			c.queue = c.swaps(c.queue, v, true)
		}
	}
	heap.Init(&c.queue)
	for c.left > 1 {
		if len(c.queue) == 0 {
			return errNotOne
		}
		s := heap.Pop(&c.queue).(swap)
		if c.mate[s.a] != s.b || c.mate[s.c] != s.d || !c.apart(s.a, s.c) {
			continue
		}
		c.apply(s)
		c.ring.union(s.a/2, s.c/2)
		c.left--
		if len(c.w.at[s.v]) > 4 {
			for _, next := range c.swaps(nil, s.v, true) {
				heap.Push(&c.queue, next)
			}
		}
	}
	return nil
}
