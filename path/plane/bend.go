package plane

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// bendReach is the distance in snap distances over which a line is bent when
// one of its points is moved: a move by the whole snap distance turns it by
// atan(1/bendReach), 7 degrees, where moving the point alone could turn the
// last chord of a curve by 45.
const bendReach = 8

// joiner leads chains through the common points of clusters.
type joiner struct {
	snap float64
	sets []cluster
	// of tells the cluster of a vertex.
	of map[gridPoint]int
}

// stop is a run of vertices of a chain, from index i to k, that becomes the
// common point of a cluster.
type stop struct {
	i, k int
	to   gridPoint
	at   float64
	// clear is the distance in mm round the point within which only straight
	// spokes are left, so that bending makes no new near misses there.
	clear float64
}

// bend returns the chain with its nodes moved to the points of their clusters
// and the rest bent to follow. What stands out beyond a cluster at either end
// is left off: the length walked then starts above or ends below that of c. It
// returns fewer than two points if all of c lies within one cluster.
func (j joiner) bend(c chain) chain {
	stops := j.stops(c)
	if s := stops[0]; s.i == 0 && s.k == len(c.pts)-1 {
		return chain{line: c.line}
	}
	d := chain{line: c.line}
	for n, s := range stops {
		d.add(s.to, s.at)
		if n+1 < len(stops) {
			j.bendBetween(&d, c, s, stops[n+1])
		}
	}
	d.finish(stops[len(stops)-1].at)
	return d
}

// stops returns the nodes of the chain in order; nodes of one cluster that
// follow each other without leaving it are one stop.
func (j joiner) stops(c chain) []stop {
	var out []stop
	last := -1
	for i, p := range c.pts {
		set, ok := j.of[p]
		if !ok {
			continue
		}
		if n := len(out) - 1; n >= 0 && set == last && j.stays(c, out[n].k, i, set) {
			out[n].k = i
		} else {
			s := stop{i: i, k: i, to: j.sets[set].at}
			if j.sets[set].joined() {
				s.clear = j.snap
			}
			out = append(out, s)
		}
		last = set
	}
	end := len(c.pts) - 1
	for n := range out {
		s := &out[n]
		switch {
		case s.i == 0 && c.closed():
			s.at = c.at[0]
		case s.k == end && c.closed():
			s.at = c.at[end]
		case s.i == 0:
			s.at = c.at[s.k]
		case s.k == end:
			s.at = c.at[s.i]
		default:
			s.at = (c.at[s.i] + c.at[s.k]) / 2
		}
	}
	return out
}

// stays tells whether the vertices from i to k lie within the snap distance of
// the cluster's point.
func (j joiner) stays(c chain, i, k, set int) bool {
	for _, p := range c.pts[i : k+1] {
		if !within(p.gap(j.sets[set].at), j.snap) {
			return false
		}
	}
	return true
}

// bendBetween appends the vertices between two stops, each moved along with the
// stops by a share that falls off with the distance from them.
func (j joiner) bendBetween(d *chain, c chain, s, t stop) {
	pts := c.pts[s.k : t.i+1]
	way := make([]float64, len(pts))
	for i := 1; i < len(pts); i++ {
		way[i] = way[i-1] + pts[i].gap(pts[i-1])
	}
	end := len(pts) - 1
	reach := math.Min(bendReach*j.snap, way[end])
	a, b := r2.Sub(s.to.mm(), pts[0].mm()), r2.Sub(t.to.mm(), pts[end].mm())
	low, high := 1, end
	for low < high && within(pts[low].gap(s.to), s.clear) {
		low++
	}
	for low < high && within(pts[high-1].gap(t.to), t.clear) {
		high--
	}
	for i := low; i < high; i++ {
		u := math.Max(0, 1-way[i]/reach)
		v := math.Max(0, 1-(way[end]-way[i])/reach)
		p := r2.Add(pts[i].mm(), r2.Add(r2.Scale(u, a), r2.Scale(v, b)))
		d.add(toGrid(p), c.at[s.k+i])
	}
}
