package route

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// The pieces to rehearse are as long as the lines that their steps walk, begin
// and end where they do, and there is one more than stops.
func TestPieces(t *testing.T) {
	d := drawing{columns: 4, rows: 3, seams: true, jumps: true, most: 24}
	rapid.Check(t, func(rt *rapid.T) {
		g := d.draw(rt)
		rules := d.drawRules(rt, g)
		r, err := Solve(g, rules)
		if err != nil {
			return
		}
		pieces, err := r.Pieces(g)
		if err != nil {
			rt.Fatal(err)
		}
		stops := 0
		for i, s := range r.Steps {
			if s.Way == Jump && i > 0 && i < len(r.Steps)-1 && r.Steps[i-1].Way != Jump {
				stops++
			}
		}
		if len(pieces) != stops+1 {
			rt.Fatalf("%d pieces with %d stops", len(pieces), stops)
		}
		for _, p := range pieces {
			end := 0.0
			for _, s := range p.Stretches {
				step := r.Steps[s.Step]
				length := g.Edges[step.Edge].Path.Length()
				if math.Abs(s.From-end) > 1e-5 || math.Abs(s.To-s.From-length) > 1e-5 || s.Way != step.Way {
					rt.Fatalf("step %d of %v mm lies at %v to %v, after %v", s.Step, length, s.From, s.To, end)
				}
				if geom.Dist(p.Line.At(s.From), g.Nodes[step.From]) > 1e-5 || geom.Dist(p.Line.At(s.To), g.Nodes[step.To]) > 1e-5 {
					rt.Fatalf("step %d does not lie between its junctions", s.Step)
				}
				end = s.To
			}
			if math.Abs(p.Line.Length()-end) > 1e-5 || len(p.Line.Dots) > 0 {
				rt.Fatalf("a piece of %v mm with stretches up to %v and dots %v", p.Line.Length(), end, p.Line.Dots)
			}
		}
	})
}

// star draws a ruler star of two long lines that cross in a junction, their ends
// joined in pairs by a third and a fourth: a bow tie. A curved sewn line may join
// two of its ends.
func star(kind plane.Kind) plane.Graph {
	g := plane.Graph{Nodes: []geom.Point{geom.Pt(0, 0), geom.Pt(100, 80), geom.Pt(0, 80), geom.Pt(100, 0), geom.Pt(50, 40)}}
	add := func(u, v int, stroke string) {
		path := geom.Polyline{g.Nodes[u], g.Nodes[v]}
		g.Edges = append(g.Edges, plane.Edge{U: u, V: v, Kind: kind, Stroke: stroke, Path: path, Length: path.Length()})
	}
	add(0, 4, "rising")
	add(4, 1, "rising")
	add(2, 4, "falling")
	add(4, 3, "falling")
	add(0, 2, "left")
	add(1, 3, "right")
	return g
}

// Ruler lines are taken from dot to dot: no dot where one runs on through a
// crossing, one at each of the four ends, and at the start and end of the piece.
func TestRulerLinesFromDotToDot(t *testing.T) {
	rules := Rules{Costs: Costs{Retrace: 1, Jump: math.Inf(1)}, Ends: Ends{Rule: Closed, Start: 0}}
	g := star(plane.Ruler)
	r, err := Solve(g, rules)
	if err != nil {
		t.Fatal(err)
	}
	pieces, err := r.Pieces(g)
	if err != nil {
		t.Fatal(err)
	}
	diagonal := math.Hypot(100, 80)
	var want []float64
	if r.Steps[0].To == 2 {
		want = []float64{0, 80, 80 + diagonal, 160 + diagonal, 160 + 2*diagonal}
	} else {
		want = []float64{0, diagonal, 80 + diagonal, 80 + 2*diagonal, 160 + 2*diagonal}
	}
	if len(pieces) != 1 || !slices.EqualFunc(pieces[0].Line.Dots, want, func(a, b float64) bool { return math.Abs(a-b) < 1e-6 }) {
		t.Errorf("dots at %v, want %v", pieces[0].Line.Dots, want)
	}
}

// A ruler line that bends by 20 degrees at a crossing is not left for a line that
// goes straight on, as a sewn line is; and the bound on turning stays one.
func TestRulerLinesAreNotBrokenOff(t *testing.T) {
	at := func(angle float64) geom.Point {
		return geom.Pt(100*math.Cos(angle*math.Pi/180), 100*math.Sin(angle*math.Pi/180))
	}
	for kind, broken := range map[plane.Kind]bool{plane.Ruler: false, plane.Sewn: true} {
		g := plane.Graph{Nodes: []geom.Point{{}, at(180), at(20), at(0), at(200)}}
		for _, e := range []plane.Edge{
			{U: 1, V: 0, Kind: kind, Stroke: "bent"}, {U: 0, V: 2, Kind: kind, Stroke: "bent"},
			{U: 3, V: 0, Kind: plane.Sewn}, {U: 0, V: 4, Kind: plane.Sewn},
			{U: 1, V: 4, Kind: plane.Sewn}, {U: 2, V: 3, Kind: plane.Sewn},
		} {
			e.Path = geom.Polyline{g.Nodes[e.U], g.Nodes[e.V]}
			e.Length = e.Path.Length()
			g.Edges = append(g.Edges, e)
		}
		r, err := Solve(g, Rules{Costs: Costs{Retrace: 1, Jump: math.Inf(1)}, Ends: Ends{Rule: Closed, Start: 1}})
		if err != nil {
			t.Fatal(err)
		}
		left := false
		for i, s := range r.Steps {
			next := r.Steps[(i+1)%len(r.Steps)]
			left = left || s.To == 0 && g.Edges[s.Edge].Stroke != g.Edges[next.Edge].Stroke
		}
		if left != broken {
			t.Errorf("%s: the bent line is left at the crossing: %v, want %v", kind, left, broken)
		}
		if r.TurningBound > r.Turning+1e-6 {
			t.Errorf("turns %v, bound %v", r.Turning, r.TurningBound)
		}
	}
}
