package matching

import "slices"

// edge is a pair of vertices; u lies in the node that it is seen from.
type edge struct{ u, v int32 }

var none = edge{-1, -1}

func (e edge) reversed() edge { return edge{e.v, e.u} }

// label is a node's place in the search forest.
type label int8

const (
	free  label = iota // not reached
	outer              // an even number of steps from an unmatched node
	inner              // an odd number
)

// solver holds the state. A node is a vertex (below n) or a blossom (from n on):
// an odd ring of nodes that is treated as one. Potentials are in halves of the
// cost unit and those of all outer vertices have the same parity (all start
// even and move together), which keeps every step whole.
type solver struct {
	n, stride int
	w         []int64 // doubled costs, n x n
	potential []int64 // per vertex: the sum of the widths of all nodes that hold it
	width     []int64 // per node: its own dual, the radius of a vertex or the width of a blossom
	link      []edge  // stride x stride: the tightest pair between two nodes
	top       []int32 // per node: the outermost node that holds it; -1 for an unused blossom
	mate      []int32 // per node: the vertex outside that it is matched to; -1 for none
	label     []label
	parent    []edge    // per inner node: the pair by which it was reached, from outside to inside
	best      []edge    // per node: the tightest pair from another outer node, from outside to inside
	gap       []int64   // per node: the slack of best
	ring      [][]int32 // per blossom, from its base on
	holds     []int32   // (stride-n) x n: the member of a blossom that holds a vertex
	queue     []int32   // outer vertices still to be looked at
	seen      []int32   // marks of the last search for a common root
	mark      int32
}

func newSolver(n int, cost []int64) *solver {
	stride := n + n/2 + 1
	s := &solver{
		n: n, stride: stride,
		w: make([]int64, n*n), potential: make([]int64, n), width: make([]int64, stride),
		link: make([]edge, stride*stride), top: make([]int32, stride), mate: make([]int32, stride),
		label: make([]label, stride), parent: make([]edge, stride), best: make([]edge, stride),
		gap: make([]int64, stride), ring: make([][]int32, stride), holds: make([]int32, (stride-n)*n),
		seen: make([]int32, stride),
	}
	for i := range s.top {
		s.top[i], s.mate[i] = -1, -1
	}
	for u := 0; u < n; u++ {
		s.top[u] = int32(u)
		for v := 0; v < n; v++ {
			i := u*n + v
			s.w[i], s.link[u*stride+v] = Missing, none
			if u != v && cost[i] != Missing {
				s.w[i], s.link[u*stride+v] = 2*cost[i], edge{int32(u), int32(v)}
			}
		}
	}
	return s
}

// start sets potentials that no pair contradicts, each as high as its
// predecessors allow, and matches what is tight already.
func (s *solver) start() {
	for u := range s.potential {
		if low := slices.Min(s.w[u*s.n : (u+1)*s.n]); low != Missing {
			s.potential[u] = floorEven(low / 2)
		}
	}
	for u := range s.potential {
		row := s.w[u*s.n : (u+1)*s.n]
		most := int64(Missing)
		for v, w := range row {
			if w != Missing {
				most = min(most, w-s.potential[v])
			}
		}
		if most == Missing {
			continue
		}
		s.potential[u] = floorEven(most)
		s.width[u] = s.potential[u]
		for v, w := range row {
			if w != Missing && s.mate[u] < 0 && s.mate[v] < 0 && w == s.potential[u]+s.potential[v] {
				s.mate[u], s.mate[v] = int32(v), int32(u)
			}
		}
	}
}

// floorEven returns the largest even number not above x.
func floorEven(x int64) int64 { return x &^ 1 }

func (s *solver) slack(e edge) int64 {
	return s.w[int(e.u)*s.n+int(e.v)] - s.potential[e.u] - s.potential[e.v]
}

func (s *solver) linkOf(x, y int32) edge { return s.link[int(x)*s.stride+int(y)] }

// isTop tells whether x is an outermost node.
func (s *solver) isTop(x int) bool { return s.top[x] == int32(x) }

func (s *solver) unmatched() bool {
	for x := range s.top {
		if s.isTop(x) && s.mate[x] < 0 {
			return true
		}
	}
	return false
}

// result reads the matching and its dual off the final state.
func (s *solver) result() Result {
	r := Result{Mate: make([]int, s.n), Radius: slices.Clone(s.width[:s.n])}
	for v := range r.Mate {
		r.Mate[v] = int(s.mate[v])
		if v < r.Mate[v] {
			r.Weight += s.w[v*s.n+r.Mate[v]] / 2
		}
	}
	for x := s.n; x < s.stride; x++ {
		if s.isTop(x) {
			r.Groups = s.appendGroups(r.Groups, int32(x))
		}
	}
	return r
}

// appendGroups adds blossom x after those inside it.
func (s *solver) appendGroups(groups []Group, x int32) []Group {
	for _, m := range s.ring[x] {
		if int(m) >= s.n {
			groups = s.appendGroups(groups, m)
		}
	}
	if s.width[x] == 0 {
		return groups
	}
	g := Group{Width: s.width[x]}
	s.eachVertex(x, func(v int32) { g.Members = append(g.Members, int(v)) })
	slices.Sort(g.Members)
	return append(groups, g)
}

func (s *solver) eachVertex(x int32, f func(v int32)) {
	if int(x) < s.n {
		f(x)
		return
	}
	for _, m := range s.ring[x] {
		s.eachVertex(m, f)
	}
}
