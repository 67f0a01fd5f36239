package plane

import (
	"cmp"
	"math"
	"slices"

	"unthreaded/path/geom"
)

// HalfEdge is an edge walked one way: 2e walks edge e from U to V, 2e+1 from V
// to U.
type HalfEdge int

// Edge returns the index of the edge.
func (h HalfEdge) Edge() int { return int(h) / 2 }

// Forward tells whether the edge is walked from U to V.
func (h HalfEdge) Forward() bool { return h%2 == 0 }

// Twin returns the same edge walked the other way.
func (h HalfEdge) Twin() HalfEdge { return h ^ 1 }

// Face is a bounded part of the plane that no line enters.
type Face struct {
	// Walk goes once round the face, clockwise to the eye. A line that sticks
	// into the face is walked on both sides.
	Walk []HalfEdge
	// Area in mm^2, with that of pieces which lie loose inside.
	Area float64
}

// Tail returns the node that h leaves.
func (g Graph) Tail(h HalfEdge) int {
	if h.Forward() {
		return g.Edges[h.Edge()].U
	}
	return g.Edges[h.Edge()].V
}

// Head returns the node at which h arrives.
func (g Graph) Head(h HalfEdge) int { return g.Tail(h.Twin()) }

// Path returns the points of h in walking order.
func (g Graph) Path(h HalfEdge) geom.Polyline {
	if h.Forward() {
		return g.Edges[h.Edge()].Path
	}
	return g.Edges[h.Edge()].Path.Reversed()
}

// Rotation returns for each node the half-edges that leave it, clockwise to the
// eye, by the direction of their first piece. In a graph from Build no two of a
// node have the same direction. Cost O(n log n).
func (g Graph) Rotation() [][]HalfEdge {
	angle := make([]float64, 2*len(g.Edges))
	out := make([][]HalfEdge, len(g.Nodes))
	for i, e := range g.Edges {
		n := len(e.Path)
		angle[2*i] = bearing(e.Path[0], e.Path[1])
		angle[2*i+1] = bearing(e.Path[n-1], e.Path[n-2])
		out[e.U] = append(out[e.U], HalfEdge(2*i))
		out[e.V] = append(out[e.V], HalfEdge(2*i+1))
	}
	for _, at := range out {
		slices.SortStableFunc(at, func(a, b HalfEdge) int { return cmp.Compare(angle[a], angle[b]) })
	}
	return out
}

func bearing(a, b geom.Point) float64 { return math.Atan2(b.Y-a.Y, b.X-a.X) }

// Components returns the number of connected pieces and for each node the piece
// it belongs to. Cost O(nodes + edges).
func (g Graph) Components() (of []int, count int) {
	next := make([][]int, len(g.Nodes))
	for _, e := range g.Edges {
		next[e.U] = append(next[e.U], e.V)
		next[e.V] = append(next[e.V], e.U)
	}
	of = make([]int, len(g.Nodes))
	for i := range of {
		of[i] = -1
	}
	for i := range of {
		if of[i] >= 0 {
			continue
		}
		of[i] = count
		for queue := []int{i}; len(queue) > 0; queue = queue[1:] {
			for _, n := range next[queue[0]] {
				if of[n] < 0 {
					of[n] = count
					queue = append(queue, n)
				}
			}
		}
		count++
	}
	return of, count
}

// Odd returns the nodes at which an odd number of lines that must be sewn end; a
// loop ends twice. Cost O(nodes + edges).
func (g Graph) Odd() []int {
	ends := make([]int, len(g.Nodes))
	for _, e := range g.Edges {
		if e.Kind.Must() {
			ends[e.U]++
			ends[e.V]++
		}
	}
	var odd []int
	for i, n := range ends {
		if n%2 == 1 {
			odd = append(odd, i)
		}
	}
	return odd
}

// Faces returns the bounded faces of a plane graph, found by walking each line on
// both sides: each connected piece has one outer walk, of which the area is the
// least, and the others are faces. Euler: V - E + F = 1 + C, with the unbounded
// face counted in F. Cost O(n log n).
func Faces(g Graph) []Face {
	walks := g.walks()
	of, count := g.Components()
	outer := make([]int, count)
	for i := range outer {
		outer[i] = -1
	}
	for i, w := range walks {
		c := of[g.Tail(w.Walk[0])]
		if outer[c] < 0 || w.Area < walks[outer[c]].Area {
			outer[c] = i
		}
	}
	var faces []Face
	for i, w := range walks {
		if c := of[g.Tail(w.Walk[0])]; outer[c] != i {
			faces = append(faces, w)
		}
	}
	return faces
}

// walks returns every walk that keeps turning into the next line on the same
// side, each half-edge in exactly one, with its signed area.
func (g Graph) walks() []Face {
	rotation := g.Rotation()
	place := make([]int, 2*len(g.Edges))
	for _, at := range rotation {
		for i, h := range at {
			place[h] = i
		}
	}
	seen := make([]bool, 2*len(g.Edges))
	var out []Face
	for start := range seen {
		var f Face
		for h := HalfEdge(start); !seen[h]; {
			seen[h] = true
			f.Walk = append(f.Walk, h)
			at := rotation[g.Head(h)]
			h = at[(place[h.Twin()]+len(at)-1)%len(at)]
		}
		if f.Walk != nil {
			f.Area = g.area(f.Walk)
			out = append(out, f)
		}
	}
	return out
}

// area returns the area that a closed walk encloses, positive for clockwise to
// the eye, by the shoelace formula round the walk's first point.
func (g Graph) area(walk []HalfEdge) float64 {
	o := g.Nodes[g.Tail(walk[0])]
	var sum float64
	for _, h := range walk {
		path := g.Edges[h.Edge()].Path
		var part float64
		for i := 1; i < len(path); i++ {
			p, q := path[i-1], path[i]
			part += (p.X-o.X)*(q.Y-o.Y) - (q.X-o.X)*(p.Y-o.Y)
		}
		if !h.Forward() {
			part = -part
		}
		sum += part
	}
	return sum / 2
}
