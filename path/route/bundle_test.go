package route

import (
	"testing"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// Three lines that leave a junction in one direction stand in the order in which they
// bend, clockwise to the eye (y downwards): the one that bends up, the straight one, the
// one that bends down.
func TestTangentLinesStandInTheOrderOfTheirBends(t *testing.T) {
	paths := []geom.Polyline{
		geom.MustParse("M 0 0 L 0.2 0 L 5 2"),  // down: to the right hand
		geom.MustParse("M 0 0 L 0.2 0 L 5 -2"), // up: to the left hand
		geom.MustParse("M 0 0 L 0.2 0 L 5 0"),
	}
	g := plane.Graph{Nodes: make(geom.Polyline, 4)}
	for i, p := range paths {
		g.Edges = append(g.Edges, plane.Edge{U: 0, V: i + 1, Path: p})
	}
	c := newCompass(g)
	if up, straight, down := c.rank[2], c.rank[4], c.rank[0]; !(up < straight && straight < down) {
		t.Errorf("ranks: up %d, straight %d, down %d", up, straight, down)
	}
}
