package route

import (
	"math"
	"slices"
)

// tryDrops leaves out each line, unless that tears the lines apart. It can save
// no more than its retrace, since it could be walked there and back instead; and
// if the ends stay, a band that does not pass over it still proves its share, so
// it can save no more than the bands that do. If its ends are joined by lines
// walked again (as those of a retraced line are, by itself), it saves at least
// those.
func (t *trial) tryDrops() error {
	most := make([]float64, len(t.n.g.Edges))
	if t.rules.Ends.freeEnds() > 0 {
		for i, e := range t.n.g.Edges {
			most[i] = e.Length
		}
	}
	for _, b := range t.reasons.Bands {
		for _, s := range b.Spans {
			if e := t.n.g.Edges[s.Edge]; e.Kind.Must() {
				most[s.Edge] = math.Min(most[s.Edge]+math.Abs(s.To-s.From), e.Length)
			}
		}
	}
	var list []candidate
	for i, e := range t.n.g.Edges {
		if !e.Kind.Must() || most[i]*t.rules.Costs.Retrace <= costSlack {
			continue
		}
		c := candidate{change: blank(DropLine), most: most[i] * t.rules.Costs.Retrace}
		c.change.Edge, c.change.LengthMM = i, e.Length
		c.least = t.savedAlong(i)
		c.most = math.Max(c.least, c.most)
		list = append(list, c)
	}
	return t.tryBest(list, func(Change) bool { return true }, t.withoutLine)
}

// pathAgain returns lines walked again that lead from u to v, and whether any do.
func (t *trial) pathAgain(u, v int32, seen map[int32]bool) ([]int32, bool) {
	if u == v {
		return nil, true
	}
	seen[u] = true
	for _, h := range t.n.halves(u) {
		if t.join.extra[h.line] == 0 || seen[h.to] {
			continue
		}
		if path, joined := t.pathAgain(h.to, v, seen); joined {
			return append(path, h.line), true
		}
	}
	return nil, false
}

// savedAlong returns the cost in mm of the lines walked again that join the ends
// of a line, if leaving them out together with the line leaves something that
// hangs together; else 0.
func (t *trial) savedAlong(edge int) float64 {
	l := t.n.lines[edge]
	path, joined := t.pathAgain(l.u, l.v, map[int32]bool{})
	if !joined || t.reasons.LooseMM > 0 {
		return 0
	}
	d := t.dropping(edge)
	rest := slices.Clone(t.join.extra)
	sum := 0.0
	for _, i := range path {
		rest[i]--
		sum += mm(t.n.lines[i].cost)
	}
	rest[edge] = 0
	if !slices.Contains(d.must, true) || !t.n.connected(d, join{extra: rest}) {
		return 0
	}
	return sum
}

// dropping leaves one line out of what is to be sewn.
func (t *trial) dropping(edge int) demand {
	d := t.demand
	d.must, d.bans = slices.Clone(d.must), slices.Clone(d.bans)
	d.must[edge], d.bans[edge] = false, true
	return d
}

// withoutLine solves the drawing with one line less, +Inf if that tears it apart.
func (t *trial) withoutLine(c Change) (float64, error) {
	d := t.dropping(c.Edge)
	if !slices.Contains(d.must, true) {
		return math.Inf(1), nil
	}
	j, _, err := t.leastJoin(d)
	if err != nil || !t.n.connected(d, j) {
		return math.Inf(1), ignoreApart(err)
	}
	return mm(j.cost), nil
}
