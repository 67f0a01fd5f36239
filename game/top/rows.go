package top

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/plan"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
	"unthreaded/path/quilt"
	"unthreaded/path/route"
)

// RowName is the code of a sewing row, as "row 2": rows, strips of sashing and borders
// are counted each for themselves.
func (t Top) RowName(r int) string {
	word, n := t.rowNumber(r)
	return fmt.Sprintf("%s %d", word, n)
}

func (t Top) rowNumber(r int) (word string, n int) {
	word = t.rowWord(r)
	for i := range t.Rows[:r+1] {
		if t.rowWord(i) == word {
			n++
		}
	}
	return word, n
}

// rowWord tells of what a row is.
func (t Top) rowWord(r int) string {
	word := "sashing"
	for _, i := range t.Rows[r] {
		switch k := t.Laying.Cells[i].Kind; {
		case strings.HasPrefix(string(k), "border-"):
			return "border"
		case k != quilt.Strip && k != quilt.Cornerstone && k != quilt.HalfCornerstone:
			word = "row"
		}
	}
	return word
}

// RowDrawing returns the lines of a row laid level, from left to right, as a drawing
// that a route can be planned for, under a name. A border has corners and is no row: of it
// there is none.
func (t Top) RowDrawing(r int, name string) (plan.Drawing, bool) {
	if r < 0 || r >= len(t.Rows) || t.rowWord(r) == "border" {
		return plan.Drawing{}, false
	}
	in := map[string]bool{}
	for _, i := range t.Rows[r] {
		in[t.Laying.Cells[i].ID] = true
	}
	turn := 0.0
	if t.Quilt.Setting == quilt.OnPoint {
		turn = math.Pi / 4 // rows run from the lower left to the upper right
	}
	d := plan.DrawingOf(t.rowID(r), name, words.Of("quilt.a-row"),
		func() []motif.Piece { return level(t.rowLines(in), turn) })
	d.Row = len(t.Rows[r]) > 1
	return d, true
}

// rowLines returns the lines of some places, each with all its sides.
func (t Top) rowLines(in map[string]bool) []motif.Piece {
	row := t.Laying
	row.Cells, row.Placed = nil, nil
	at := map[int]int{}
	for i, c := range t.Laying.Cells {
		if in[c.ID] {
			at[i] = len(row.Cells)
			row.Cells = append(row.Cells, c)
		}
	}
	for _, p := range t.Laying.Placed {
		if i, ok := at[p.Cell]; ok {
			p.Cell = i
			row.Placed = append(row.Placed, p)
		}
	}
	return row.Lines()
}

// level turns lines and moves them so that their box begins at (0, 0).
func level(pieces []motif.Piece, turn float64) []motif.Piece {
	turned := quilt.Transform{Scale: 1, Turn: turn}
	var all geom.Polyline
	out := make([]motif.Piece, len(pieces))
	for i, p := range pieces {
		p.Path = turned.Path(p.Path)
		all = append(all, p.Path...)
		out[i] = p
	}
	lo, _ := all.Bounds()
	for i := range out {
		out[i].Path = out[i].Path.Map(func(p geom.Point) geom.Point { return r2.Sub(p, lo) })
	}
	return out
}

// ports finds the junctions where a pass enters and leaves the places of a row.
type ports struct {
	g     plane.Graph
	t     Top
	edges map[string][]int
}

func newPorts(g plane.Graph, t Top) ports {
	p := ports{g, t, map[string][]int{}}
	for i, e := range g.Edges {
		p.edges[e.Block] = append(p.edges[e.Block], i)
	}
	return p
}

// row returns the blocks of a sewing row: each is left by the junction that it
// shares with the next. A side between two rows belongs to the first, so that of the
// junctions shared the one on the right hand of the way along the row is taken.
func (p ports) row(r int) []route.Block {
	row := p.t.Rows[r]
	out := make([]route.Block, len(row))
	for i, c := range row {
		out[i] = route.Block{Edges: p.edges[p.t.Laying.Cells[c].ID]}
	}
	if p.t.rowWord(r) == "border" {
		return p.round(row, out)
	}
	for i := range out[1:] {
		from, to := p.t.Middle(row[i]), p.t.Middle(row[i+1])
		side := geom.Pt(from.Y-to.Y, to.X-from.X) // clockwise from the way to the eye, as y grows downwards
		v := p.farthest(p.shared(out[i], out[i+1]), side)
		out[i].Right, out[i+1].Left = v, v
	}
	first, last := &out[0], &out[len(out)-1]
	along := r2.Sub(p.t.Middle(row[0]), p.t.Middle(row[len(row)-1]))
	if len(row) == 1 {
		along = p.lengthwise(row[0])
	}
	first.Left = p.farthest(p.junctions(*first), along)
	last.Right = p.farthest(p.junctions(*last), r2.Scale(-1, along))
	return out
}

// round returns the blocks of a border, which goes round and back to its beginning:
// of the junctions that two sides share the one farther out.
func (p ports) round(row []int, out []route.Block) []route.Block {
	s := p.t.Quilt.Size()
	middle := geom.Pt(s.W/2, s.H/2)
	for i := range out {
		next := (i + 1) % len(out)
		away := r2.Sub(r2.Add(p.t.Middle(row[i]), p.t.Middle(row[next])), r2.Scale(2, middle))
		v := p.farthest(p.shared(out[i], out[next]), away)
		out[i].Right, out[next].Left = v, v
	}
	return out
}

// lengthwise returns the direction from right to left of a place that is a row by
// itself.
func (p ports) lengthwise(cell int) geom.Point {
	return r2.Sub(p.t.Laying.Cells[cell].Where.Apply(geom.Pt(0, 0)), p.t.Laying.Cells[cell].Where.Apply(geom.Pt(1, 0)))
}

func (p ports) junctions(b route.Block) map[int]bool {
	out := map[int]bool{}
	for _, e := range b.Edges {
		out[p.g.Edges[e].U], out[p.g.Edges[e].V] = true, true
	}
	return out
}

// shared returns the junctions of both blocks, or those of the first where they
// have none in common.
func (p ports) shared(a, b route.Block) map[int]bool {
	of, both := p.junctions(a), map[int]bool{}
	for v := range p.junctions(b) {
		if of[v] {
			both[v] = true
		}
	}
	if len(both) == 0 {
		return of
	}
	return both
}

// farthest returns the junction of those given that lies farthest in a direction;
// of two the lower number, so that the order of a map decides nothing.
func (p ports) farthest(of map[int]bool, way geom.Point) int {
	best, far := route.Nowhere, math.Inf(-1)
	for v := range of {
		d := r2.Dot(p.g.Nodes[v], way)
		if d > far+1e-6 || d > far-1e-6 && v < best {
			best, far = v, math.Max(d, far)
		}
	}
	return best
}
