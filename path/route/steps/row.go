package steps

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// Visit is one stay in a cell of a row: all that is sewn there in one pass.
type Visit struct {
	// Cell is the index of the block in the row, Pass 0 on the way out and 1 on the
	// way home.
	Cell, Pass int
	// First is the index of its first step, After that after its last; travel from
	// the cell before is not among them.
	First, After int
	// Walks are the lines in the order and direction in which they are sewn.
	Walks []Walk
}

// Row is a row planned block by block.
type Row struct {
	route.Route
	Through route.Through
	Second  int // index of the first step of the way home
	Visits  []Visit
	// Kinds numbers the blocks that lie alike, shifted along the row, by the
	// first of each; those between the ends of the row are sewn by the same walks.
	Kinds []int
	// Different counts the blocks that were planned: each once, however it is turned
	// or mirrored and however often it lies in the row.
	Different int
	// Lines are those of each block, which Walks index.
	Lines [][]Line
	// Least is what no route through the row adds, lines cut or not; Saves is how
	// much less cutting lines could add at most, in mm at the prices of the rules.
	Least, Saves float64
	// Best tells that no way block by block adds less: where it is false orders of
	// more than 12 lines were improved by exchange, or not all ends were tried.
	Best bool
}

// mostPorts is the number of ends looked at on each side of a block, so that there
// are at most 12: corners and ends of lines on the sides that it shares.
const mostPorts = 6

// ErrEmpty is returned for a row without blocks.
var ErrEmpty = errors.New("a row needs a block")

// PlanRow plans a row block by block: each block is sewn in one visit, in one pass
// (route.OnePass) or in each of two (route.OutAndBack), every line whole, and blocks
// that lie alike are sewn alike but for the first and the last of the row. Of the
// rules the ends say where the row begins and, in one pass, leaves: where they give
// none, any end of its first and last block. Different blocks are planned once for
// each pair of their ends. Cost: for each different block of n lines 2^n n^2 up to 12
// of them, else a bounded search; for the row its length times the square of the ends.
func PlanRow(g plane.Graph, row []route.Block, rules route.Rules, through route.Through) (Row, error) {
	if len(row) == 0 {
		return Row{}, ErrEmpty
	}
	p := &planner{g: g, row: row, rules: rules, two: through == route.OutAndBack}
	p.gather()
	links := p.links()
	modes, cost, exact := chained(links)
	if cost >= unreached {
		return Row{}, fmt.Errorf("block by block: %w", route.ErrApart)
	}
	return p.assemble(modes, exact)
}

// planner holds a row while it is planned.
type planner struct {
	g     plane.Graph
	row   []route.Block
	rules route.Rules
	two   bool
	cells []*cell
	reps  []*rep
	seams *ground // all seams of the row
}

// cell is one block of the row.
type cell struct {
	own, seams []int
	nodes      map[int]bool
	lines      []Line
	like       likeness
	left       []int // junctions at which it may be entered
	right      []int
	kind       int // number among cells that lie alike
	kin        int // number among those that must be sewn alike, -1 for none
	rep        *rep
	on         fit   // how it lies on its rep
	from       []int // by line of the rep, the line of the cell
}

// rep is a different block, planned once.
type rep struct {
	*table
	like likeness
}

// gather finds the lines, the seams, the ends and the likenesses of all cells.
func (p *planner) gather() {
	all := []int{}
	for i, b := range p.row {
		c := &cell{nodes: map[int]bool{b.Left: true, b.Right: true}, kin: -1}
		for _, e := range b.Edges {
			c.nodes[p.g.Edges[e].U], c.nodes[p.g.Edges[e].V] = true, true
			if p.g.Edges[e].Kind.Must() {
				c.own = append(c.own, e)
			}
		}
		for k := max(0, i-1); k <= min(len(p.row)-1, i+1); k++ {
			for _, e := range p.row[k].Edges {
				if !p.g.Edges[e].Kind.Must() {
					c.seams = append(c.seams, e)
				}
			}
		}
		c.lines = Lines(p.g, c.own)
		c.like = newLikeness(p.g, c.lines)
		p.cells = append(p.cells, c)
		all = append(all, b.Edges...)
	}
	p.findKinds()
	for i := range p.cells[1:] {
		ports := p.shared(i)
		p.cells[i].right, p.cells[i+1].left = ports, ports
	}
	last := len(p.cells) - 1
	start, exit := Given(p.rules.Ends)
	p.cells[0].left, p.cells[last].right = p.ends(0, start), p.ends(last, exit)
	if p.two {
		if start == route.Nowhere {
			start = p.row[0].Left
		}
		p.cells[0].left, p.cells[last].right = []int{start}, p.cells[last].left
		if last == 0 {
			p.cells[0].right = []int{start}
		}
	}
	p.findKin()
	var seams, extra []int
	for _, e := range all {
		if !p.g.Edges[e].Kind.Must() {
			seams = append(seams, e)
		}
	}
	for _, c := range p.cells {
		extra = append(append(extra, c.left...), c.right...)
	}
	p.seams = newGround(p.g, p.rules, nil, seams, extra)
	for i := range p.cells {
		p.represent(i)
	}
}

// Given returns the junctions at which the rule fixes the ends, Nowhere for those it
// leaves open.
func Given(e route.Ends) (start, exit int) {
	switch e.Rule {
	case route.Closed:
		return e.Start, e.Start
	case route.Fixed:
		return e.Start, e.Exit
	case route.StartOnly:
		return e.Start, route.Nowhere
	}
	return route.Nowhere, route.Nowhere
}

// ends returns the junctions at which the row may begin or leave in a block.
func (p *planner) ends(i, given int) []int {
	if given != route.Nowhere {
		return []int{given}
	}
	var all []int
	for _, l := range p.cells[i].lines {
		all = append(all, l.Nodes[0], l.Nodes[len(l.Nodes)-1])
	}
	if i == 0 {
		all = append(all, p.row[i].Left)
	} else {
		all = append(all, p.row[i].Right)
	}
	return p.thinned(all, nil)
}

// shared returns the junctions by which cell i and the next may be left and entered.
func (p *planner) shared(i int) []int {
	a, b := p.cells[i], p.cells[i+1]
	all := []int{p.row[i].Right}
	for v := range a.nodes {
		if b.nodes[v] {
			all = append(all, v)
		}
	}
	tips := map[int]bool{}
	for _, c := range [2]*cell{a, b} {
		for _, l := range c.lines {
			tips[l.Nodes[0]], tips[l.Nodes[len(l.Nodes)-1]] = true, true
		}
	}
	return p.thinned(all, tips)
}

// thinned returns at most mostPorts of the junctions in order of place: the two
// outermost, and evenly of the others, ends of lines before crossings.
func (p *planner) thinned(all []int, tips map[int]bool) []int {
	slices.SortFunc(all, func(a, b int) int {
		u, v := p.g.Nodes[a], p.g.Nodes[b]
		if math.Abs(u.Y-v.Y) > sameLine {
			return cmp.Compare(u.Y, v.Y)
		}
		return cmp.Or(cmp.Compare(u.X, v.X), cmp.Compare(a, b))
	})
	all = slices.Compact(all)
	if n := len(all); n > mostPorts && tips != nil {
		all = slices.DeleteFunc(slices.Clone(all), func(v int) bool { return v != all[0] && v != all[n-1] && !tips[v] })
	}
	n := len(all)
	if n <= mostPorts {
		return all
	}
	var out []int
	for k := range mostPorts {
		out = append(out, all[k*(n-1)/(mostPorts-1)])
	}
	return out
}

// findKinds numbers the cells that lie alike, shifted.
func (p *planner) findKinds() {
	for i, c := range p.cells {
		c.kind = i
		for k, o := range p.cells[:i] {
			if _, same := c.like.onto(o.like, Shifted); same && o.kind == k {
				c.kind = k
				break
			}
		}
	}
}

// findKin numbers the cells between the ends that must be sewn alike, and gives them
// the ends that all of a kind have in common.
func (p *planner) findKin() {
	count := 0
	for kind := range p.cells {
		var list []*cell
		for i, c := range p.cells {
			if c.kind == kind && i > 0 && i < len(p.cells)-1 && len(c.lines) > 0 {
				list = append(list, c)
			}
		}
		if len(list) < 2 {
			continue
		}
		lefts, rights := p.common(list, func(c *cell) []int { return c.left }), p.common(list, func(c *cell) []int { return c.right })
		if len(lefts[0]) == 0 || len(rights[0]) == 0 {
			continue // they share no end: each stands for itself
		}
		for k, c := range list {
			c.left, c.right, c.kin = lefts[k], rights[k], count
		}
		count++
	}
}

// common returns the ports that all cells of a kind have at the same place, those of
// each cell in the same order.
func (p *planner) common(list []*cell, ports func(*cell) []int) [][]int {
	out := make([][]int, len(list))
	first := list[0]
	for _, v := range ports(first) {
		place := p.g.Nodes[v]
		at := []int{v}
		for _, c := range list[1:] {
			moved := geom.Pt(place.X+c.like.lo.X-first.like.lo.X, place.Y+c.like.lo.Y-first.like.lo.Y)
			for _, w := range ports(c) {
				if geom.Dist(p.g.Nodes[w], moved) <= sameLine {
					at = append(at, w)
					break
				}
			}
		}
		if len(at) == len(list) {
			for k, w := range at {
				out[k] = append(out[k], w)
			}
		}
	}
	return out
}

// represent finds a block that cell i lies on, however turned, with its ends among
// those planned for, or makes it one of its own.
func (p *planner) represent(i int) {
	c := p.cells[i]
	ports := slices.Concat(c.left, c.right)
	for t := range turns {
		for _, r := range p.reps {
			on, same := c.like.onto(r.like, t)
			if !same || len(c.lines) == 0 {
				continue
			}
			if !slices.ContainsFunc(ports, func(v int) bool { return r.stationAt(on.apply(p.g.Nodes[v])) < 0 }) {
				c.take(r, on)
				return
			}
		}
	}
	b := newGround(p.g, p.rules, c.own, c.seams, ports)
	r := &rep{table: newTable(b), like: c.like}
	p.reps = append(p.reps, r)
	on, _ := c.like.onto(c.like, Shifted)
	c.take(r, on)
}

func (c *cell) take(r *rep, on fit) {
	c.rep, c.on = r, on
	c.from = make([]int, len(on.to))
	for i, k := range on.to {
		c.from[k] = i
	}
}

// stationAt returns the station at a place, -1 for none.
func (r *rep) stationAt(at geom.Point) int {
	for s, v := range r.b.nodes {
		if geom.Dist(r.b.g.Nodes[v], at) <= sameLine {
			return s
		}
	}
	return -1
}

func (p *planner) stations(c *cell, ports []int) []int {
	out := make([]int, len(ports))
	for i, v := range ports {
		if s, own := c.rep.b.station[int32(v)]; own && c.on.turn == Shifted && geom.Dist(c.on.move, geom.Point{}) <= sameLine {
			out[i] = s
		} else {
			out[i] = c.rep.stationAt(c.on.apply(p.g.Nodes[v]))
		}
	}
	return out
}

// walk returns the walk of the cell that is walk w of its rep.
func (p *planner) walk(c *cell, w int) Walk {
	was := c.rep.b.walks[w]
	i := c.from[was.Line]
	out := Walk{Line: i, Reverse: was.Reverse != c.on.flip[i]}
	if l := c.lines[i]; l.Closed() {
		place := c.on.invert(c.rep.b.g.Nodes[c.rep.b.lines[was.Line].Nodes[was.First]])
		for k := range l.Edges {
			if geom.Dist(p.g.Nodes[l.Nodes[k]], place) < geom.Dist(p.g.Nodes[l.Nodes[out.First]], place) {
				out.First = k
			}
		}
	}
	return out
}

// links prices the cells and the ways between them.
func (p *planner) links() []link {
	out := make([]link, len(p.cells))
	last := len(p.cells) - 1
	for i, c := range p.cells {
		out[i].kin = c.kin
		if c.kin >= 0 {
			for k, o := range p.cells[:i] {
				if o.kin == c.kin && o.rep == c.rep {
					out[i].cost = out[k].cost
				}
			}
		}
		if out[i].cost == nil {
			out[i].cost = p.prices(c, i == last)
		}
		if i < last {
			out[i].joint = p.joints(c, p.cells[i+1], i+1 == last)
		}
	}
	return out
}

// prices returns what a cell costs by way in and way out.
func (p *planner) prices(c *cell, last bool) [][]int64 {
	return p.pricesAt(c, p.stations(c, c.left), p.stations(c, c.right), last)
}

func (p *planner) pricesAt(c *cell, in, out []int, last bool) [][]int64 {
	var cost [][]int64
	if !p.two {
		for _, a := range in {
			row := make([]int64, len(out))
			for k, b := range out {
				row[k] = c.rep.cost(a, b)
			}
			cost = append(cost, row)
		}
		return cost
	}
	for _, a := range in {
		for _, d := range in {
			if last {
				cost = append(cost, []int64{c.rep.cost(a, d)})
				continue
			}
			row := make([]int64, 0, len(out)*len(out))
			for _, b := range out {
				for _, e := range out {
					row = append(row, c.rep.costTwice(a, b, e, d))
				}
			}
			cost = append(cost, row)
		}
	}
	return cost
}

// joints returns what it costs to go on from one cell to the next.
func (p *planner) joints(a, b *cell, last bool) [][]int64 {
	across := func(from, to []int) [][]int64 {
		out := make([][]int64, len(from))
		for i, v := range from {
			for _, w := range to {
				out[i] = append(out[i], p.seams.across(p.seams.station[int32(v)], p.seams.station[int32(w)], mask{}))
			}
		}
		return out
	}
	there := across(a.right, b.left)
	if !p.two {
		return there
	}
	home := across(b.left, a.right)
	var out [][]int64
	for o := range a.right {
		for h := range a.right {
			var row []int64
			for i := range b.left {
				for k := range b.left {
					row = append(row, there[o][i]+home[k][h])
				}
			}
			out = append(out, row)
		}
	}
	return out
}
