package plane

import (
	"math"

	"unthreaded/path/geom"
)

// hairpin is the turn in radians (150 degrees) from which a vertex of a stroke
// counts as a place where the hand turned back.
const hairpin = 5 * math.Pi / 6

// piece is a stretch of a chain between two nodes, or two ends of chains, with
// no node between.
type piece struct {
	u, v int
	path []gridPoint
	// chain and line tell whose piece it is; from and to are the true lengths
	// walked along the chain at its two ends, from < to.
	chain, line int
	from, to    float64
	length      float64
	// ends tell where u and v lie on their chains, which differ once pieces of
	// two chains are merged.
	ends [2]mark
}

// mark is a place on a chain: the true length in mm walked up to it.
type mark struct {
	chain int
	at    float64
}

// pieces is noded line work without doubles.
type pieces struct {
	w     *work
	nodes []gridPoint
	index map[gridPoint]int
	list  []piece
	tips  map[tip]bool
	// hairpins are the tips at which a chain turns back.
	hairpins map[tip]bool
	// ends are the nodes at which a chain ends.
	ends map[int]bool
	// overlaps are the spots at which two chains begin or cease to lie exactly on
	// each other.
	overlaps map[spot]bool
}

// tip is a place at which a chain ends or makes a corner: where it can begin or
// cease to follow another.
type tip struct {
	at    gridPoint
	chain int
}

func tips(chains []chain) map[tip]bool {
	out := map[tip]bool{}
	for id, c := range chains {
		for i, p := range c.pts {
			if i == 0 || i == len(c.pts)-1 || c.turn(i) >= geom.CornerTurn {
				out[tip{p, id}] = true
			}
		}
	}
	return out
}

// claim is a segment of a chain.
type claim struct{ chain, seg int }

// side returns the key under which the segment from a to b is the same as that
// from b to a.
func side(a, b gridPoint) [2]gridPoint {
	if b.less(a) {
		a, b = b, a
	}
	return [2]gridPoint{a, b}
}

// pieces cuts noded chains at their nodes. Of segments that lie on each other
// the one that beats the others stays; the rest is reported as doubled.
func (w *work) pieces(snap float64) *pieces {
	p := &pieces{
		w: w, index: map[gridPoint]int{}, tips: tips(w.chains),
		hairpins: map[tip]bool{}, ends: map[int]bool{},
	}
	winner, near := w.winners(), neighbours(w.chains)
	for id, c := range w.chains {
		var run *piece
		for i := 0; i+1 < len(c.pts); i++ {
			turned := c.turnsBack(i)
			if turned {
				p.hairpins[tip{c.pts[i], id}] = true
			}
			lost := winner[side(c.pts[i], c.pts[i+1])] != (claim{id, i})
			if lost || turned || len(near[c.pts[i]]) != 2 {
				p.finish(run)
				run = nil
			}
			if lost {
				continue
			}
			if run == nil {
				run = &piece{u: p.node(c.pts[i]), path: []gridPoint{c.pts[i]}, chain: id, line: c.line, from: c.at[i]}
			}
			run.path = append(run.path, c.pts[i+1])
			run.to = c.at[i+1]
		}
		p.finish(run)
		p.ends[p.node(c.first())] = true
		p.ends[p.node(c.last())] = true
	}
	p.overlaps = w.reportDoubles(winner, snap)
	return p
}

// node returns the index of the node at a place, which it makes if there is none.
func (p *pieces) node(at gridPoint) int {
	i, ok := p.index[at]
	if !ok {
		i = len(p.nodes)
		p.index[at] = i
		p.nodes = append(p.nodes, at)
	}
	return i
}

// finish adds a run of segments to the list, if there is one.
func (p *pieces) finish(run *piece) {
	if run == nil {
		return
	}
	run.v = p.node(run.path[len(run.path)-1])
	run.length = run.to - run.from
	run.ends = [2]mark{{run.chain, run.from}, {run.chain, run.to}}
	p.list = append(p.list, *run)
}

// turnsBack tells whether the chain makes a hairpin at inner vertex i.
func (c chain) turnsBack(i int) bool {
	if i == 0 || i == len(c.pts)-1 {
		return false
	}
	return c.turn(i) >= hairpin
}

// winners returns for each place of a segment which segment there is kept.
func (w *work) winners() map[[2]gridPoint]claim {
	winner := map[[2]gridPoint]claim{}
	for id, c := range w.chains {
		for i := 0; i+1 < len(c.pts); i++ {
			key := side(c.pts[i], c.pts[i+1])
			if old, ok := winner[key]; !ok || w.chainBeats(id, old.chain) {
				winner[key] = claim{id, i}
			}
		}
	}
	return winner
}

// chainBeats orders chains by their lines and within a line by length.
func (w *work) chainBeats(a, b int) bool {
	c, d := w.chains[a], w.chains[b]
	if c.line != d.line {
		return w.lines[c.line].beats(w.lines[d.line])
	}
	return math.Round(c.length()/Grid) > math.Round(d.length()/Grid)
}

// graph returns the pieces as a graph, with nodes where only two pieces of one
// line meet merged away.
func (p *pieces) graph() Graph {
	list := p.mergedPieces()
	g := p.asGraph(list)
	p.placeAlong(list, g.Edges)
	return g
}

// asGraph returns the graph of the given pieces with the nodes they use.
func (p *pieces) asGraph(list []piece) Graph {
	var g Graph
	index := map[int]int{}
	node := func(i int) int {
		n, ok := index[i]
		if !ok {
			n = len(g.Nodes)
			index[i] = n
			g.Nodes = append(g.Nodes, p.nodes[i].mm())
		}
		return n
	}
	for _, e := range list {
		l := p.w.lines[e.line]
		path := make(geom.Polyline, len(e.path))
		for i, q := range e.path {
			path[i] = q.mm()
		}
		g.Edges = append(g.Edges, Edge{
			U: node(e.u), V: node(e.v), Kind: l.kind, Stroke: l.name, Block: l.block, Path: path, Length: e.length,
		})
	}
	return g
}
