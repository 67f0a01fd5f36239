package plane

import (
	"cmp"
	"slices"

	"github.com/peterstace/simplefeatures/rtree"
)

// node returns the chains with a vertex at every place where they cross or touch,
// so that two pieces have nothing in common but end points, or are the same.
//
// This is snap rounding (Hobby, Comput. Geom. 13, 1999): the pixels that hold a
// vertex or a crossing are hot, and every segment that passes through a hot pixel
// is led through its centre. It moves nothing by more than 1/sqrt2 of Grid and
// lets no line pass over a vertex. The pieces are looked at again until none passes
// through another hot pixel (iterated snap rounding: Halperin & Packer, Comput.
// Geom. 23, 2002), so that noding a second time changes nothing.
//
// All tests are exact. Cost O((n + k) log n) for n segments and k crossings, as
// long as few segments are long.
func node(chains []chain) []chain {
	hot := newHotPixels(chains)
	out := make([]chain, len(chains))
	for i, c := range chains {
		d := chain{line: c.line, pts: []gridPoint{c.first()}, at: []float64{c.at[0]}}
		for j := 0; j+1 < len(c.pts); j++ {
			hot.lead(&d, c.pts[j], c.pts[j+1], c.at[j], c.at[j+1])
		}
		out[i] = d
	}
	return out
}

// hotPixels are the pixels that hold a vertex or a crossing.
type hotPixels struct {
	vertices  segmentIndex
	crossings []gridPoint
	tree      *rtree.RTree
}

func newHotPixels(chains []chain) hotPixels {
	h := hotPixels{vertices: newSegmentIndex(chains)}
	h.crossings = h.vertices.crossings()
	slices.SortFunc(h.crossings, comparePoints)
	h.crossings = slices.Compact(h.crossings)
	h.tree = pointTree(h.crossings)
	return h
}

func comparePoints(p, q gridPoint) int {
	switch {
	case p.less(q):
		return -1
	case q.less(p):
		return 1
	}
	return 0
}

// lead appends to c the way from a, where it stands, to b through all hot pixels
// between; atA and atB are the true lengths walked there.
func (h hotPixels) lead(c *chain, a, b gridPoint, atA, atB float64) {
	hits := h.between(a, b)
	if len(hits) == 0 {
		c.pts = append(c.pts, b)
		c.at = append(c.at, atB)
		return
	}
	// Lengths are shared out by those of the way led, not of its projection, so
	// that no piece is left with none.
	way := make([]float64, len(hits)+1)
	from, sum := a, 0.0
	for i, p := range append(hits, b) {
		sum += from.gap(p)
		from, way[i] = p, sum
	}
	from, at := a, atA
	for i, p := range hits {
		next := atA + (atB-atA)*way[i]/sum
		h.lead(c, from, p, at, next)
		from, at = p, next
	}
	h.lead(c, from, b, at, atB)
}

// between returns the hot pixels other than a and b that the segment a-b passes
// through, in order. The order is that of their centres along the segment:
// pixels are squares side by side, so a segment that leaves one for another
// gets ahead in the direction from centre to centre.
func (h hotPixels) between(a, b gridPoint) []gridPoint {
	var hits []gridPoint
	try := func(p gridPoint) {
		if p != a && p != b && p.hitBy(a, b) {
			hits = append(hits, p)
		}
	}
	place := box(a, b, 0)
	search(h.tree, place, func(i int) { try(h.crossings[i]) })
	h.vertices.visit(place, func(chain, seg int) {
		try(h.vertices.chains[chain].pts[seg])
		try(h.vertices.chains[chain].pts[seg+1])
	})
	slices.SortFunc(hits, func(p, q gridPoint) int {
		return cmp.Compare(dot(a, b, p), dot(a, b, q))
	})
	return slices.Compact(hits)
}

// crossings returns the grid points to which the crossings of segments round,
// each at least once. Places where a segment merely touches a vertex need no
// mention: the vertex is hot already.
func (s segmentIndex) crossings() []gridPoint {
	var out []gridPoint
	for _, r := range s.runs {
		own := s.chains[r.chain].pts
		s.visit(r.box(s.chains[r.chain]), func(chain, seg int) {
			if chain < r.chain || chain == r.chain && seg < r.low {
				return
			}
			c, d := s.chains[chain].pts[seg], s.chains[chain].pts[seg+1]
			for k := r.low; k < r.high; k++ {
				if p, ok := crossing(own[k], own[k+1], c, d); ok {
					out = append(out, p)
				}
			}
		})
	}
	return out
}
