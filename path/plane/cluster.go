package plane

import (
	"cmp"
	"maps"
	"math"
	"slices"
)

// rank tells what holds a member of a cluster in place.
type rank int

// A loose end gives way to one where two lines meet, and that to a junction.
const (
	looseEnd rank = iota + 1
	corner
	junction
)

// member is a node of the noded line work: an end of a chain, a junction, or a
// touch.
type member struct {
	p    gridPoint
	rank rank
	// free tells that it may be joined to a line near by: no line passes
	// through it, or it is a touch.
	free bool
}

// cluster is a set of members that become one point.
type cluster struct {
	members []member
	// at is the common point; no member is farther from it than the snap
	// distance.
	at gridPoint
	// foot tells that at lies on a line that passes by.
	foot bool
}

// joined tells whether the cluster brings anything together.
func (c cluster) joined() bool { return len(c.members) > 1 || c.foot }

// free tells whether a member may be joined to a line near by.
func (c cluster) free() bool {
	return slices.ContainsFunc(c.members, func(m member) bool { return m.free })
}

func (c cluster) hasJunction() bool {
	return slices.ContainsFunc(c.members, func(m member) bool { return m.rank == junction })
}

// members returns the ends and junctions of noded chains and the touches,
// sorted by place.
func members(chains []chain, touches []gridPoint) []member {
	near := neighbours(chains)
	found := map[gridPoint]member{}
	for _, c := range chains {
		for i, p := range c.pts {
			if end := i == 0 || i == len(c.pts)-1; end || len(near[p]) >= 3 {
				m, ok := found[p]
				found[p] = member{p, min(rank(len(near[p])), junction), (m.free || !ok) && end}
			}
		}
	}
	for _, p := range touches {
		if _, ok := found[p]; !ok {
			found[p] = member{p: p, rank: looseEnd}
		}
		m := found[p]
		m.free = true
		found[p] = m
	}
	out := slices.Collect(maps.Values(found))
	slices.SortFunc(out, func(a, b member) int { return comparePoints(a.p, b.p) })
	return out
}

// neighbours returns for each vertex of noded chains the distinct vertices to
// which a segment leads.
func neighbours(chains []chain) map[gridPoint][]gridPoint {
	near := map[gridPoint][]gridPoint{}
	link := func(a, b gridPoint) {
		if !slices.Contains(near[a], b) {
			near[a] = append(near[a], b)
		}
	}
	for _, c := range chains {
		for i := 0; i+1 < len(c.pts); i++ {
			link(c.pts[i], c.pts[i+1])
			link(c.pts[i+1], c.pts[i])
		}
	}
	return near
}

// pair is two members within the snap distance of each other.
type pair struct {
	a, b int
	// ends tells that neither is a junction: ends join ends before anything
	// else.
	ends bool
	gap  float64
}

// clusters joins members that lie within snap mm of each other, ends to ends
// first, nearest first; a pair is passed over if joining it would take a member
// farther than snap from the common point, so that no chain of near misses
// drags a point away. Cost O(n log n) for members that are not crowded.
func clusters(all []member, snap float64) []cluster {
	sets := make([]cluster, len(all))
	of := make([]int, len(all))
	inSet := make([][]int, len(all))
	for i, m := range all {
		sets[i] = cluster{members: []member{m}, at: m.p}
		of[i], inSet[i] = i, []int{i}
	}
	for _, p := range pairs(all, snap) {
		a, b := of[p.a], of[p.b]
		if a == b {
			continue
		}
		both, ok := merged(sets[a], sets[b], snap)
		if !ok {
			continue
		}
		sets[a], sets[b] = both, cluster{}
		inSet[a] = append(inSet[a], inSet[b]...)
		for _, i := range inSet[b] {
			of[i] = a
		}
	}
	return slices.DeleteFunc(sets, func(c cluster) bool { return len(c.members) == 0 })
}

func pairs(all []member, snap float64) []pair {
	pts := make([]gridPoint, len(all))
	for i, m := range all {
		pts[i] = m.p
	}
	tree := pointTree(pts)
	var out []pair
	for i, m := range all {
		search(tree, box(m.p, m.p, snap*perMM), func(j int) {
			if gap := m.p.gap(pts[j]); j > i && within(gap, snap) {
				out = append(out, pair{i, j, m.rank != junction && all[j].rank != junction, gap})
			}
		})
	}
	slices.SortFunc(out, func(p, q pair) int {
		if p.ends != q.ends {
			if p.ends {
				return -1
			}
			return 1
		}
		return cmp.Or(cmp.Compare(p.gap, q.gap), cmp.Compare(p.a, q.a), cmp.Compare(p.b, q.b))
	})
	return out
}

// within tells whether gap mm is at most snap mm, but for the rounding of sums.
func within(gap, snap float64) bool { return gap <= snap*(1+1e-12) }

// merged returns the union of two clusters, and whether all members lie within
// snap mm of its point: the mean of those members that are held fastest.
func merged(a, b cluster, snap float64) (cluster, bool) {
	c := cluster{members: slices.Concat(a.members, b.members)}
	var top rank
	for _, m := range c.members {
		top = max(top, m.rank)
	}
	var x, y, n float64
	for _, m := range c.members {
		if m.rank == top {
			x, y, n = x+float64(m.p.x), y+float64(m.p.y), n+1
		}
	}
	c.at = gridPoint{int64(math.Floor(x/n + 0.5)), int64(math.Floor(y/n + 0.5))}
	return c, c.reaches(c.at, snap)
}

// reaches tells whether all members lie within snap mm of p.
func (c cluster) reaches(p gridPoint, snap float64) bool {
	for _, m := range c.members {
		if !within(m.p.gap(p), snap) {
			return false
		}
	}
	return true
}
