package plane

import (
	"fmt"
	"math"
	"sort"

	"unthreaded/path/geom"
)

// check walks over a result independently of how it was made and returns what is
// wrong with it: edges that do not end at their nodes, pieces that meet anywhere
// but in nodes, lengths that do not add up, nodes that should have been merged,
// Euler's formula.
func check(strokes []Stroke, r Result) error {
	var drawn, kept float64
	for _, s := range strokes {
		if s.Length > 0 {
			drawn += s.Length
		} else {
			drawn += s.Path.Length()
		}
	}
	kept = length(r.Graph)
	for _, d := range r.Doubled {
		kept += d.Length
	}
	for _, c := range r.Trimmed {
		kept += c.Length
	}
	if math.Abs(drawn-kept) > 1e-9*(1+drawn) {
		return fmt.Errorf("%.9f mm were drawn, %.9f came out", drawn, kept)
	}
	if err := checkEnds(r.Graph); err != nil {
		return err
	}
	if err := checkMeetings(r.Graph); err != nil {
		return err
	}
	_, pieces := r.Components()
	if v, e, f := len(r.Nodes), len(r.Edges), len(r.Faces); v-e+f != pieces {
		return fmt.Errorf("%d nodes - %d edges + %d bounded faces are not %d pieces", v, e, f, pieces)
	}
	for i, f := range r.Faces {
		if !(f.Area > 0) {
			return fmt.Errorf("face %d has area %v", i, f.Area)
		}
	}
	return nil
}

func checkEnds(g Graph) error {
	lines := make([]map[string]int, len(g.Nodes))
	loops := make([]bool, len(g.Nodes))
	for i := range lines {
		lines[i] = map[string]int{}
	}
	for i, e := range g.Edges {
		if len(e.Path) < 2 || e.Path[0] != g.Nodes[e.U] || e.Path[len(e.Path)-1] != g.Nodes[e.V] {
			return fmt.Errorf("edge %d does not run from its node U to its node V: %v", i, e)
		}
		if e.Length < 0 {
			return fmt.Errorf("edge %d has length %v", i, e.Length)
		}
		key := e.Stroke + "|" + e.Block + "|" + string(e.Kind)
		lines[e.U][key]++
		lines[e.V][key]++
		loops[e.U] = loops[e.U] || e.U == e.V
	}
	for i, l := range lines {
		ends := 0
		for _, n := range l {
			ends += n
		}
		if ends == 0 {
			return fmt.Errorf("node %d belongs to no edge", i)
		}
		if ends == 2 && len(l) == 1 && !loops[i] {
			return fmt.Errorf("node %d at %v joins two pieces of one line and nothing else", i, g.Nodes[i])
		}
	}
	return nil
}

// segment is piece k of the path of an edge.
type segment struct {
	a, b    gridPoint
	edge, k int
}

// checkMeetings tries all pairs of pieces with whole numbers: they may share end
// points that are nodes, or be neighbours on one edge, and nothing else. Cost
// O(n^2).
func checkMeetings(g Graph) error {
	isNode := map[gridPoint]bool{}
	for _, n := range g.Nodes {
		p := toGrid(n)
		if p.mm() != n {
			return fmt.Errorf("node %v is not on the grid", n)
		}
		if isNode[p] {
			return fmt.Errorf("two nodes at %v", n)
		}
		isNode[p] = true
	}
	var all []segment
	for i, e := range g.Edges {
		for k := 1; k < len(e.Path); k++ {
			all = append(all, segment{toGrid(e.Path[k-1]), toGrid(e.Path[k]), i, k})
		}
	}
	for i, s := range all {
		for _, t := range all[:i] {
			if err := checkPair(s, t, isNode); err != nil {
				return err
			}
		}
	}
	return nil
}

// checkPair looks at two pieces; t comes before s.
func checkPair(s, t segment, isNode map[gridPoint]bool) error {
	if max(s.a.x, s.b.x) < min(t.a.x, t.b.x) || max(t.a.x, t.b.x) < min(s.a.x, s.b.x) {
		return nil
	}
	if _, ok := crossing(s.a, s.b, t.a, t.b); ok {
		return fmt.Errorf("edges %d and %d cross between %v-%v and %v-%v", s.edge, t.edge, s.a, s.b, t.a, t.b)
	}
	if side(s.a, s.b) == side(t.a, t.b) {
		return fmt.Errorf("edges %d and %d lie on each other at %v-%v", s.edge, t.edge, s.a, s.b)
	}
	for _, c := range [4][3]gridPoint{{s.a, t.a, t.b}, {s.b, t.a, t.b}, {t.a, s.a, s.b}, {t.b, s.a, s.b}} {
		p, a, b := c[0], c[1], c[2]
		atEnd := p == a || p == b
		neighbours := s.edge == t.edge && s.k == t.k+1 && p == s.a
		if !atEnd && cross(a, b, p) == 0 && dot(p, a, b) < 0 || atEnd && !isNode[p] && !neighbours {
			return fmt.Errorf("edges %d and %d touch at %v, where no node is", s.edge, t.edge, p)
		}
	}
	return nil
}

// asStrokes returns the edges of a graph as strokes.
func asStrokes(g Graph) []Stroke {
	var out []Stroke
	for _, e := range g.Edges {
		out = append(out, Stroke{Name: e.Stroke, Kind: e.Kind, Block: e.Block, Path: e.Path, Length: e.Length})
	}
	return out
}

// sketchOf returns the edges as sorted lines of text, the same for graphs that
// differ only in the order and direction of their edges, and for a closed line
// in its start.
func sketchOf(g Graph) []string {
	var out []string
	for _, e := range g.Edges {
		path := e.Path
		a := geom.Format(path)
		if b := geom.Format(path.Reversed()); b < a {
			a = b
		}
		out = append(out, fmt.Sprintf("%s|%s|%s|%.6f|%s", e.Stroke, e.Kind, e.Block, e.Length, a))
	}
	sort.Strings(out)
	return out
}
