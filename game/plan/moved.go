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

// moved makes a choice of moves: each is a line of a graph of its own, so that what is
// numbered, stepped and played is a move.
func moved(s Sewn) (Choice, error) {
	b := movesGraph{at: map[[2]int]int{}}
	here := route.Nowhere
	r := route.Route{Start: route.Nowhere, Exit: route.Nowhere, Added: s.Added}
	var said []steps.Move
	groups := map[int]bool{}
	for _, i := range s.Groups {
		groups[i] = true
	}
	c := Choice{Good: s.Good, Names: s.Names, Longer: s.Longer, Times: s.Times}
	for i, m := range s.Moves {
		if len(m.Path) < 2 || m.Kind == steps.StopMove {
			continue // a stop is where the next move is begun elsewhere
		}
		from, to := b.node(m.Path[0]), b.node(m.Path[len(m.Path)-1])
		if here == route.Nowhere {
			r.Start = from
		} else if here != from {
			r.Steps = append(r.Steps, route.Step{Edge: route.Nowhere, Way: route.Jump, From: here, To: from})
			said = append(said, steps.Move{Kind: steps.StopMove})
			r.Jumps++
		}
		if groups[i] {
			c.Groups = append(c.Groups, len(r.Steps))
		}
		if i == s.Second && i > 0 {
			c.Second = len(r.Steps)
		}
		step := route.Step{Edge: len(b.g.Edges), From: from, To: to}
		kind := plane.Sewn
		switch {
		case m.Kind == steps.DitchMove:
			kind, step.Way = plane.Seam, route.Hidden
			r.SeamMM += m.Length
		case m.Kind == steps.AgainMove:
			kind, step.Way = plane.Seam, route.Again // it need not be sewn
			r.RetraceMM += m.Length
		default:
			r.SewnMM += m.Length
		}
		if m.Ruler && kind == plane.Sewn {
			kind = plane.Ruler
		}
		b.g.Edges = append(b.g.Edges, plane.Edge{U: from, V: to, Kind: kind, Path: m.Path, Length: m.Path.Length(), Block: fmt.Sprint(len(c.Groups)), Stroke: fmt.Sprint(i)})
		r.Steps, said = append(r.Steps, step), append(said, m)
		here, r.Exit = to, to
	}
	for _, path := range s.Around {
		b.g.Edges = append(b.g.Edges, plane.Edge{U: b.node(path[0]), V: b.node(path[len(path)-1]), Kind: plane.Seam, Path: path, Length: path.Length()})
	}
	c.Graph, c.Route, c.Moves = &b.g, r, said
	var err error
	c.Pieces, err = r.Pieces(b.g)
	for i := range c.Pieces {
		for k, st := range c.Pieces[i].Stretches {
			c.Pieces[i].Stretches[k].Twice = st.Way == route.Again
		}
	}
	return c, err
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
	for _, s := range sewn {
		if c, err := moved(s); err == nil && len(c.Pieces) > 0 {
			given = append(given, c)
		}
	}
	if d.Strokes == nil {
		k := Desk{Drawing: d, Rule: route.Free, Given: given, Fixed: true}
		if len(given) == 0 {
			k.Trouble = words.Of("route.unplanned")
			return k
		}
		return k.plan()
	}
	k := Open(d)
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
		edges := make([]int, len(k.Graph.Edges))
		for i := range edges {
			edges[i] = i
		}
		s := Sewn{Moves: steps.Moves(k.Graph, steps.Lines(k.Graph, edges), row.Steps), Good: []string{"whole-lines"}, Added: row.Added}
		if k.Drawing.Row {
			s.Good = []string{"block-by-block", map[route.Through]string{route.OnePass: "one-pass", route.OutAndBack: "out-and-back"}[through]}
			s.Groups, s.Second = groupsOf(s.Moves, row)
		}
		for _, e := range k.Graph.Edges {
			if e.Kind == plane.Seam {
				s.Around = append(s.Around, e.Path)
			}
		}
		c, err := moved(s)
		if err != nil || len(c.Pieces) == 0 {
			continue
		}
		c.Route.Added, c.Route.LowerBound, c.Route.Exact = row.Added, row.LowerBound, row.Exact
		c.Route.Turning = row.Turning
		out = append(out, c)
	}
	return out
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

// groupsOf returns the first move of each visit of a row, and of the way home.
func groupsOf(moves []steps.Move, row steps.Row) (groups []int, second int) {
	for _, v := range row.Visits {
		for i, m := range moves {
			if m.Last >= v.First {
				groups = append(groups, i)
				if v.Pass == 1 && second == 0 {
					second = i
				}
				break
			}
		}
	}
	return groups, second
}
