package route

import (
	"slices"

	"unthreaded/path/route/matching"
)

// unreached is the distance to a junction that no walk leads to.
const unreached = matching.Missing

// tree holds the cheapest walks from its sources to the junctions reached.
type tree struct {
	dist []int64
	// back is the line by which a junction was reached, -1 at a source.
	back []int32
	// goals are the junctions searched for, in the order in which they came up.
	goals   []int32
	touched []int32
}

// clone returns a copy that outlasts the next search.
func (t *tree) clone() *tree { return &tree{dist: slices.Clone(t.dist), back: slices.Clone(t.back)} }

// finder runs Dijkstra's search (Numerische Mathematik 1, 1959) over a network,
// keeping its memory between runs.
type finder struct {
	n    *network
	work int    // bounds the search over loose pieces, in lines looked at; 0: none
	bans []bool // per line; nil bans none
	heap []entry
	last *tree
}

type entry struct {
	dist int64
	v    int32
}

// open tells whether line l may be walked.
func (f *finder) open(l int32) bool { return f.bans == nil || !f.bans[l] }

// fresh returns an empty tree in the memory of the last one.
func (f *finder) fresh() *tree {
	if count := f.n.junctions(); f.last == nil || len(f.last.dist) != count {
		f.last = &tree{dist: make([]int64, count), back: make([]int32, count)}
		for v := range f.last.dist {
			f.last.dist[v], f.last.back[v] = unreached, -1
		}
	}
	t := f.last
	for _, v := range t.touched {
		t.dist[v], t.back[v] = unreached, -1
	}
	t.touched, t.goals = t.touched[:0], t.goals[:0]
	f.heap = f.heap[:0]
	return t
}

// search returns the cheapest walks from the nearest of the sources, valid until
// the next search. It stops once it has come to most of the junctions that goal
// marks (-1: it goes everywhere); other distances may then be too large. Cost
// O(lines log lines) of the lines reached.
func (f *finder) search(sources []int32, goal []bool, most int) *tree {
	t := f.fresh()
	for _, v := range sources {
		t.dist[v] = 0
		t.touched = append(t.touched, v)
		f.push(entry{0, v})
	}
	for len(f.heap) > 0 && len(t.goals) != most {
		e := f.pop()
		if e.dist > t.dist[e.v] {
			continue
		}
		if goal != nil && goal[e.v] {
			t.goals = append(t.goals, e.v)
		}
		for _, h := range f.n.halves(e.v) {
			if !f.open(h.line) {
				continue
			}
			if dist := e.dist + f.n.lines[h.line].cost; dist < t.dist[h.to] {
				if t.dist[h.to] == unreached {
					t.touched = append(t.touched, h.to)
				}
				t.dist[h.to], t.back[h.to] = dist, h.line
				f.push(entry{dist, h.to})
			}
		}
	}
	return t
}

func (f *finder) push(e entry) {
	f.heap = append(f.heap, e)
	i := len(f.heap) - 1
	for i > 0 {
		up := (i - 1) / 2
		if f.heap[up].dist <= e.dist {
			break
		}
		f.heap[i] = f.heap[up]
		i = up
	}
	f.heap[i] = e
}

func (f *finder) pop() entry {
	top := f.heap[0]
	last := len(f.heap) - 1
	e := f.heap[last]
	f.heap = f.heap[:last]
	i := 0
	for {
		down := 2*i + 1
		if down >= last {
			break
		}
		if down+1 < last && f.heap[down+1].dist < f.heap[down].dist {
			down++
		}
		if f.heap[down].dist >= e.dist {
			break
		}
		f.heap[i] = f.heap[down]
		i = down
	}
	if last > 0 {
		f.heap[i] = e
	}
	return top
}

// walk calls f for each line of the walk from a source of t to junction v.
func (n *network) walk(t *tree, v int32, f func(line int32)) {
	for t.back[v] >= 0 {
		l := t.back[v]
		f(l)
		v = n.lines[l].u + n.lines[l].v - v
	}
}
