package order

import (
	"fmt"
	"math"
	"slices"

	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
	"unthreaded/path/quilt"
	"unthreaded/path/route"
	"unthreaded/path/route/steps"
)

// Rules returns the prices by which a top is planned, in mm sewn over once more: see
// machine.DitchPrice and machine.StopPrice.
func Rules() route.Rules {
	return route.Rules{
		Costs: route.Costs{Retrace: 1, Seam: machine.DitchPrice, Jump: machine.StopPrice()},
		Ends:  route.Ends{Rule: route.Free, Start: route.Nowhere, Exit: route.Nowhere},
	}
}

// block is a different block of the top: one work, or the empty block of a shape.
type block struct {
	*steps.Block
	design string
	own    bool
	empty  bool
	// rim are the junctions on its outline.
	rim []int
	// islands counts the pieces of its line work that no seam leads to: only a stop
	// does.
	islands int
	// programs are those planned, by key.
	programs map[string]int
}

// laid is a place of the top with its block.
type laid struct {
	cell    quilt.Cell
	block   *block
	where   quilt.Transform
	outline geom.Polyline // on the top
}

// onRim is the distance in mm within which a place lies on an outline.
const onRim = 0.05

// strokesOf returns pieces as strokes, each with a name of its own, so that two lines
// of one name are not taken for one.
func strokesOf(pieces []motif.Piece) []plane.Stroke {
	out := make([]plane.Stroke, len(pieces))
	seen := map[string]int{}
	for i, p := range pieces {
		kind := plane.Sewn
		switch {
		case p.Seam:
			kind = plane.Seam
		case p.Ruler:
			kind = plane.Ruler
		}
		name := p.Name
		if seen[p.Name]++; seen[p.Name] > 1 {
			name = fmt.Sprintf("%s (%d)", p.Name, seen[p.Name])
		}
		out[i] = plane.Stroke{Name: name, Kind: kind, Block: p.Block, Path: p.Path, Length: p.Length}
	}
	return out
}

// newBlock makes the block of a shape with its lines.
func newBlock(shape motif.Shape, work []motif.Piece) (*block, error) {
	built, err := plane.Build(strokesOf(append(shape.OutlinePieces(), work...)), plane.Options{SnapMM: plane.DefaultSnap})
	if err != nil {
		return nil, fmt.Errorf("the lines of a block: %w", err)
	}
	b := &block{Block: steps.NewBlock(built.Graph, Rules()), programs: map[string]int{}}
	b.empty = len(b.Lines()) == 0
	outline := shape.Outline()
	for v, p := range built.Nodes {
		if near(outline, p) {
			b.rim = append(b.rim, v)
		}
	}
	b.islands = islands(built.Graph, b.rim)
	return b, nil
}

// islands counts the pieces of g that hang together with none of the given junctions.
func islands(g plane.Graph, rim []int) int {
	root := make([]int, len(g.Nodes))
	for v := range root {
		root[v] = v
	}
	find := func(v int) int {
		for root[v] != v {
			root[v] = root[root[v]]
			v = root[v]
		}
		return v
	}
	for _, e := range g.Edges {
		root[find(e.U)] = find(e.V)
	}
	count := map[int]bool{}
	for _, e := range g.Edges {
		if e.Kind.Must() {
			count[find(e.U)] = true
		}
	}
	for _, v := range rim {
		delete(count, find(v))
	}
	return len(count)
}

// near tells whether p lies on a path.
func near(path geom.Polyline, p geom.Point) bool {
	for i := 1; i < len(path); i++ {
		if _, q := geom.NearestOnSegment(p, path[i-1], path[i]); geom.Dist(p, q) <= onRim {
			return true
		}
	}
	return false
}

// lay finds the block of every place.
func lay(l quilt.Laying) ([]laid, error) {
	placed := map[int]quilt.Placed{}
	for _, p := range l.Placed {
		placed[p.Cell] = p
	}
	works := make([]*block, len(l.Works))
	empties := map[motif.Shape]*block{}
	out := make([]laid, len(l.Cells))
	for i, c := range l.Cells {
		out[i] = laid{cell: c, where: c.Where, outline: c.Outline()}
		p, sewn := placed[i]
		if sewn && works[p.Work] == nil {
			w := l.Works[p.Work]
			b, err := newBlock(w.Design.Shape, w.Pieces)
			if err != nil {
				return nil, fmt.Errorf("design %q: %w", w.Design.ID, err)
			}
			b.design, b.own = w.Design.ID, w.Own
			works[p.Work] = b
		}
		if sewn && !works[p.Work].empty {
			out[i].block, out[i].where = works[p.Work], p.Where
			continue
		}
		if empties[c.Shape] == nil {
			b, err := newBlock(c.Shape, nil)
			if err != nil {
				return nil, err
			}
			empties[c.Shape] = b
		}
		out[i].block = empties[c.Shape]
	}
	return out, nil
}

// at returns where a junction of the place lies on the top.
func (l laid) at(node int) geom.Point { return l.where.Apply(l.block.Graph().Nodes[node]) }

// towards returns the ends of a place on the side that it shares with another.
func (l laid) towards(o laid) []int {
	var out []int
	for _, v := range l.block.rim {
		if near(o.outline, l.at(v)) {
			out = append(out, v)
		}
	}
	return l.block.Ports(out)
}

// outer returns the ends of a place at which a row may begin or leave: its corners,
// and the ends of lines on its outline where they are no more than two.
func (l laid) outer() []int {
	tips := map[int]bool{}
	for _, line := range l.block.Lines() {
		tips[line.Nodes[0]], tips[line.Nodes[len(line.Nodes)-1]] = true, true
	}
	var corners, ends []int
	for _, v := range l.block.rim {
		at := l.at(v)
		if slices.ContainsFunc(l.outline, func(p geom.Point) bool { return geom.Dist(p, at) <= onRim }) && len(l.outline) <= 6 {
			corners = append(corners, v)
		} else if tips[v] {
			ends = append(ends, v)
		}
	}
	if len(ends) <= 2 || len(corners) == 0 {
		corners = append(corners, ends...)
	}
	if len(corners) == 0 {
		corners = l.block.rim
	}
	return l.block.Ports(corners)
}

// nearer returns those of some ends of a place by itself that lie in the half in which its
// row begins: to the left, on point to the lower left, or in the other half.
func (l laid) nearer(ends []int, far bool) []int {
	along := func(p geom.Point) float64 { return p.X - 1e-3*p.Y }
	lo, hi := l.outline.Bounds()
	middle := along(geom.Lerp(lo, hi, 0.5))
	var out []int
	for _, v := range ends {
		if at := along(l.at(v)); far == (at > middle) {
			out = append(out, v)
		}
	}
	if len(out) == 0 {
		return ends
	}
	return out
}

// sameLay tells whether two places hold the same block laid the same way, shifted.
func (l laid) sameLay(o laid) bool {
	turn := math.Abs(math.Remainder(l.where.Turn-o.where.Turn, 2*math.Pi))
	return l.block == o.block && turn < 1e-6 && math.Abs(l.where.Scale-o.where.Scale) < 1e-6
}

// workOf measures moves of a block.
func workOf(g plane.Graph, sewn []route.Step, moves []steps.Move) Work {
	var w Work
	for _, s := range sewn {
		if s.Way == route.Jump {
			continue
		}
		e := g.Edges[s.Edge]
		switch s.Way {
		case route.Hidden:
			w.DitchMM += e.Length
		case route.Again:
			w.AgainMM += e.Length
		default:
			w.SewnMM += e.Length
			if e.Kind == plane.Ruler {
				w.RulerMM += e.Length
			}
		}
	}
	for i, m := range moves {
		w.Moves++
		switch {
		case m.Kind == steps.StopMove:
			w.Starts++
		case i > 0 && moves[i-1].Kind != steps.StopMove:
			w.Halts++
		}
		if m.Ruler && m.Kind == steps.SewMove {
			w.RulerLines++
		}
	}
	return w
}
