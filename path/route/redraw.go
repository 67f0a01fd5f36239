package route

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"unthreaded/path/geom"
	"unthreaded/path/route/matching"
)

func isApart(err error) bool { return errors.Is(err, ErrApart) }

func ignoreApart(err error) error {
	if isApart(err) {
		return nil
	}
	return err
}

// candidate is a change that is still to be solved, the least that it is known to
// save and the most that it can.
type candidate struct {
	change      Change
	least, most float64
}

// tryBest solves candidates until none of the rest can beat the best that are
// kept, or the budget is used up. Where least and most meet nothing is left to
// solve.
func (t *trial) tryBest(list []candidate, solve func(Change) (float64, error)) error {
	slices.SortStableFunc(list, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(b.least, a.least), cmp.Compare(b.most, a.most),
			cmp.Compare(a.change.LengthMM, b.change.LengthMM))
	})
	var best []Change
	budget := max(trialWork, len(t.n.lines))
	for _, c := range list {
		if len(best) == mostOfAKind && c.most <= best[mostOfAKind-1].Saves+costSlack {
			continue
		}
		added := t.now - c.most
		if c.least < c.most-costSlack {
			if budget -= len(t.n.lines); budget < 0 {
				t.untried++
				continue
			}
			var err error
			if added, err = solve(c.change); err != nil {
				return err
			}
		}
		c.change.Added, c.change.Saves = added, t.now-added
		if c.change.Saves <= costSlack {
			continue
		}
		best = append(best, c.change)
		slices.SortStableFunc(best, func(a, b Change) int { return cmp.Compare(b.Saves, a.Saves) })
		best = best[:min(len(best), mostOfAKind)]
	}
	t.found = append(t.found, best...)
	return nil
}

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
	return t.tryBest(list, t.withoutLine)
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

// tryLines joins each two odd junctions in sight of each other by a straight
// line. It can save no more than the walk between them, which could be walked
// instead; if the ends stay, a band with both or neither of them inside still
// proves its share, so it can save no more than the other bands. Lines that are
// longer than what they save are not given.
func (t *trial) tryLines() error {
	var list []candidate
	for i, u := range t.proof.odd {
		for k, v := range t.proof.odd[:i] {
			c := blank(AddLine)
			c.From, c.To = int(v), int(u)
			c.LengthMM = geom.Dist(t.n.g.Nodes[u], t.n.g.Nodes[v])
			most := t.mostBetween(i, k)
			if most < c.LengthMM*t.rules.Costs.Retrace {
				continue
			}
			cand := candidate{change: c, most: most}
			if t.proof.match.Mate[i] == k && t.replaces(i, k) {
				// Without their walk the rest is a join; no line between them saves more
				// than the walk.
				cand.most = mm(t.proof.dist[i*len(t.proof.odd)+k])
				cand.least = cand.most
				if !t.inSight(c.From, c.To) {
					continue
				}
			}
			list = append(list, cand)
		}
	}
	return t.tryBest(list, func(c Change) (float64, error) {
		if !t.inSight(c.From, c.To) {
			return math.Inf(1), nil
		}
		added, err := t.withLine(c)
		if t.now-added < c.LengthMM*t.rules.Costs.Retrace {
			added = math.Inf(1)
		}
		return added, err
	})
}

// replaces tells whether a line between the matched odd junctions i and k can
// stand for the walk between them: whether all still hangs together.
func (t *trial) replaces(i, k int) bool {
	if t.reasons.LooseMM > 0 {
		return false
	}
	u, v := t.proof.odd[i], t.proof.odd[k]
	goal := make([]bool, t.n.junctions())
	goal[v] = true
	t.finder.bans = t.demand.bans
	extra := slices.Clone(t.join.extra)
	t.n.walk(t.search([]int32{u}, goal, 1), v, func(l int32) { extra[l] ^= 1 })
	parts := t.n.parts(t.must, extra)
	parts.union(u, v)
	return parts.together(t.n.anchors(t.demand))
}

// mostBetween returns the most that a line between the odd junctions i and k can
// save.
func (t *trial) mostBetween(i, k int) float64 {
	if t.rules.Ends.freeEnds() > 0 || t.reasons.LooseMM > 0 {
		if d := t.proof.dist[i*len(t.proof.odd)+k]; d != matching.Missing {
			return mm(d) + t.reasons.LooseMM
		}
		return t.now
	}
	most := 0.0
	for _, b := range t.reasons.Bands {
		if slices.Contains(b.Members, int(t.proof.odd[i])) != slices.Contains(b.Members, int(t.proof.odd[k])) {
			most += b.Width
		}
	}
	return most
}

// withLine solves the drawing with one more line to be sewn.
func (t *trial) withLine(c Change) (float64, error) {
	n := *t.n
	extra := line{u: int32(c.From), v: int32(c.To), cost: price(c.LengthMM, t.rules.Costs.Retrace)}
	n.lines = append(slices.Clone(n.lines), extra)
	n.index()
	d := t.demand
	d.must = append(slices.Clone(d.must), true)
	d.bans = append(slices.Clone(d.bans), false)
	with := trial{finder: &finder{n: &n, work: t.work}, demand: d}
	_, added, err := with.solve(d)
	return added, err
}

// inSight tells whether a straight line between two junctions comes near no
// other line, apart from its ends, where lines may meet it at 7 degrees or more.
func (t *trial) inSight(u, v int) bool {
	p, q := t.n.g.Nodes[u], t.n.g.Nodes[v]
	length := geom.Dist(p, q)
	if length < sameMM {
		return false
	}
	back := math.Min(2, length/4)
	clear := back / 8
	a, b := geom.Lerp(p, q, back/length), geom.Lerp(p, q, 1-back/length)
	for _, e := range t.n.g.Edges {
		for i := 1; i < len(e.Path); i++ {
			if segmentsNear(a, b, e.Path[i-1], e.Path[i], clear) {
				return false
			}
		}
	}
	return true
}

// segmentsNear tells whether the segments a-b and c-d come within dist mm.
func segmentsNear(a, b, c, d geom.Point, dist float64) bool {
	side := func(p, q, r geom.Point) bool { return (q.X-p.X)*(r.Y-p.Y) > (q.Y-p.Y)*(r.X-p.X) }
	if side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b) {
		return true
	}
	to := func(p, q, r geom.Point) float64 {
		_, nearest := geom.NearestOnSegment(p, q, r)
		return geom.Dist(p, nearest)
	}
	return min(to(a, c, d), to(b, c, d), to(c, a, b), to(d, a, b)) < dist
}
