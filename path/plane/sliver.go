package plane

import (
	"math"

	"unthreaded/path/geom"
)

// sliver is a face whose two sides lie within the snap distance of each other,
// each of one chain. Both run from node a to node b.
type sliver struct {
	sides [2][]HalfEdge
	chain [2]int
	a, b  int
}

// touches tells whether an edge of the sliver is in the set.
func (s sliver) touches(edges map[int]bool) bool {
	for _, side := range s.sides {
		for _, h := range side {
			if edges[h.Edge()] {
				return true
			}
		}
	}
	return false
}

// slivers returns the slivers among the faces.
func (p *pieces) slivers(snap float64) []sliver {
	g := p.asGraph(p.list)
	var out []sliver
	for _, f := range Faces(g) {
		var round float64
		for _, h := range f.Walk {
			round += g.Edges[h.Edge()].Path.Length()
		}
		// Points of either side lie within snap of the other, so the face lies
		// in a band of width 2 snap along the shorter side.
		if f.Area > snap*round {
			continue
		}
		sides := p.sides(f.Walk)
		if len(sides) != 2 {
			continue
		}
		s := sliver{sides: [2][]HalfEdge{sides[0], p.backwards(sides[1])}}
		if !within(apart(p.path(s.sides[0]), p.path(s.sides[1]), snap), snap) {
			continue
		}
		for i, side := range s.sides {
			s.chain[i] = p.list[side[0].Edge()].chain
		}
		s.a, s.b = p.tail(sides[0][0]), p.tail(sides[1][0])
		out = append(out, s)
	}
	return out
}

// tail returns the node of pieces, not of a graph made from them, that h leaves.
func (p *pieces) tail(h HalfEdge) int {
	if h.Forward() {
		return p.list[h.Edge()].u
	}
	return p.list[h.Edge()].v
}

func (p *pieces) backwards(side []HalfEdge) []HalfEdge {
	out := make([]HalfEdge, len(side))
	for i, h := range side {
		out[len(side)-1-i] = h.Twin()
	}
	return out
}

// sides cuts a closed walk into stretches along one chain without a break.
func (p *pieces) sides(walk []HalfEdge) [][]HalfEdge {
	start := 0
	for start < len(walk) && p.goesOn(walk[(start+len(walk)-1)%len(walk)], walk[start]) {
		start++
	}
	if start == len(walk) {
		return nil
	}
	var out [][]HalfEdge
	for i := range walk {
		h := walk[(start+i)%len(walk)]
		if n := len(out); n > 0 && p.goesOn(out[n-1][len(out[n-1])-1], h) {
			out[n-1] = append(out[n-1], h)
		} else {
			out = append(out, []HalfEdge{h})
		}
	}
	return out
}

// goesOn tells whether h follows g along one chain, without a hairpin between.
func (p *pieces) goesOn(g, h HalfEdge) bool {
	a, b := p.list[g.Edge()], p.list[h.Edge()]
	if a.chain != b.chain || g.Forward() != h.Forward() || p.hairpins[tip{p.nodes[p.tail(h)], a.chain}] {
		return false
	}
	if !g.Forward() {
		a, b = b, a
	}
	// Equal but for the rounding in rename.
	return math.Abs(a.to-b.from) < 1e-9
}

// path returns the points in mm along a side.
func (p *pieces) path(side []HalfEdge) geom.Polyline {
	var out geom.Polyline
	for _, h := range side {
		e := p.list[h.Edge()]
		if !h.Forward() {
			e = e.reversed()
		}
		for _, q := range e.path {
			out = append(out, q.mm())
		}
	}
	return out.Compact()
}
