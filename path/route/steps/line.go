package steps

import (
	"cmp"
	"math"
	"slices"

	"unthreaded/path/geom"
	"unthreaded/path/plane"
)

// Line is a line as it was drawn: pieces of the graph, end on end.
type Line struct {
	Name string
	Kind plane.Kind
	// Edges are its pieces in drawn order, Back those that run against it, Nodes
	// the junctions that it passes, one more than pieces.
	Edges []int
	Back  []bool
	Nodes []int
	// Length is that of all pieces in mm.
	Length float64
}

// Closed tells that the line ends where it begins.
func (l Line) Closed() bool { return l.Nodes[0] == l.Nodes[len(l.Nodes)-1] }

// Lines returns the lines that the given pieces of g make up, those that have to be
// sewn, in the order of their first pieces. Pieces of one stroke, block, kind and part
// are a line; where one of them is missing between two others, it is two. Cost
// O(pieces log pieces).
func Lines(g plane.Graph, edges []int) []Line {
	type key struct {
		block, stroke string
		kind          plane.Kind
		part          int
	}
	index := map[key]int{}
	var groups [][]int
	for _, i := range edges {
		e := g.Edges[i]
		if !e.Kind.Must() {
			continue
		}
		k := key{e.Block, e.Stroke, e.Kind, e.Part}
		at, known := index[k]
		if !known {
			at = len(groups)
			index[k] = at
			groups = append(groups, nil)
		}
		groups[at] = append(groups[at], i)
	}
	var out []Line
	for _, group := range groups {
		slices.SortStableFunc(group, func(a, b int) int {
			p, q := g.Edges[a], g.Edges[b]
			return cmp.Or(cmp.Compare(math.Min(p.From, p.To), math.Min(q.From, q.To)),
				cmp.Compare(math.Max(p.From, p.To), math.Max(q.From, q.To)), cmp.Compare(a, b))
		})
		out = append(out, chains(g, group)...)
	}
	return out
}

// chains strings pieces in drawn order together, and begins another line where one
// does not go on from where the one before ends.
func chains(g plane.Graph, group []int) []Line {
	var out []Line
	for _, i := range group {
		e := g.Edges[i]
		back := e.To < e.From
		from, to := e.U, e.V
		if back {
			from, to = to, from
		}
		if n := len(out) - 1; n < 0 || out[n].Nodes[len(out[n].Nodes)-1] != from {
			out = append(out, Line{Name: e.Stroke, Kind: e.Kind, Nodes: []int{from}})
		}
		l := &out[len(out)-1]
		l.Edges, l.Back, l.Nodes = append(l.Edges, i), append(l.Back, back), append(l.Nodes, to)
		l.Length += e.Length
	}
	return out
}

// Path returns the line in mm as it was drawn.
func (l Line) Path(g plane.Graph) geom.Polyline {
	var out geom.Polyline
	for i, e := range l.Edges {
		leg := g.Edges[e].Path
		if l.Back[i] {
			leg = leg.Reversed()
		}
		out = append(out, leg...)
	}
	return out.Compact()
}

// Walk is a way to sew a line: from the piece First on, all round for a closed line,
// or for Reverse the other way. First is 0 for a line that is not closed.
type Walk struct {
	Line    int
	First   int
	Reverse bool
}

// ends returns the junctions at which a walk along the line begins and leaves.
func (l Line) ends(w Walk) (from, to int) {
	if l.Closed() {
		return l.Nodes[w.First], l.Nodes[w.First]
	}
	if w.Reverse {
		return l.Nodes[len(l.Nodes)-1], l.Nodes[0]
	}
	return l.Nodes[0], l.Nodes[len(l.Nodes)-1]
}

// pieces returns the pieces of the line in the order and direction of a walk.
func (l Line) pieces(w Walk) (edges []int, back []bool) {
	n := len(l.Edges)
	for k := range n {
		i := (w.First + k) % n
		if w.Reverse {
			i = (w.First + 2*n - 1 - k) % n
		}
		edges, back = append(edges, l.Edges[i]), append(back, l.Back[i] != w.Reverse)
	}
	return edges, back
}

// walks returns the ways to sew line number i: both directions, for a closed line
// from each of at most most junctions.
func (l Line) walks(i, most int, prefer func(node int) bool) []Walk {
	if !l.Closed() {
		return []Walk{{Line: i}, {Line: i, Reverse: true}}
	}
	var firsts []int
	seen := map[int]bool{}
	add := func(k int) {
		if len(firsts) < most && !seen[l.Nodes[k]] {
			seen[l.Nodes[k]] = true
			firsts = append(firsts, k)
		}
	}
	add(0)
	for k := range l.Edges {
		if prefer(l.Nodes[k]) {
			add(k)
		}
	}
	for k := range l.Edges {
		add(k * max(1, len(l.Edges)/most) % len(l.Edges))
	}
	var out []Walk
	for _, k := range firsts {
		out = append(out, Walk{Line: i, First: k}, Walk{Line: i, First: k, Reverse: true})
	}
	return out
}
