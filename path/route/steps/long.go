package steps

import (
	"errors"
	"fmt"
	"math"

	"unthreaded/path/plane"
	"unthreaded/path/route"
)

// ErrNoLong is returned where no line goes on from one block into the next.
var ErrNoLong = errors.New("no line goes on through a seam")

// PlanLong plans a row by long lines across: lines that meet at a seam and go on
// straight there, turning less than BreakTurn, are one line through all blocks, sewn
// whole; in one pass from the left of the row to its right, out and back from its left
// and home again. Orders of more than 12 lines are improved by exchange. ErrNoLong
// tells that no lines meet.
func PlanLong(g plane.Graph, row []route.Block, rules route.Rules, through route.Through) (Row, error) {
	if len(row) == 0 {
		return Row{}, ErrEmpty
	}
	var lines []Line
	var seams []int
	for _, b := range row {
		lines = append(lines, Lines(g, b.Edges)...)
		for _, e := range b.Edges {
			if !g.Edges[e].Kind.Must() {
				seams = append(seams, e)
			}
		}
	}
	long := joined(g, lines)
	if len(long) == len(lines) {
		return Row{}, ErrNoLong
	}
	start, exit := row[0].Left, row[len(row)-1].Right
	if through == route.OutAndBack {
		exit = start
	}
	p := &planner{g: g, row: row, rules: rules}
	c := &cell{lines: long, seams: seams, like: newLikeness(g, long)}
	for _, l := range long {
		c.own = append(c.own, l.Edges...)
	}
	b := groundOf(g, rules, long, seams, []int{start, exit})
	r := &rep{table: newTable(b), like: c.like}
	c.rep, c.on = r, fit{flip: make([]bool, len(long))}
	for i := range long {
		c.on.to, c.from = append(c.on.to, i), append(c.from, i)
	}
	p.cells, p.reps = []*cell{c}, []*rep{r}
	p.seams = newGround(g, rules, nil, seams, []int{start, exit})
	order := r.plan(b.station[int32(start)], b.station[int32(exit)])
	if order.cost >= unreached {
		return Row{}, fmt.Errorf("long lines across: %w", route.ErrApart)
	}
	a := &assembly{p: p}
	a.out = Row{Through: through, Different: 1, Lines: [][]Line{long}, Kinds: []int{0}, Best: r.exact != nil}
	if err := a.visit(0, 0, start, exit, order.order, nil); err != nil {
		return Row{}, err
	}
	a.out.Second = len(a.steps)
	return a.finish()
}

// lineEnd is the beginning (0) or the end (1) of a line.
type lineEnd struct{ line, end int }

// joined strings lines together where they go on straight from one block into the
// next: each end with the one that turns least, if that chooses it too.
func joined(g plane.Graph, lines []Line) []Line {
	dirs := newHeadings(g)
	block := func(l Line) string { return g.Edges[l.Edges[0]].Block }
	at := map[int][]lineEnd{}
	for i, l := range lines {
		if !l.Closed() {
			at[l.Nodes[0]] = append(at[l.Nodes[0]], lineEnd{i, 0})
			at[l.Nodes[len(l.Nodes)-1]] = append(at[l.Nodes[len(l.Nodes)-1]], lineEnd{i, 1})
		}
	}
	away := func(e lineEnd) float64 {
		l := lines[e.line]
		if e.end == 0 {
			return dirs.leaving(l.Edges[0], l.Back[0])
		}
		n := len(l.Edges) - 1
		return dirs.leaving(l.Edges[n], !l.Back[n])
	}
	mate := map[lineEnd]lineEnd{}
	for _, ends := range at {
		best := map[lineEnd]lineEnd{}
		for _, a := range ends {
			least := BreakTurn
			for _, b := range ends {
				if a.line == b.line || block(lines[a.line]) == block(lines[b.line]) || lines[a.line].Kind != lines[b.line].Kind {
					continue
				}
				if t := turnBetween(away(a), away(b)+math.Pi); t < least {
					best[a], least = b, t
				}
			}
		}
		for a, b := range best {
			if best[b] == a {
				mate[a] = b
			}
		}
	}
	return strung(lines, mate)
}

// strung makes one line of each chain of lines.
func strung(lines []Line, mate map[lineEnd]lineEnd) []Line {
	done := make([]bool, len(lines))
	var out []Line
	for i := range lines {
		if done[i] {
			continue
		}
		// Back to where the chain begins, or once round.
		here := lineEnd{i, 0}
		for {
			before, is := mate[here]
			if !is || before.line == i {
				break
			}
			here = lineEnd{before.line, 1 - before.end}
		}
		var l Line
		for {
			done[here.line] = true
			l = l.then(lines[here.line], here.end == 1)
			next, is := mate[lineEnd{here.line, 1 - here.end}]
			if !is || done[next.line] {
				break
			}
			here = next
		}
		out = append(out, l)
	}
	return out
}

// then returns the line followed by another, back if that is walked from its end.
func (l Line) then(m Line, back bool) Line {
	edges, turned := m.pieces(Walk{Reverse: back})
	nodes := append([]int(nil), m.Nodes...)
	if back {
		for a, z := 0, len(nodes)-1; a < z; a, z = a+1, z-1 {
			nodes[a], nodes[z] = nodes[z], nodes[a]
		}
	}
	if len(l.Nodes) == 0 {
		return Line{Name: m.Name, Kind: m.Kind, Edges: edges, Back: turned, Nodes: nodes, Length: m.Length}
	}
	l.Edges, l.Back, l.Nodes = append(l.Edges, edges...), append(l.Back, turned...), append(l.Nodes, nodes[1:]...)
	l.Length += m.Length
	return l
}
