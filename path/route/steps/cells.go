package steps

import (
	"fmt"
	"math"
	"slices"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// Block is a different block in its own place: its lines and the seams round it,
// planned once for each pair of its ends however often it lies in a quilt.
type Block struct {
	t     *table
	g     plane.Graph
	lines []Line
	done  map[string]Sewing
	least map[[2]int]float64
}

// Sewing is a way to sew lines of a block: those of one visit.
type Sewing struct {
	// Walks are the lines in order, Steps the way from the beginning of the first
	// to the end of the last, travel between them included.
	Walks []Walk
	Steps []route.Step
	// In and Out are the steps that lead from the entry to the first line and from
	// the last to the exit.
	In, Out []route.Step
	// Key is the same for sewings of a block by the same walks.
	Key string
}

// NewBlock readies a block: its lines are those of g that must be sewn.
func NewBlock(g plane.Graph, rules route.Rules) *Block {
	all := make([]int, len(g.Edges))
	for i := range all {
		all[i] = i
	}
	b := newGround(g, rules, all, all, nil)
	return &Block{t: newTable(b), g: g, lines: b.lines, done: map[string]Sewing{}, least: map[[2]int]float64{}}
}

// Lines returns the lines of the block, Graph its graph.
func (b *Block) Lines() []Line      { return b.lines }
func (b *Block) Graph() plane.Graph { return b.g }

// Exact tells that its orders are the best there are: it has at most 12 lines.
func (b *Block) Exact() bool { return b.t.exact != nil }

// Ports returns at most six of the given junctions of the block as ends: the first
// and the last by place, and of those between ends of lines before others, evenly.
func (b *Block) Ports(nodes []int) []int {
	tips := map[int]bool{}
	for _, l := range b.lines {
		tips[l.Nodes[0]], tips[l.Nodes[len(l.Nodes)-1]] = true, true
	}
	p := planner{g: b.g}
	return p.thinned(slices.Clone(nodes), tips)
}

// Least returns what no way through the block between two of its junctions adds,
// lines cut or not, in mm at the prices of the rules.
func (b *Block) Least(entry, exit int) (float64, error) {
	key := [2]int{entry, exit}
	if least, known := b.least[key]; known || len(b.lines) == 0 {
		return least, nil
	}
	all := make([]int, len(b.g.Edges))
	for i := range all {
		all[i] = i
	}
	least, err := route.Least(b.g, []route.Block{{Left: entry, Right: exit, Edges: all}}, b.t.b.rules, entry, exit)
	if err == nil {
		b.least[key] = least
	}
	return least, err
}

// station puts a junction among those planned for.
func (b *Block) station(node int) int {
	s, known := b.t.b.station[int32(node)]
	if !known {
		s = b.t.b.put(node)
	}
	return s
}

// sewing returns the steps of an order of walks between two junctions; before are
// walks sewn already.
func (b *Block) sewing(entry, exit int, order, before []int) (Sewing, error) {
	key := fmt.Sprint(entry, exit, order, before)
	s, done := b.done[key]
	if !done {
		var err error
		if s, err = b.sewn(entry, exit, order, before); err != nil {
			return Sewing{}, err
		}
		b.done[key] = s
	}
	return s, nil
}

func (b *Block) sewn(entry, exit int, order, before []int) (Sewing, error) {
	ground := b.t.b
	out := Sewing{Key: fmt.Sprint(order, before)}
	var sewn mask
	note := func(w int) {
		if l := ground.lineOf[w]; l < maskLines {
			sewn = sewn.with(l)
		}
	}
	for _, w := range before {
		note(w)
	}
	here := entry
	for i, w := range order {
		walk := ground.walks[w]
		from, to := b.lines[walk.Line].ends(walk)
		way, found := ground.travel(here, from, sewn)
		if !found {
			return Sewing{}, route.ErrApart
		}
		if i == 0 {
			out.In = way
		} else {
			out.Steps = append(out.Steps, way...)
		}
		edges, back := b.lines[walk.Line].pieces(walk)
		for k, e := range edges {
			s := route.Step{Edge: e, Reverse: back[k], From: b.g.Edges[e].U, To: b.g.Edges[e].V}
			if s.Reverse {
				s.From, s.To = s.To, s.From
			}
			out.Steps = append(out.Steps, s)
		}
		note(w)
		out.Walks = append(out.Walks, walk)
		here = to
	}
	way, found := ground.travel(here, exit, sewn)
	if !found {
		return Sewing{}, route.ErrApart
	}
	out.Out = way
	return out, nil
}

// Cell is a block in a place of a row.
type Cell struct {
	Block *Block
	// In and Out are the junctions of the block at which it may be entered on the way
	// out, and left. Cells of a kin have the same.
	In, Out []int
	// Kin numbers the cells that have to be sewn alike, -1 for one that stands for
	// itself.
	Kin int
}

// Sewn is how a cell is sewn: on the way out, and on the way home (nil in one pass
// and for the last cell of a row).
type Sewn struct {
	There Sewing
	Home  *Sewing
	// Entry and Exit are the junctions of the block on the way out, HomeEntry and
	// HomeExit those on the way home.
	Entry, Exit, HomeEntry, HomeExit int
	// Cost is what the cell adds in mm at the prices of the rules.
	Cost float64
}

// PlanCells plans a row of blocks that stand each in its own place. Joint returns
// what it costs, in mm at the prices of the rules, to go on from a junction of cell i
// to one of the next, +Inf where there is no way. It returns how each cell is sewn,
// what the row adds, and whether no row block by block adds less as far as the orders
// within blocks are the best.
func PlanCells(cells []Cell, joint func(i, from, to int) float64, through route.Through) ([]Sewn, float64, bool, error) {
	if len(cells) == 0 {
		return nil, 0, false, ErrEmpty
	}
	for _, c := range cells {
		for _, v := range slices.Concat(c.In, c.Out) {
			c.Block.station(v)
		}
	}
	links := cellLinks(cells, joint, through == route.OutAndBack)
	modes, cost, exact := chained(links)
	if cost >= unreached {
		return nil, 0, false, fmt.Errorf("block by block: %w", route.ErrApart)
	}
	out := make([]Sewn, len(cells))
	for i, c := range cells {
		var err error
		if out[i], err = c.sewn(modes[i], through == route.OutAndBack, i == len(cells)-1); err != nil {
			return nil, 0, false, fmt.Errorf("cell %d: %w", i, err)
		}
		out[i].Cost = mm(links[i].cost[modes[i].in][modes[i].out])
	}
	return out, mm(cost), exact, nil
}

// sewn turns a mode into steps.
func (c Cell) sewn(m mode, two, last bool) (Sewn, error) {
	t := c.Block.t
	var s Sewn
	var err error
	if !two || last {
		var exit int
		s.Entry, exit = c.In[m.in%len(c.In)], 0
		if two {
			s.Entry, exit = c.In[m.in/len(c.In)], c.In[m.in%len(c.In)]
		} else {
			exit = c.Out[m.out]
		}
		s.Exit, s.HomeEntry, s.HomeExit = exit, exit, exit
		s.There, err = c.Block.sewing(s.Entry, exit, t.plan(c.Block.station(s.Entry), c.Block.station(exit)).order, nil)
		return s, err
	}
	n, k := len(c.In), len(c.Out)
	s.Entry, s.HomeExit = c.In[m.in/n], c.In[m.in%n]
	s.Exit, s.HomeEntry = c.Out[m.out/k], c.Out[m.out%k]
	st := c.Block.station
	both := t.planTwice(st(s.Entry), st(s.Exit), st(s.HomeEntry), st(s.HomeExit))
	if s.There, err = c.Block.sewing(s.Entry, s.Exit, both.there, nil); err != nil {
		return s, err
	}
	home, err := c.Block.sewing(s.HomeEntry, s.HomeExit, both.home, both.there)
	s.Home = &home
	return s, err
}

// cellLinks prices cells and joints for the chain; cells of one block with the same
// ends share their prices.
func cellLinks(cells []Cell, joint func(i, from, to int) float64, two bool) []link {
	out := make([]link, len(cells))
	last := len(cells) - 1
	p := &planner{two: two}
	for i, c := range cells {
		out[i].kin = c.Kin
		for k, o := range cells[:i] {
			if o.Block == c.Block && slices.Equal(o.In, c.In) && slices.Equal(o.Out, c.Out) && (i == last) == (k == last) {
				out[i].cost = out[k].cost
				break
			}
		}
		if out[i].cost == nil {
			stub := &cell{left: c.In, right: c.Out, rep: &rep{table: c.Block.t}}
			out[i].cost = p.pricesAt(stub, c.Block.stations(c.In), c.Block.stations(c.Out), i == last)
		}
		if i < last {
			out[i].joint = cellJoints(c.Out, cells[i+1].In, func(from, to int) float64 { return joint(i, from, to) }, two)
		}
	}
	return out
}

func (b *Block) stations(nodes []int) []int {
	out := make([]int, len(nodes))
	for i, v := range nodes {
		out[i] = b.station(v)
	}
	return out
}

// cellJoints is joints for cells that stand each in its own place.
func cellJoints(from, to []int, joint func(from, to int) float64, two bool) [][]int64 {
	there := make([][]int64, len(from))
	for i, v := range from {
		for _, w := range to {
			c := int64(unreached)
			if d := joint(v, w); !math.IsInf(d, 1) {
				c = int64(math.Round(d*costUnit)) << breakBits
			}
			there[i] = append(there[i], c)
		}
	}
	if !two {
		return there
	}
	var out [][]int64
	for o := range from {
		for h := range from {
			var row []int64
			for i := range to {
				for k := range to {
					row = append(row, there[o][i]+there[h][k])
				}
			}
			out = append(out, row)
		}
	}
	return out
}

// PathOf returns the way of steps through g in mm; a stop is left out.
func PathOf(g plane.Graph, steps []route.Step) geom.Polyline {
	var out geom.Polyline
	for _, s := range steps {
		if s.Way == route.Jump {
			continue
		}
		leg := g.Edges[s.Edge].Path
		if s.Reverse {
			leg = leg.Reversed()
		}
		out = append(out, leg...)
	}
	return out.Compact()
}
