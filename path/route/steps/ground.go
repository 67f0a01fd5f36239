package steps

import (
	"math"
	"slices"

	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// costUnit is one cost unit per mm-equivalent, micrometres times hundredths of the
// price; the low breakBits of a cost count breaks, so that of orders that add the
// same the one with the fewest moves wins.
const (
	costUnit  = 1000 * 100
	breakBits = 12
	unreached = math.MaxInt64 / 4
)

// price returns the cost of length mm at a price per mm.
func price(length, perMM float64) int64 {
	return int64(math.Round(length*1000)) * int64(math.Round(perMM*100)) << breakBits
}

// mm returns the worth of a cost in mm, its breaks left out.
func mm(cost int64) float64 { return float64(cost>>breakBits) / costUnit }

// most lines that travel may keep apart: walks along lines with a higher number are
// not travelled again.
const maskLines = 256

// mask is a set of lines by their number.
type mask [maskLines / 64]uint64

func (m mask) with(line int) mask {
	m[line/64] |= 1 << (line % 64)
	return m
}

func (m mask) within(o mask) bool {
	for i := range m {
		if m[i]&^o[i] != 0 {
			return false
		}
	}
	return true
}

// arc is a piece that may be travelled, from one of its ends.
type arc struct {
	to, edge int32
	line     int32 // which line it is part of, -1 for a seam
	cost     int64
}

// ground is a block, or some of them, to be sewn: its lines, and the ways to travel
// between their ends: along seams, over a line that is sewn already, or by a stop.
type ground struct {
	g     plane.Graph
	rules route.Rules
	lines []Line
	arcs  [][]arc // by junction
	jump  int64   // unreached if no stop is allowed
	// pre lets travel lead over lines that are not sewn yet, for drawings in which
	// nothing else leads on.
	pre bool

	walks   []Walk
	lineOf  []int // of each walk
	back    []int // the walk the other way
	station map[int32]int
	nodes   []int32 // of each station
	from    []int   // station of each walk's begin
	to      []int   // and end
	ways    [][]way // by station and station; rows are nil until asked for
	turned  []bool  // by walk and walk: whether going straight on is a break
	dirs    *headings
	scratch scratch
}

// scratch is memory that searches share.
type scratch struct {
	settled [][]label // by junction
	touched []int32
	done    []node
	queue   queue
}

// newGround readies the lines of the given pieces for planning, with seams to travel
// along. Extra are junctions that will be asked about. Cost O(pieces).
func newGround(g plane.Graph, rules route.Rules, own, seams, extra []int) *ground {
	return groundOf(g, rules, Lines(g, own), seams, extra)
}

// groundOf is newGround for lines that are known.
func groundOf(g plane.Graph, rules route.Rules, lines []Line, seams, extra []int) *ground {
	b := &ground{g: g, rules: rules, lines: lines, arcs: make([][]arc, len(g.Nodes)), jump: unreached, station: map[int32]int{}}
	if !math.IsInf(rules.Costs.Jump, 1) {
		b.jump = price(1, rules.Costs.Jump)
	}
	link := func(edge int, line int32, cost int64) {
		e := g.Edges[edge]
		b.arcs[e.U] = append(b.arcs[e.U], arc{int32(e.V), int32(edge), line, cost})
		if e.U != e.V {
			b.arcs[e.V] = append(b.arcs[e.V], arc{int32(e.U), int32(edge), line, cost})
		}
	}
	onSeam := map[int]bool{}
	for _, i := range seams {
		if e := g.Edges[i]; !e.Kind.Must() && !rules.NoSeams && !slices.Contains(rules.Barred, e.Stroke) {
			link(i, -1, price(e.Length, rules.Costs.Seam))
			onSeam[e.U], onSeam[e.V] = true, true
		}
	}
	for k, l := range b.lines {
		if k >= maskLines {
			break
		}
		for _, i := range l.Edges {
			link(i, int32(k), price(g.Edges[i].Length, rules.Costs.Retrace))
		}
	}
	touched := map[int]int{} // by how many lines
	for _, l := range b.lines {
		for _, v := range slices.Compact(slices.Sorted(slices.Values(l.Nodes))) {
			touched[v]++
		}
	}
	most := 6
	if len(b.lines) > mostExact {
		most = 3
	}
	for k, l := range b.lines {
		b.walks = append(b.walks, l.walks(k, most, func(v int) bool { return onSeam[v] || touched[v] > 1 })...)
	}
	b.dirs = newHeadings(g)
	for i, w := range b.walks {
		from, to := b.lines[w.Line].ends(w)
		b.lineOf = append(b.lineOf, w.Line)
		b.from, b.to = append(b.from, b.put(from)), append(b.to, b.put(to))
		b.back = append(b.back, i^1)
	}
	for _, v := range extra {
		b.put(v)
	}
	return b
}

// put makes a station of a junction.
func (b *ground) put(node int) int {
	if s, known := b.station[int32(node)]; known {
		return s
	}
	s := len(b.nodes)
	b.station[int32(node)] = s
	b.nodes = append(b.nodes, int32(node))
	b.ways = nil
	return s
}

// sewn returns the length of all lines in mm.
func (b *ground) sewn() float64 {
	sum := 0.0
	for _, l := range b.lines {
		sum += l.Length
	}
	return sum
}

// heading returns the direction in which walk w sets out, and that in which it
// arrives, in radians.
func (b *ground) heading(w int) (out, in float64) {
	edges, back := b.lines[b.lineOf[w]].pieces(b.walks[w])
	last := len(edges) - 1
	return b.dirs.leaving(edges[0], back[0]), b.dirs.arriving(edges[last], back[last])
}

// breaks tells whether a hand that goes on from walk a with walk b, at the same
// junction, turns sharply.
func (b *ground) breaks(v, w int) bool {
	n := len(b.walks)
	if b.big() {
		out, _ := b.heading(w)
		_, in := b.heading(v)
		return turnBetween(in, out) >= BreakTurn
	}
	if b.turned == nil {
		b.turned = make([]bool, n*n)
		outs, ins := make([]float64, n), make([]float64, n)
		for i := range n {
			outs[i], ins[i] = b.heading(i)
		}
		for i := range n {
			for k := range n {
				b.turned[i*n+k] = turnBetween(ins[i], outs[k]) >= BreakTurn
			}
		}
	}
	return b.turned[v*n+w]
}
