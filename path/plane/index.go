package plane

import "github.com/peterstace/simplefeatures/rtree"

// runLength is the number of neighbouring segments that share one entry of the
// index. Looking through a few boxes in a row costs less than a level of the
// tree: flattened curves are noded in four fifths of the time that 1 takes.
const runLength = 8

// run is a stretch of a chain, from segment low up to but not including high.
type run struct{ chain, low, high int }

// segmentIndex finds segments of chains by place.
type segmentIndex struct {
	chains []chain
	runs   []run
	tree   *rtree.RTree
}

func newSegmentIndex(chains []chain) segmentIndex {
	s := segmentIndex{chains: chains}
	var items []rtree.BulkItem
	for i, c := range chains {
		for low := 0; low+1 < len(c.pts); low += runLength {
			r := run{i, low, min(low+runLength, len(c.pts)-1)}
			items = append(items, rtree.BulkItem{Box: r.box(c), RecordID: len(s.runs)})
			s.runs = append(s.runs, r)
		}
	}
	s.tree = rtree.BulkLoad(items)
	return s
}

// box returns the upright box round a run of c.
func (r run) box(c chain) rtree.Box {
	lo, hi := c.pts[r.low], c.pts[r.low]
	for _, p := range c.pts[r.low : r.high+1] {
		lo = gridPoint{min(lo.x, p.x), min(lo.y, p.y)}
		hi = gridPoint{max(hi.x, p.x), max(hi.y, p.y)}
	}
	return box(lo, hi, 0)
}

// visit calls f for every segment whose upright box meets b.
func (s segmentIndex) visit(b rtree.Box, f func(chain, seg int)) {
	search(s.tree, b, func(i int) {
		r := s.runs[i]
		pts := s.chains[r.chain].pts
		for k := r.low; k < r.high; k++ {
			if o := box(pts[k], pts[k+1], 0); o.MinX <= b.MaxX && o.MaxX >= b.MinX && o.MinY <= b.MaxY && o.MaxY >= b.MinY {
				f(r.chain, k)
			}
		}
	})
}

// box returns the upright box round a and b, wider by pad on every side.
func box(a, b gridPoint, pad float64) rtree.Box {
	return rtree.Box{
		MinX: float64(min(a.x, b.x)) - pad, MinY: float64(min(a.y, b.y)) - pad,
		MaxX: float64(max(a.x, b.x)) + pad, MaxY: float64(max(a.y, b.y)) + pad,
	}
}

// pointTree indexes points.
func pointTree(pts []gridPoint) *rtree.RTree {
	items := make([]rtree.BulkItem, len(pts))
	for i, p := range pts {
		items[i] = rtree.BulkItem{Box: box(p, p, 0), RecordID: i}
	}
	return rtree.BulkLoad(items)
}

// search calls f with the index of each item whose box meets b. The library
// stops on an error, of which f has none to give.
func search(t *rtree.RTree, b rtree.Box, f func(i int)) {
	_ = t.RangeSearch(b, func(i int) error {
		f(i)
		return nil
	})
}
