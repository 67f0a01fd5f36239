package order

import (
	"fmt"
	"math"
	"slices"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// net is the seams of the whole top, along which the needle goes from place to place.
type net struct{ g plane.Graph }

// newNet joins the outlines of all places.
func newNet(places []laid) (net, error) {
	var strokes []plane.Stroke
	for i, l := range places {
		for k, side := range l.cell.Shape.OutlinePieces() {
			strokes = append(strokes, plane.Stroke{Name: fmt.Sprint(i, " ", k), Kind: plane.Seam, Path: l.cell.Where.Path(side.Path)})
		}
	}
	built, err := plane.Build(strokes, plane.Options{SnapMM: plane.DefaultSnap})
	if err != nil {
		return net{}, fmt.Errorf("the seams of the top: %w", err)
	}
	return net{g: built.Graph}, nil
}

// way returns the shortest way along seams between two places on the top, false where
// one of them lies on no seam. Cost O(seams^2).
func (n net) way(p, q geom.Point) (geom.Polyline, bool) {
	g, from := n.g.WithNode(p, onRim)
	if from < 0 || geom.Dist(g.Nodes[from], p) > onRim+plane.DefaultSnap {
		return nil, false
	}
	g, to := g.WithNode(q, onRim)
	if geom.Dist(g.Nodes[to], q) > onRim+plane.DefaultSnap {
		return nil, false
	}
	dist := make([]float64, len(g.Nodes))
	back := make([]int, len(g.Nodes))
	done := make([]bool, len(g.Nodes))
	for v := range dist {
		dist[v], back[v] = math.Inf(1), -1
	}
	dist[from] = 0
	at := make([][]int, len(g.Nodes))
	for i, e := range g.Edges {
		at[e.U], at[e.V] = append(at[e.U], i), append(at[e.V], i)
	}
	for {
		v := -1
		for w := range dist {
			if !done[w] && !math.IsInf(dist[w], 1) && (v < 0 || dist[w] < dist[v]) {
				v = w
			}
		}
		if v < 0 {
			return nil, false
		}
		if v == to {
			break
		}
		done[v] = true
		for _, i := range at[v] {
			e := g.Edges[i]
			if w := e.U + e.V - v; dist[v]+e.Length < dist[w] {
				dist[w], back[w] = dist[v]+e.Length, i
			}
		}
	}
	var out geom.Polyline
	for v := to; v != from; {
		e := g.Edges[back[v]]
		leg := e.Path // towards v, to be turned round at the end
		if e.V == v {
			leg = leg.Reversed()
		}
		out = append(out, leg...)
		v = e.U + e.V - v
	}
	slices.Reverse(out)
	return out.Compact(), true
}
