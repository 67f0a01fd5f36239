package plane

import (
	"math"

	"unthreaded/path/geom"
)

// stretch is a part of a chain, between two lengths walked along it.
type stretch struct {
	chain    int
	from, to float64
}

// spot is a place at which two chains, perhaps the same, are looked at.
type spot struct {
	at        gridPoint
	low, high int
}

func newSpot(at gridPoint, a, b int) spot { return spot{at, min(a, b), max(a, b)} }

// reportDoubles reports what lies exactly on a segment that was kept. It returns
// the spots at which such stretches start and end.
func (w *work) reportDoubles(winner map[[2]gridPoint]claim, snap float64) map[spot]bool {
	ends := map[spot]bool{}
	for id, c := range w.chains {
		var kept, lost stretch
		var start, last gridPoint
		open := false
		finish := func() {
			if open {
				w.reportDouble(kept, lost, snap)
				ends[newSpot(start, id, kept.chain)] = true
				ends[newSpot(last, id, kept.chain)] = true
			}
			open = false
		}
		for i := 0; i+1 < len(c.pts); i++ {
			win := winner[side(c.pts[i], c.pts[i+1])]
			if win == (claim{id, i}) {
				finish()
				continue
			}
			over := w.chains[win.chain]
			from, to := over.at[win.seg], over.at[win.seg+1]
			if !open || win.chain != kept.chain {
				finish()
				open = true
				kept = stretch{win.chain, from, to}
				lost = stretch{id, c.at[i], c.at[i+1]}
				start = c.pts[i]
			}
			last = c.pts[i+1]
			kept.from, kept.to = math.Min(kept.from, from), math.Max(kept.to, to)
			lost.to = c.at[i+1]
		}
		finish()
	}
	return ends
}

// reportDouble reports that lost was dropped in favour of kept.
func (w *work) reportDouble(kept, lost stretch, snap float64) {
	k, l := w.lines[w.chains[kept.chain].line], w.lines[w.chains[lost.chain].line]
	d := Double{
		Kept: k.name, KeptKind: k.kind, Dropped: l.name, DroppedKind: l.kind,
		Path: w.drawnPath(lost), Length: lost.to - lost.from,
	}
	if snap > 0 {
		// In whole grid steps, as nothing finer was drawn.
		d.Apart = math.Round(apart(w.drawnPath(kept), d.Path, math.Inf(1))*perMM) / perMM
	}
	w.res.Doubled = append(w.res.Doubled, d)
}

// drawnPath returns the points in mm of a stretch as it was drawn.
func (w *work) drawnPath(s stretch) geom.Polyline {
	c := w.drawn[s.chain]
	var out geom.Polyline
	for i := 0; i+1 < len(c.pts); i++ {
		if c.at[i+1] < s.from || c.at[i] > s.to || c.span(i) == 0 {
			continue
		}
		a, b := c.pts[i].mm(), c.pts[i+1].mm()
		out = append(out,
			geom.Lerp(a, b, math.Max(0, (s.from-c.at[i])/c.span(i))),
			geom.Lerp(a, b, math.Min(1, (s.to-c.at[i])/c.span(i))))
	}
	return out.Compact()
}

// apart returns the largest distance in mm from a point of either line to the
// other, or a value above limit where that is exceeded. The points tried are the
// vertices and the middles of the pieces of both. That is exact for straight
// pieces side by side; on finely flattened curves it errs by less than Sagitta.
// Cost O(n m).
func apart(a, b geom.Polyline, limit float64) float64 {
	worst := farthest(a, b, limit)
	if worst > limit {
		return worst
	}
	return math.Max(worst, farthest(b, a, limit))
}

// farthest returns the largest distance in mm from a point of a to b.
func farthest(a, b geom.Polyline, limit float64) float64 {
	worst := distance(a[0], b)
	for i := 1; i < len(a) && worst <= limit; i++ {
		worst = math.Max(worst, distance(a[i], b))
		worst = math.Max(worst, distance(geom.Lerp(a[i-1], a[i], 0.5), b))
	}
	return worst
}

// distance returns the distance in mm from p to a line of at least one point.
func distance(p geom.Point, to geom.Polyline) float64 {
	least := geom.Dist(p, to[0])
	for i := 1; i < len(to); i++ {
		_, q := geom.NearestOnSegment(p, to[i-1], to[i])
		least = math.Min(least, geom.Dist(p, q))
	}
	return least
}
