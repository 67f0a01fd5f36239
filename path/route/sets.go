package route

import "slices"

// sets is a forest of junctions that hang together (union-find with halving).
type sets []int32

func newSets(count int) sets {
	s := make(sets, count)
	s.part()
	return s
}

// part takes all sets apart.
func (s sets) part() {
	for v := range s {
		s[v] = int32(v)
	}
}

func (s sets) find(v int32) int32 {
	for s[v] != v {
		s[v] = s[s[v]]
		v = s[v]
	}
	return v
}

// union joins the sets of u and v and tells whether they were apart.
func (s sets) union(u, v int32) bool {
	u, v = s.find(u), s.find(v)
	s[u] = v
	return u != v
}

// together tells whether all the junctions lie in one set.
func (s sets) together(junctions []int32) bool {
	return !slices.ContainsFunc(junctions, func(v int32) bool { return s.find(v) != s.find(junctions[0]) })
}
