package route

import (
	"cmp"
	"slices"
)

// arc is one walk along a line of the network, from its u to its v or back.
// Arc i has the darts 2i at u and 2i+1 at v.
type arc struct {
	line int32 // -1 for the link from exit back to start, which is not walked
	u, v int32
}

// walks is the multigraph of all that a route walks: an even number of darts at
// every junction, all of it hanging together. A tour is a pairing of the darts at
// each junction, each pair a passage, that makes one circuit of it.
type walks struct {
	n     *network
	arcs  []arc
	at    [][]int32 // the darts of each junction, clockwise, those without a direction last
	place []int32   // of each dart in that order; -1 for one without a direction
	never bool      // no passage may cross another
	plain bool      // turns alone count, not ruler lines broken off
	moves bool      // sharp turns count before all others
	blur  uint32    // if not 0, which random blur is laid over the costs
}

// newWalks lists the walks along the must lines and those of j.
func newWalks(n *network, must []bool, j join, neverCross bool) *walks {
	w := &walks{n: n, never: neverCross, at: make([][]int32, n.junctions())}
	for i, l := range n.lines {
		times := int(j.extra[i])
		if must[i] {
			times++
		}
		for ; times > 0; times-- {
			w.arcs = append(w.arcs, arc{int32(i), l.u, l.v})
		}
	}
	if j.exit != Nowhere {
		w.arcs = append(w.arcs, arc{-1, j.exit, j.start})
	}
	for i, a := range w.arcs {
		w.at[a.u] = append(w.at[a.u], int32(2*i))
		w.at[a.v] = append(w.at[a.v], int32(2*i+1))
	}
	w.place = make([]int32, 2*len(w.arcs))
	for _, darts := range w.at {
		slices.SortFunc(darts, w.compare)
		for k, d := range darts {
			w.place[d] = -1
			if w.graphDart(d) >= 0 {
				w.place[d] = int32(k)
			}
		}
	}
	return w
}

// graphDart returns the dart of the graph that d runs along, -1 for the link
// and for stops.
func (w *walks) graphDart(d int32) int32 {
	l := w.arcs[d/2].line
	if l < 0 || int(l) >= len(w.n.g.Edges) {
		return -1
	}
	return 2*l + d%2
}

// compare orders the darts of a junction clockwise. Two walks along one line lie
// side by side, so that they come in the opposite order at its other end.
func (w *walks) compare(a, b int32) int {
	p, q := w.graphDart(a), w.graphDart(b)
	if p < 0 || q < 0 {
		return cmp.Or(cmp.Compare(q, p), cmp.Compare(a, b))
	}
	if p == q && p%2 == 1 {
		return cmp.Compare(b, a)
	}
	return cmp.Or(cmp.Compare(w.n.dirs.rank[p], w.n.dirs.rank[q]), cmp.Compare(a, b))
}

// turnUnit is the number of whole units that a radian of turning counts.
const turnUnit = 1e6

// rulerBreak is what it counts to leave a ruler line at a junction where it runs
// on: as much as a square corner in turn units, as the ruler has to be laid anew.
const rulerBreak int64 = 1570796

// turn returns the angle of the passage between darts a and b in turn units, 0
// where one of them has no direction.
func (w *walks) turn(a, b int32) int64 {
	p, q := w.graphDart(a), w.graphDart(b)
	if p < 0 || q < 0 {
		return 0
	}
	return int64(w.n.dirs.turn(p, q)*turnUnit + 0.5)
}

// cost is what the passage between a and b counts when passages are chosen: its
// turn, and the ruler lines it breaks off.
func (w *walks) cost(a, b int32) int64 {
	c := w.turn(a, b) + w.breaks(a, b) + w.breaks(b, a)
	if p, q := w.graphDart(a), w.graphDart(b); w.moves && p >= 0 && q >= 0 && w.n.breaks(p, q) {
		c += moveUnit
	}
	if w.blur > 0 {
		c += w.noise(min(a, b), max(a, b))
	}
	return c
}

// blurTurn is the most, in turn units, that a blur adds to a cost: half a turn.
const blurTurn = 3141593

// noise returns a number below blurTurn that depends on the passage and the blur
// alone (the finalizer of MurmurHash3 over their sum, Appleby, public domain).
func (w *walks) noise(a, b int32) int64 {
	h := uint32(a)*0x9e3779b1 + uint32(b)*0x85ebca77 + w.blur*0xc2b2ae3d
	h ^= h >> 16
	h *= 0x85ebca6b
	h ^= h >> 13
	h *= 0xc2b2ae35
	h ^= h >> 16
	return int64(h % blurTurn)
}

func (w *walks) breaks(a, b int32) int64 {
	p, q := w.graphDart(a), w.graphDart(b)
	if w.plain || p < 0 || w.n.dirs.onward[p] < 0 || w.n.dirs.onward[p] == q {
		return 0
	}
	return rulerBreak
}

// crosses tells whether the passages a-b and c-d at one junction cross.
func (w *walks) crosses(a, b, c, d int32) bool {
	p, q, r, s := w.place[a], w.place[b], w.place[c], w.place[d]
	if min(p, q, r, s) < 0 {
		return false
	}
	between := func(x int32) bool { return min(p, q) < x && x < max(p, q) }
	return between(r) != between(s)
}
