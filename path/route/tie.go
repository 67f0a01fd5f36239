package route

import "slices"

// tiePieces returns a connected join that is good but need not be the least: the
// pieces are tied together by the cheapest walk between any two of them until
// one piece is left, each time with the least join that takes the ties so far
// along; then each tie in turn is given up for others while that saves.
// Spanning tree and join together cost at most half the least total length more
// (Frederickson, J. ACM 26, 1979, from memory). It fails with ErrApart if there
// is no way across.
func (f *finder) tiePieces(d demand) (join, error) {
	best, ties, err := f.tie(d, nil, nil)
	if err != nil {
		return join{}, err
	}
	for i := 0; i < len(ties); i++ {
		others := slices.Delete(slices.Clone(ties), i, i+1)
		j, tied, err := f.tie(d, others, ties[i][:1])
		if err == nil && j.cost < best.cost {
			best, ties, i = j, tied, -1
		}
	}
	return best, nil
}

// tie adds ties, walks between parts, until the least join that takes them hangs
// together. Banned lines are not walked.
func (f *finder) tie(d demand, ties [][]int32, banned []int32) (join, [][]int32, error) {
	for {
		j, err := f.forcedJoin(d, branch{forced: slices.Concat(ties...), banned: banned})
		if err != nil || f.n.connected(d, j) {
			return j, ties, err
		}
		walk := f.shortestTie(d, j)
		if walk == nil {
			return j, ties, ErrApart
		}
		ties = append(slices.Clone(ties), walk)
	}
}

// shortestTie returns the lines of the cheapest walk between two parts that j
// leaves apart, nil if there is none: a search from all parts at once, and the
// best line at which two of them meet. Bans are those of the last search. Cost
// O(lines log lines).
func (f *finder) shortestTie(d demand, j join) []int32 {
	n := f.n
	parts := n.parts(d.must, j.extra)
	anchored := map[int32]bool{}
	for _, v := range n.anchors(d) {
		anchored[parts.find(v)] = true
	}
	var sources []int32
	for v := range int32(n.junctions()) {
		if anchored[parts.find(v)] {
			sources = append(sources, v)
		}
	}
	t := f.search(sources, nil, -1)
	home := func(v int32) int32 {
		n.walk(t, v, func(l int32) { v = n.lines[l].u + n.lines[l].v - v })
		return parts.find(v)
	}
	best, meet := int64(unreached), int32(-1)
	for i, l := range n.lines {
		if !f.open(int32(i)) || t.dist[l.u] == unreached || t.dist[l.v] == unreached {
			continue
		}
		if sum := t.dist[l.u] + l.cost + t.dist[l.v]; sum < best && home(l.u) != home(l.v) {
			best, meet = sum, int32(i)
		}
	}
	if meet < 0 {
		return nil
	}
	walk := []int32{meet}
	for _, v := range [2]int32{n.lines[meet].u, n.lines[meet].v} {
		n.walk(t, v, func(l int32) { walk = append(walk, l) })
	}
	return walk
}
