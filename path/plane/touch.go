package plane

import (
	"math"

	"unthreaded/path/geom"
)

// touches returns the corners that lie within snap mm of a line, yet not on it:
// the point of a diamond beside a line. A corner is a place that was meant, as an
// end is; smooth lines that pass each other have none. Cost O(n log n) while
// corners keep their distance.
func (s segmentIndex) touches(snap float64) []gridPoint {
	var out []gridPoint
	for i, c := range s.chains {
		for k := 1; k < len(c.pts)-1; k++ {
			if c.turn(k) >= geom.CornerTurn && s.misses(i, k, snap) {
				out = append(out, c.pts[k])
			}
		}
	}
	return out
}

// turn returns the angle in radians by which the chain turns at inner vertex i,
// without its sign.
func (c chain) turn(i int) float64 {
	return math.Abs(geom.TurnAngle(c.pts[i-1].mm(), c.pts[i].mm(), c.pts[i+1].mm()))
}

// misses tells whether a segment lies within snap mm of a vertex but not on it,
// leaving out those by which the vertex's own chain leaves it.
func (s segmentIndex) misses(chain, vertex int, snap float64) bool {
	at := s.chains[chain].pts[vertex]
	low, high := s.chains[chain].ownRun(vertex, at, snap)
	found := false
	s.visit(box(at, at, snap*perMM), func(other, seg int) {
		if found || other == chain && seg >= low && seg <= high {
			return
		}
		pts := s.chains[other].pts
		_, q := geom.NearestOnSegment(at.mm(), pts[seg].mm(), pts[seg+1].mm())
		gap := geom.Dist(at.mm(), q)
		found = gap > Grid/2 && within(gap, snap)
	})
	return found
}

// ownRun returns the first and the last segment by which the chain leaves the
// disc of snap mm round at, starting inside it at vertex i.
func (c chain) ownRun(i int, at gridPoint, snap float64) (low, high int) {
	last := len(c.pts) - 1
	for low = i; low > 0; low-- {
		if low < i && !within(c.pts[low].gap(at), snap) {
			break
		}
	}
	for high = i; high < last; high++ {
		if high > i && !within(c.pts[high].gap(at), snap) {
			break
		}
	}
	return low, high - 1
}
