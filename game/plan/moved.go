package plan

import (
	"fmt"
	"math"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
	"unthreaded/path/route/steps"
)

// Sewn is how a drawing is sewn in the order of a quilt, move by move.
type Sewn struct {
	// Good are the keys of what the choice is called, in game/words.
	Good  []string
	Moves []steps.Move
	// Groups are the first moves of each stay in a place, Names what each is called, Second
	// is that of the way home, 0 for none.
	Groups []int
	Names  []words.Msg
	Second int
	// Longer is the share by which it takes longer at the machine than the shortest way
	// known, Times how often it is sewn.
	Longer float64
	Times  int
	// Around are seams that are shown, and not travelled.
	Around []geom.Polyline
	// Added is what it adds at the prices of the planner, in mm.
	Added float64
}

// sameNode is how near in mm two ends of moves are one junction.
const sameNode = 0.6

// choice makes a choice of the moves, with a stop wherever the next one begins elsewhere.
func (s Sewn) choice() (Choice, error) {
	c := Choice{Good: s.Good, Names: s.Names, Longer: s.Longer, Times: s.Times, Whole: true}
	c.Route = route.Route{Start: route.Nowhere, Exit: route.Nowhere, Added: s.Added}
	groups := map[int]bool{}
	for _, i := range s.Groups {
		groups[i] = true
	}
	var here geom.Point
	for i, m := range s.Moves {
		if len(m.Path) < 2 || m.Kind == steps.StopMove {
			continue
		}
		if from := m.Path[0]; len(c.Moves) > 0 && geom.Dist(here, from) >= sameNode {
			c.Moves = append(c.Moves, steps.Move{Kind: steps.StopMove, Path: geom.Polyline{here, from}})
			c.Route.Jumps++
		}
		here = m.Path[len(m.Path)-1]
		if groups[i] {
			c.Groups = append(c.Groups, len(c.Moves))
		}
		if i == s.Second && i > 0 {
			c.Second = len(c.Moves)
		}
		again := m.AgainMM()
		c.Route.RetraceMM += again
		if m.Kind == steps.DitchMove {
			c.Route.SeamMM += m.Length
		} else {
			c.Route.SewnMM += m.Length - again
		}
		c.Moves = append(c.Moves, m)
	}
	c.Route.Moves = len(c.Moves) - c.Route.Jumps
	var err error
	c.Pieces, err = pieces(c.Moves)
	return c, err
}

// pieces strings moves together, from stop to stop. Ruler work is sewn from dot to dot.
func pieces(moves []steps.Move) ([]route.Piece, error) {
	var out []route.Piece
	for first := 0; first < len(moves); {
		after := first
		for after < len(moves) && moves[after].Kind != steps.StopMove {
			after++
		}
		if after > first {
			p, err := strung(moves, first, after)
			if err != nil {
				return nil, fmt.Errorf("moves %d to %d: %w", first+1, after, err)
			}
			out = append(out, p)
		}
		first = after + 1
	}
	return out, nil
}

// sameDot is how near in mm two dots along a line are one.
const sameDot = 1e-3

// strung makes a path of the moves from first up to, not including, after.
func strung(moves []steps.Move, first, after int) (route.Piece, error) {
	var p route.Piece
	var path geom.Polyline
	var dots []float64
	dot := func(s float64) {
		if n := len(dots); n == 0 || s > dots[n-1]+sameDot {
			dots = append(dots, s)
		}
	}
	at := 0.0
	for i, m := range moves[first:after] {
		if n := len(path); n > 0 {
			at += geom.Dist(path[n-1], m.Path[0])
		}
		path = append(path, m.Path...)
		length := m.Path.Length()
		if m.Ruler {
			dot(at)
			dot(at + length)
		}
		for _, s := range m.Stretches() {
			s.Step, s.From, s.To = first+i, at+s.From*length, at+s.To*length
			p.Stretches = append(p.Stretches, s)
		}
		at += length
	}
	line, err := geom.NewLine(path)
	if err != nil {
		return p, err
	}
	// Points that fall together when a line is made may take a nanometre off its length.
	for i := range p.Stretches {
		p.Stretches[i].To = math.Min(p.Stretches[i].To, line.Length())
	}
	for i := range dots {
		dots[i] = math.Min(dots[i], line.Length())
	}
	p.Line, err = line.WithDots(dots)
	return p, err
}

// graphOf makes lines of moves and of the seams round them, for a stage of a quilt, which
// has no drawing of its own.
func graphOf(c Choice, around []geom.Polyline) plane.Graph {
	b := movesGraph{at: map[[2]int]int{}}
	block := 0
	add := func(kind plane.Kind, name string, path geom.Polyline) {
		b.g.Edges = append(b.g.Edges, plane.Edge{
			U: b.node(path[0]), V: b.node(path[len(path)-1]), Kind: kind, Path: path, Length: path.Length(), Stroke: name, Block: fmt.Sprint(block),
		})
	}
	for i, m := range c.Moves {
		if block < len(c.Groups) && i == c.Groups[block] {
			block++
		}
		kind := plane.Sewn
		switch {
		case m.Kind == steps.StopMove:
			continue
		case m.Kind == steps.DitchMove || m.Kind == steps.AgainMove:
			kind = plane.Seam // it need not be sewn
		case m.Ruler:
			kind = plane.Ruler
		}
		add(kind, fmt.Sprint(i+1), m.Path)
	}
	block = 0
	for _, path := range around {
		add(plane.Seam, "", path)
	}
	return b.g
}

// movesGraph gathers moves as a graph.
type movesGraph struct {
	g  plane.Graph
	at map[[2]int]int
}

// node returns the junction at a place, which it adds once.
func (b *movesGraph) node(p geom.Point) int {
	x, y := int(math.Round(p.X/sameNode)), int(math.Round(p.Y/sameNode))
	for dx := -1; dx <= 1; dx++ {
		for dy := -1; dy <= 1; dy++ {
			if v, known := b.at[[2]int{x + dx, y + dy}]; known && geom.Dist(b.g.Nodes[v], p) < sameNode {
				return v
			}
		}
	}
	v := len(b.g.Nodes)
	b.g.Nodes, b.at[[2]int{x, y}] = append(b.g.Nodes, p), v
	return v
}

// OpenSewn lays a drawing on the desk with the ways in which it is sewn in a quilt before
// those that are planned for it alone; a drawing without lines of its own has only these.
func OpenSewn(d Drawing, sewn ...Sewn) Desk {
	var given []Choice
	var base plane.Graph
	for _, s := range sewn {
		if c, err := s.choice(); err == nil && len(c.Pieces) > 0 {
			given = append(given, c)
			base = graphOf(c, s.Around)
		}
	}
	if d.Strokes == nil {
		k := Desk{Drawing: d, Rule: route.Free, Given: given, Fixed: true, base: base}
		if len(given) == 0 {
			k.Trouble = words.Of("route.unplanned")
			return k
		}
		return k.plan()
	}
	k := lay(d)
	k.Given = given
	return k.plan()
}

// natural returns the choices by whole lines, block by block: one for each number of passes
// through a row. Where the lines cannot be sewn so there are none.
func (k Desk) natural() []Choice {
	passes := []route.Through{route.OnePass}
	blocks := k.blocks()
	if len(k.Graph.Nodes) == 0 || k.Rule == route.Closed && !k.Drawing.Row {
		return nil // whole lines need not lead back to where they began
	}
	if !k.Drawing.Row {
		all := route.Block{Left: k.nearest(k.start), Right: k.nearest(k.exit)}
		for i := range k.Graph.Edges {
			all.Edges = append(all.Edges, i)
		}
		blocks = []route.Block{all}
	} else {
		passes = append(passes, route.OutAndBack)
	}
	var out []Choice
	for _, through := range passes {
		row, err := steps.PlanRow(k.Graph, blocks, k.Terms(), through)
		if err != nil {
			continue
		}
		c, err := k.choice([]string{"whole-lines"}, row.Route, 0)
		if k.Drawing.Row {
			c, err = k.byBlocks(row)
		}
		if err != nil || len(c.Pieces) == 0 {
			continue
		}
		c.Whole = true
		out = append(out, c)
	}
	return out
}

// byBlocks makes a choice of a row planned block by block; a move that goes on from one
// block into the next is cut between them.
func (k Desk) byBlocks(row steps.Row) (Choice, error) {
	good := map[route.Through]string{route.OnePass: "one-pass", route.OutAndBack: "out-and-back"}[row.Through]
	c := Choice{Good: []string{"block-by-block", good}, Route: row.Route}
	sew := func(first, after int) {
		for _, m := range steps.Moves(k.Graph, row.Steps[first:after]) {
			m.First, m.Last = m.First+first, m.Last+first
			c.Moves = append(c.Moves, m)
		}
	}
	at := 0
	for _, v := range row.Visits {
		sew(at, v.First)
		c.Groups = append(c.Groups, len(c.Moves))
		c.Names = append(c.Names, words.Of("route.block", v.Cell+1))
		if v.Pass == 1 && c.Second == 0 {
			c.Second = len(c.Moves)
		}
		sew(v.First, v.After)
		at = v.After
	}
	sew(at, len(row.Steps))
	c.Route.Moves = len(c.Moves) - c.Route.Jumps
	var err error
	c.Pieces, err = pieces(c.Moves)
	return c, err
}

// nearest returns the junction nearest to a place.
func (k Desk) nearest(p geom.Point) int {
	best := route.Nowhere
	for v, q := range k.Graph.Nodes {
		if best == route.Nowhere || geom.Dist(p, q) < geom.Dist(p, k.Graph.Nodes[best]) {
			best = v
		}
	}
	return best
}
