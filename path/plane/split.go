package plane

import (
	"math"
	"slices"

	"unthreaded/path/geom"
)

// WithNode returns the graph with a node at the place on its lines that is
// nearest to p, and the index of that node: a start, an exit or a dot of a ruler
// line need not be a junction. A node within snap mm of that place is used
// instead. Other nodes and edges keep their index; the second half of a
// cut edge comes last. A graph without edges is returned as it is, with -1.
// g is not changed. Cost O(points).
func (g Graph) WithNode(p geom.Point, snap float64) (Graph, int) {
	edge, piece, at := g.nearest(p)
	if edge < 0 {
		return g, -1
	}
	for i, n := range g.Nodes {
		if geom.Dist(n, at) <= math.Max(snap, Grid) {
			return g, i
		}
	}
	e := g.Edges[edge]
	first := append(slices.Clone(e.Path[:piece+1]), at).Compact()
	second := append(geom.Polyline{at}, e.Path[piece+1:]...).Compact()
	share := first.Length() / (first.Length() + second.Length())
	n := len(g.Nodes)
	out := Graph{Nodes: append(slices.Clone(g.Nodes), at), Edges: slices.Clone(g.Edges)}
	a, b := e, e
	a.V, a.Path, a.Length = n, first, e.Length*share
	b.U, b.Path, b.Length = n, second, e.Length-a.Length
	a.To = e.From + share*(e.To-e.From)
	b.From = a.To
	out.Edges[edge] = a
	out.Edges = append(out.Edges, b)
	return out, n
}

// nearest returns the edge nearest to p, the piece of its path and the place
// there; edge -1 if there is none.
func (g Graph) nearest(p geom.Point) (edge, piece int, at geom.Point) {
	edge = -1
	least := math.Inf(1)
	for i, e := range g.Edges {
		for k := 1; k < len(e.Path); k++ {
			_, q := geom.NearestOnSegment(p, e.Path[k-1], e.Path[k])
			if d := geom.Dist(p, q); d < least {
				least, edge, piece, at = d, i, k-1, q
			}
		}
	}
	return edge, piece, at
}
