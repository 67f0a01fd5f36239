package sketch

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// Beside a square walked clockwise (to the eye) the edge inside is a square smaller
// by the offset all round, that outside one larger: elementary geometry.
func TestRulerEdgesOfASquare(t *testing.T) {
	square := geom.Straight(geom.MustParse("M 0 0 L 50 0 L 100 0 L 100 100 L 0 100 Z"))
	for side, want := range map[Side]float64{Right: 100 - 2*FootOffset, Left: 100 + 2*FootOffset} {
		edges, err := RulerEdges(square, FootOffset, side)
		if err != nil || len(edges) != 4 {
			t.Fatalf("%d edges (%v), expected 4: the first two pieces are one part", len(edges), err)
		}
		for i, e := range edges {
			next := edges[(i+1)%4]
			if math.Abs(geom.Dist(e.From, e.To)-want) > 1e-9 || geom.Dist(e.To, next.From) > 1e-9 || e.NoRoom {
				t.Errorf("side %d, edge %d: %+v, expected %v mm long and to meet the next", side, i, e, want)
			}
		}
		if side == Right && geom.Dist(edges[0].From, geom.Pt(FootOffset, FootOffset)) > 1e-9 {
			t.Errorf("the inner corner lies at %v", edges[0].From)
		}
	}
}

// Every edge is parallel to its part at the offset, and where two meet in a pivot
// both ends lie at the offset from both lines.
func TestRulerEdgesLieAtTheOffset(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		turn := rapid.Float64Range(-2.4, 2.4).Draw(rt, "turn")
		offset := rapid.Float64Range(1, 12).Draw(rt, "offset")
		side := rapid.SampledFrom([]Side{Left, Right}).Draw(rt, "side")
		a, b := geom.Pt(0, 0), geom.Pt(100, 0)
		c := geom.Pt(100+100*math.Cos(turn), 100*math.Sin(turn))
		edges, err := RulerEdges(geom.Straight(geom.Polyline{a, b, c}), offset, side)
		if err != nil {
			rt.Fatal(err)
		}
		if math.Abs(turn) < runsOn {
			return
		}
		for i, ends := range [][2]geom.Point{{a, b}, {b, c}} {
			for _, p := range []geom.Point{edges[i].From, edges[i].To} {
				d := geom.Pt(ends[1].X-ends[0].X, ends[1].Y-ends[0].Y)
				off := (d.X*(p.Y-ends[0].Y) - d.Y*(p.X-ends[0].X)) / 100
				if math.Abs(off-offset*float64(side)) > 1e-9 {
					rt.Fatalf("edge %d lies %v mm to the right, expected %v on side %d", i, off, offset, side)
				}
			}
		}
		if geom.Dist(edges[0].To, edges[1].From) > 1e-6 {
			rt.Fatalf("turn %v: the edges end at %v and %v", turn, edges[0].To, edges[1].From)
		}
		if ends := []geom.Point{edges[0].From, edges[1].To}; geom.Dist(ends[0], a)-offset > 1e-9 || geom.Dist(ends[1], c)-offset > 1e-9 {
			rt.Fatalf("the free ends are not square to the line: %v", ends)
		}
	})
}

func TestRulerEdgesAtSharpTurnsAndCurves(t *testing.T) {
	spike := geom.Straight(geom.MustParse("M 0 0 L 100 0 L 0 4"))
	edges, err := RulerEdges(spike, 5, Left)
	if err != nil || geom.Dist(edges[0].To, geom.Pt(100, -5)) > 1e-9 {
		t.Errorf("outside a spike the edge ends at %v, expected square to the pivot (%v)", edges[0].To, err)
	}
	edges, err = RulerEdges(spike, 5, Right)
	if err != nil || !edges[0].NoRoom || edges[0].From != edges[0].To {
		t.Errorf("inside a spike: %+v, expected no room (%v)", edges[0], err)
	}
	curve := append(geom.Straight(geom.MustParse("M 0 0 L 50 0")), geom.Pt(80, 0), geom.Pt(80, 30), geom.Pt(80, 60)).LineTo(geom.Pt(80, 99))
	edges, err = RulerEdges(curve, 6, Right)
	if err != nil || len(edges) != 2 || edges[0].Last != 0 || edges[1].First != 2 || math.Abs(geom.Dist(edges[1].From, edges[1].To)-39) > 1e-9 {
		t.Errorf("a curve between straight parts: %+v (%v)", edges, err)
	}
	for name, f := range map[string]func() error{
		"offset": func() error { _, err := RulerEdges(spike, -1, Left); return err },
		"side":   func() error { _, err := RulerEdges(spike, 5, 0); return err },
		"line":   func() error { _, err := RulerEdges(nil, 5, Left); return err },
	} {
		if f() == nil {
			t.Errorf("bad %s: no error", name)
		}
	}
}
