package route

import (
	"cmp"
	"container/heap"
	"errors"
	"slices"
)

// branch is one part of the search for the least connected join: the lines that
// it forces to be walked and those that it bans, and its best join, connected or
// not, whose cost no join of this part undercuts.
type branch struct {
	forced, banned []int32
	join           join
}

// branches is a queue of branches, the lowest bound first.
type branches []branch

func (q branches) Len() int           { return len(q) }
func (q branches) Less(i, j int) bool { return q[i].join.cost < q[j].join.cost }
func (q branches) Swap(i, j int)      { q[i], q[j] = q[j], q[i] }
func (q *branches) Push(x any)        { *q = append(*q, x.(branch)) }
func (q *branches) Pop() any {
	last := (*q)[len(*q)-1]
	*q = (*q)[:len(*q)-1]
	return last
}

// searchWork bounds the search over loose pieces, in lines looked at: a second or
// two natively.
const searchWork = 1 << 22

// leastConnected returns a join that makes one piece of all that d asks for, the
// cost that no such join undercuts, and the proof of the least join for d,
// connected or not. Loose pieces make the problem NP-hard (the rural postman,
// Lenstra & Rinnooy Kan, Networks 6, 1976, from memory). If the least join does
// not happen to tie them together, all choices are swept over as long as the
// drawing is narrow; if it is too wide for that, branch and bound: each round
// takes the branch of the lowest bound, and as its join leaves a piece cut off,
// some line of the piece's border must be walked, so that the first such line in
// order of cost splits the branch. Within the budget either is exact; beyond it
// the best found is returned.
func (f *finder) leastConnected(d demand) (best join, bound int64, pf proof, err error) {
	root, pf, err := f.leastJoin(d)
	if err != nil || f.n.connected(d, root) {
		return root, root.cost, pf, err
	}
	best, err = f.tiePieces(d)
	if err != nil {
		return join{}, 0, pf, err
	}
	if f.work == 0 {
		return best, root.cost, pf, nil
	}
	if best, whole := f.connectedBySweep(d, best); whole {
		return best, best.cost, pf, nil
	}
	best, bound, err = f.branchAndBound(d, root, best)
	return best, bound, pf, err
}

// branchAndBound improves on the connected join best; no join at all undercuts
// root. It returns the best found and a cost that none undercuts.
func (f *finder) branchAndBound(d demand, root, best join) (join, int64, error) {
	q := branches{{join: root}}
	k := len(f.n.oddJunctions(d)) + d.ends.freeEnds() + 2*d.stops
	perBranch := searchesPerBranch*len(f.n.lines) + k*k*k/matchingPace
	for budget := f.work; len(q) > 0 && budget > 0; {
		b := heap.Pop(&q).(branch)
		if b.join.cost>>tieBits >= best.cost>>tieBits {
			return best, best.cost, nil
		}
		for _, child := range f.n.split(d, b) {
			var err error
			child.join, err = f.forcedJoin(d, child)
			budget -= perBranch
			switch {
			case errors.Is(err, ErrApart):
			case err != nil:
				return join{}, 0, err
			case child.join.cost>>tieBits >= best.cost>>tieBits:
			case f.n.connected(d, child.join):
				best = child.join
			default:
				heap.Push(&q, child)
			}
		}
	}
	bound := best.cost
	if len(q) > 0 {
		bound = min(bound, q[0].join.cost)
	}
	return best, bound, nil
}

// searchesPerBranch is how many passes over all lines a branch is taken to cost, beside
// its matching, whose cost is the cube of what is matched: matchingPace of its steps take
// as long as a look at a line (measured: 150 junctions took some 20 ms).
const (
	searchesPerBranch = 10
	matchingPace      = 16
)

// forcedJoin returns the least join that walks the forced lines of b and none of
// its banned ones.
func (f *finder) forcedJoin(d demand, b branch) (join, error) {
	sub := demand{must: slices.Clone(d.must), bans: d.without(b.banned), ends: d.ends}
	for _, l := range b.forced {
		sub.must[l] = true
	}
	j, _, err := f.leastJoin(sub)
	if err != nil {
		return join{}, err
	}
	for _, l := range b.forced {
		j.extra[l]++
	}
	j.cost = f.n.costOf(j.extra)
	return j, nil
}

// without returns the bans of d and those of the given lines.
func (d demand) without(banned []int32) []bool {
	out := make([]bool, len(d.must))
	copy(out, d.bans)
	for _, l := range banned {
		out[l] = true
	}
	return out
}

// split chooses the cut-off piece with the fewest ways out and returns one
// branch for each of them: the way is forced, those before it are banned.
func (n *network) split(d demand, b branch) []branch {
	parts := n.parts(d.must, b.join.extra)
	banned := d.without(b.banned)
	borders := map[int32][]int32{}
	for _, v := range n.anchors(d) {
		borders[parts.find(v)] = nil
	}
	for i, l := range n.lines {
		if banned[i] || parts.find(l.u) == parts.find(l.v) {
			continue
		}
		for _, end := range [2]int32{parts.find(l.u), parts.find(l.v)} {
			if border, is := borders[end]; is {
				borders[end] = append(border, int32(i))
			}
		}
	}
	var least []int32
	piece := int32(-1)
	for v, border := range borders {
		if piece < 0 || len(border) < len(least) || (len(border) == len(least) && v < piece) {
			piece, least = v, border
		}
	}
	slices.SortFunc(least, func(a, b int32) int {
		return cmp.Or(cmp.Compare(n.lines[a].cost, n.lines[b].cost), cmp.Compare(a, b))
	})
	out := make([]branch, len(least))
	for i, l := range least {
		out[i].forced = append(slices.Clone(b.forced), l)
		out[i].banned = append(slices.Clone(b.banned), least[:i]...)
	}
	return out
}
