package plane

import (
	"fmt"
	"math"
	"testing"

	"unthreaded/path/geom"
)

// A grid of m x n junctions has 2(m-2) + 2(n-2) odd ones, on its sides, and
// (m-1)(n-1) square faces (counted by hand).
func TestGrid(t *testing.T) {
	for _, c := range [][2]int{{2, 2}, {3, 4}, {5, 5}} {
		m, n := c[0], c[1]
		var s []Stroke
		for i := 0; i < m; i++ {
			s = append(s, sewn(fmt.Sprint("upright ", i), fmt.Sprintf("M %d 0 L %d %d", 10*i, 10*i, 10*(n-1))))
		}
		for i := 0; i < n; i++ {
			s = append(s, sewn(fmt.Sprint("level ", i), fmt.Sprintf("M 0 %d L %d %d", 10*i, 10*(m-1), 10*i)))
		}
		r := mustBuild(t, s, DefaultSnap)
		if got, want := len(r.Odd()), 2*(m-2)+2*(n-2); got != want {
			t.Errorf("%d x %d: %d odd junctions, want %d", m, n, got, want)
		}
		if got, want := len(r.Faces), (m-1)*(n-1); got != want {
			t.Errorf("%d x %d: %d faces, want %d", m, n, got, want)
		}
		for i, f := range r.Faces {
			if math.Abs(f.Area-100) > 1e-6 || len(f.Walk) != 4 {
				t.Errorf("%d x %d: face %d has area %v and %d sides", m, n, i, f.Area, len(f.Walk))
			}
		}
	}
}

// Two circles of radius r at distance d share a lens of area
// 2 r^2 acos(d/2r) - d/2 sqrt(4r^2 - d^2) (Weisstein, "Circle-Circle
// Intersection", MathWorld; cited from memory); each crescent is the rest of
// its circle.
func TestLens(t *testing.T) {
	const r, d = 20.0, 15.0
	res := mustBuild(t, []Stroke{
		{Name: "left", Kind: Sewn, Path: geom.Arc(geom.Pt(0, 0), r, 0, 2*math.Pi)},
		{Name: "right", Kind: Sewn, Path: geom.Arc(geom.Pt(d, 0), r, 0, 2*math.Pi)},
	}, 0)
	lens := 2*r*r*math.Acos(d/2/r) - d/2*math.Sqrt(4*r*r-d*d)
	crescent := math.Pi*r*r - lens
	var total float64
	for _, f := range res.Faces {
		total += f.Area
		if math.Min(math.Abs(f.Area-lens), math.Abs(f.Area-crescent)) > 1 {
			t.Errorf("a face of area %v, want %v or %v", f.Area, lens, crescent)
		}
	}
	if len(res.Faces) != 3 || math.Abs(total-lens-2*crescent) > 2 {
		t.Errorf("%d faces of together %v mm^2, want 3 of %v", len(res.Faces), total, lens+2*crescent)
	}
}

// Round every node the half-edges turn one way and no two point the same way;
// every half-edge lies in one walk, and Tail, Head and Path agree.
func TestRotation(t *testing.T) {
	for file, in := range instances(t) {
		g := mustBuild(t, in.strokes(true), in.Snap).Graph
		for n, at := range g.Rotation() {
			for i, h := range at {
				path := g.Path(h)
				if g.Tail(h) != n || path[0] != g.Nodes[n] || path[len(path)-1] != g.Nodes[g.Head(h)] || g.Head(h.Twin()) != n {
					t.Fatalf("%s: node %d: half-edge %d does not start there", file, n, h)
				}
				if i > 0 {
					a, b := g.Path(at[i-1]), path
					if bearing(a[0], a[1]) >= bearing(b[0], b[1]) {
						t.Errorf("%s: node %d: half-edges %d and %d are not in order", file, n, at[i-1], h)
					}
				}
			}
		}
		seen := map[HalfEdge]bool{}
		for _, w := range g.walks() {
			for _, h := range w.Walk {
				if seen[h] {
					t.Errorf("%s: half-edge %d lies in two walks", file, h)
				}
				seen[h] = true
			}
		}
		if len(seen) != 2*len(g.Edges) {
			t.Errorf("%s: %d half-edges walked, want %d", file, len(seen), 2*len(g.Edges))
		}
	}
}

func TestWithNode(t *testing.T) {
	g := mustBuild(t, []Stroke{
		{Name: "arch", Kind: Ruler, Block: "A", Length: 60, Path: geom.MustParse("M 0 0 L 0 10 L 20 10 L 20 0")}}, 0).Graph
	cut, n := g.WithNode(geom.Pt(5, 14), DefaultSnap)
	if n != 2 || cut.Nodes[n] != geom.Pt(5, 10) || len(cut.Edges) != 2 {
		t.Fatalf("cut at node %d: %+v", n, cut)
	}
	a, b := cut.Edges[0], cut.Edges[1]
	if a.Length != 22.5 || b.Length != 37.5 || a.V != n || b.U != n || a.Block != "A" || b.Kind != Ruler ||
		geom.Format(a.Path) != "M 0 0 L 0 10 L 5 10" || geom.Format(b.Path) != "M 5 10 L 20 10 L 20 0" {
		t.Errorf("halves %+v and %+v", a, b)
	}
	if len(g.Edges) != 1 || len(g.Nodes) != 2 {
		t.Error("the graph itself was changed")
	}
	if same, n := cut.WithNode(geom.Pt(5.1, 30), DefaultSnap); n != 2 || len(same.Edges) != 2 {
		t.Errorf("a second node was made beside the first: %d", n)
	}
	if _, n := g.WithNode(geom.Pt(-3, -4), 0); n != 0 {
		t.Errorf("the nearest place is node 0, got %d", n)
	}
	if _, n := (Graph{}).WithNode(geom.Pt(0, 0), 1); n != -1 {
		t.Errorf("an empty graph gave node %d", n)
	}
}
