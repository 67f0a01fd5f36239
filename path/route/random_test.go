package route

import (
	"math"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// drawing describes random line work for property tests.
type drawing struct {
	columns, rows int
	seams, jumps  bool
	most          int // lines
}

// draw makes a random plane graph: a grid of shifted places, of whose sides and
// diagonals some are lines. Now and then a line is doubled by a bowed one, or a
// loop hangs on a junction.
func (d drawing) draw(rt *rapid.T) plane.Graph {
	var g plane.Graph
	for y := 0; y < d.rows; y++ {
		for x := 0; x < d.columns; x++ {
			shift := rapid.Float64Range(-2, 2)
			g.Nodes = append(g.Nodes, geom.Pt(10*float64(x)+shift.Draw(rt, "dx"), 10*float64(y)+shift.Draw(rt, "dy")))
		}
	}
	add := func(u, v int, bow float64) {
		if len(g.Edges) >= d.most || !rapid.Bool().Draw(rt, "line") {
			return
		}
		p, q := g.Nodes[u], g.Nodes[v]
		mid := geom.Pt((p.X+q.X)/2+bow*(q.Y-p.Y), (p.Y+q.Y)/2-bow*(q.X-p.X))
		e := plane.Edge{U: u, V: v, Kind: plane.Sewn, Path: geom.Polyline{p, mid, q}}
		e.Length = math.Round(e.Path.Length()*1000) / 1000
		if d.seams && rapid.IntRange(0, 2).Draw(rt, "seam") == 0 {
			e.Kind = plane.Seam
		}
		g.Edges = append(g.Edges, e)
	}
	petal := func(v int) {
		if p := g.Nodes[v]; len(g.Edges) < d.most {
			path := geom.Polyline{p, geom.Pt(p.X+3, p.Y+1), geom.Pt(p.X+3, p.Y-1), p}
			g.Edges = append(g.Edges, plane.Edge{U: v, V: v, Kind: plane.Sewn, Path: path, Length: math.Round(path.Length()*1000) / 1000})
		}
	}
	for y := 0; y < d.rows; y++ {
		for x := 0; x < d.columns; x++ {
			v := y*d.columns + x
			if x+1 < d.columns {
				add(v, v+1, 0)
				if rapid.IntRange(0, 4).Draw(rt, "double") == 0 {
					add(v, v+1, 0.1)
				}
			}
			if y+1 < d.rows {
				add(v, v+d.columns, 0)
			}
			if x+1 < d.columns && y+1 < d.rows {
				add(v, v+d.columns+1, 0)
			}
			if rapid.IntRange(0, 9).Draw(rt, "loop") == 0 {
				petal(v)
			}
		}
	}
	return g
}

// drawRules makes random rules for g.
func (d drawing) drawRules(rt *rapid.T, g plane.Graph) Rules {
	junction := rapid.IntRange(0, len(g.Nodes)-1)
	r := Rules{
		Costs: Costs{Retrace: 1, Seam: rapid.SampledFrom([]float64{0, 0.3, 1}).Draw(rt, "seam price"), Jump: math.Inf(1)},
		Ends: Ends{
			Rule:  rapid.SampledFrom([]EndRule{Closed, Fixed, StartOnly, Free}).Draw(rt, "ends"),
			Start: junction.Draw(rt, "start"), Exit: junction.Draw(rt, "exit"),
		},
		NeverCross: rapid.Bool().Draw(rt, "never cross"),
	}
	if r.Ends.Rule == Closed && rapid.Bool().Draw(rt, "anywhere") {
		r.Ends.Start = Nowhere
	}
	if d.jumps && rapid.Bool().Draw(rt, "stops") {
		r.Costs.Jump = rapid.SampledFrom([]float64{0, 4, 15, 60}).Draw(rt, "price of a stop")
	}
	return r
}
