package plane

import (
	"cmp"
	"slices"

	"unthreaded/path/geom"
)

// foot is the nearest place on a line that a cluster misses.
type foot struct {
	cluster int
	// a and b are the ends of the segment, p the point on it, t the share of
	// the way from a to b.
	a, b, p gridPoint
	t       float64
	gap     float64
}

// endsToLines joins clusters that are free to move to the nearest line within
// snap mm, nearest first: the cluster moves to the foot, which becomes a vertex of
// every chain that runs there. It changes sets and returns the chains.
func endsToLines(index segmentIndex, sets []cluster, snap float64) []chain {
	own := index.ownSegments(sets, snap)
	var feet []foot
	for i, c := range sets {
		if !c.free() {
			continue
		}
		if f, ok := index.nearest(c, own[i], snap); ok {
			f.cluster = i
			feet = append(feet, f)
		}
	}
	slices.SortStableFunc(feet, func(f, g foot) int { return cmp.Compare(f.gap, g.gap) })
	member := clusterOf(sets)
	added := map[[2]gridPoint][]foot{}
	for _, f := range feet {
		c := &sets[f.cluster]
		if _, ok := member[f.p]; ok || !c.reaches(f.p, snap) {
			continue
		}
		c.at, c.foot = f.p, true
		if f.p != f.a && f.p != f.b {
			added[[2]gridPoint{f.a, f.b}] = append(added[[2]gridPoint{f.a, f.b}], f)
		}
	}
	return withFeet(index.chains, added)
}

// nearest returns the place nearest to the cluster on a segment that is none of
// its own, if that is within snap mm.
func (s segmentIndex) nearest(c cluster, own map[[2]int]bool, snap float64) (foot, bool) {
	at := c.at.mm()
	best := foot{gap: snap}
	found := false
	s.visit(box(c.at, c.at, snap*perMM), func(chain, seg int) {
		if own[[2]int{chain, seg}] {
			return
		}
		pts := s.chains[chain].pts
		key := side(pts[seg], pts[seg+1])
		a, b := key[0], key[1]
		t, q := geom.NearestOnSegment(at, a.mm(), b.mm())
		gap := geom.Dist(at, q)
		nearer := gap < best.gap || !found && within(gap, snap)
		if nearer || found && gap == best.gap && (a.less(best.a) || a == best.a && b.less(best.b)) {
			best, found = foot{a: a, b: b, p: toGrid(q), t: t, gap: gap}, true
		}
	})
	return best, found
}

// ownSegments returns for each cluster the segments by which chains leave its
// neighbourhood; it must not be joined to these.
func (s segmentIndex) ownSegments(sets []cluster, snap float64) []map[[2]int]bool {
	of := clusterOf(sets)
	own := make([]map[[2]int]bool, len(sets))
	for i, c := range s.chains {
		for j, p := range c.pts {
			set, ok := of[p]
			if !ok || !sets[set].free() {
				continue
			}
			if own[set] == nil {
				own[set] = map[[2]int]bool{}
			}
			low, high := c.ownRun(j, sets[set].at, snap)
			for k := low; k <= high; k++ {
				own[set][[2]int{i, k}] = true
			}
		}
	}
	return own
}

// clusterOf returns the cluster to which each member's place belongs.
func clusterOf(sets []cluster) map[gridPoint]int {
	of := map[gridPoint]int{}
	for i, c := range sets {
		for _, m := range c.members {
			of[m.p] = i
		}
	}
	return of
}

// withFeet returns the chains with the feet as vertices. added holds them by
// their segment, whose ends stand in the order of their places.
func withFeet(chains []chain, added map[[2]gridPoint][]foot) []chain {
	if len(added) == 0 {
		return chains
	}
	out := make([]chain, len(chains))
	for i, c := range chains {
		d := chain{line: c.line}
		for j, p := range c.pts {
			d.add(p, c.at[j])
			if j+1 == len(c.pts) {
				break
			}
			a, b, turned := p, c.pts[j+1], false
			if b.less(a) {
				a, b, turned = b, a, true
			}
			for _, f := range inOrder(added[[2]gridPoint{a, b}], turned) {
				t := f.t
				if turned {
					t = 1 - t
				}
				d.add(f.p, c.at[j]+t*c.span(j))
			}
		}
		out[i] = d
	}
	return out
}

func inOrder(feet []foot, turned bool) []foot {
	out := slices.Clone(feet)
	slices.SortFunc(out, func(f, g foot) int {
		if turned {
			f, g = g, f
		}
		return cmp.Compare(f.t, g.t)
	})
	return out
}
