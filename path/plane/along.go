package plane

import (
	"cmp"
	"math"
	"slices"
)

// pieceEnd is the u end (0) or the v end (1) of a piece.
type pieceEnd struct{ piece, end int }

// sameMark is the difference in mm at which two marks on a chain are one: sums of
// lengths differ by less, and two junctions of a chain lie farther apart.
const sameMark = 1e-5

// placeAlong gives each edge its part of the stroke and its place there. Two pieces
// belong to one part where the same chain leads out of the one into the other, so
// that a line which crosses itself is followed as it was drawn. A part runs the way
// of its piece that was drawn first. Cost O(pieces log pieces).
func (p *pieces) placeAlong(list []piece, edges []Edge) {
	next := p.links(list)
	order := make([]int, len(list))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		x, y := list[a].ends[0], list[b].ends[0]
		return cmp.Or(cmp.Compare(x.chain, y.chain), cmp.Compare(x.at, y.at))
	})
	parts := map[int]int{} // by line
	placed := make([]bool, len(list))
	for _, first := range order {
		if placed[first] {
			continue
		}
		part := parts[list[first].line]
		parts[list[first].line]++
		at := 0.0
		for here := beginning(first, next); !placed[here.piece]; {
			e := &edges[here.piece]
			placed[here.piece] = true
			e.Part, e.From, e.To = part, at, at+e.Length
			if here.end == 1 {
				e.From, e.To = e.To, e.From
			}
			at += e.Length
			onward, linked := next[pieceEnd{here.piece, 1 - here.end}]
			if !linked {
				break
			}
			here = onward
		}
	}
}

// beginning returns the end of a piece at which the part of piece first begins,
// walked so that first runs from u to v.
func beginning(first int, next map[pieceEnd]pieceEnd) pieceEnd {
	here := pieceEnd{first, 0}
	for {
		before, linked := next[here]
		if !linked {
			return here
		}
		here = pieceEnd{before.piece, 1 - before.end}
		if here.piece == first {
			return pieceEnd{first, 0}
		}
	}
}

// links returns for each end of a piece the end in which its line goes on.
func (p *pieces) links(list []piece) map[pieceEnd]pieceEnd {
	type place struct{ node, chain int }
	at := map[place][]pieceEnd{}
	for i, e := range list {
		for k, node := range [2]int{e.u, e.v} {
			key := place{node, e.ends[k].chain}
			at[key] = append(at[key], pieceEnd{i, k})
		}
	}
	next := map[pieceEnd]pieceEnd{}
	for key, ends := range at {
		for i, a := range ends {
			for _, b := range ends[:i] {
				_, taken := next[a]
				if _, other := next[b]; taken || other || !p.joins(key.chain, list[a.piece].ends[a.end], list[b.piece].ends[b.end]) {
					continue
				}
				next[a], next[b] = b, a
			}
		}
	}
	return next
}

// joins tells whether two marks on a chain are one place; a closed chain begins
// where it ends.
func (p *pieces) joins(chain int, a, b mark) bool {
	gap := math.Abs(a.at - b.at)
	if c := p.w.chains[chain]; c.closed() {
		gap = math.Min(gap, c.length()-gap)
	}
	return gap < sameMark
}
