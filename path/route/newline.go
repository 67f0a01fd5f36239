package route

import (
	"math"
	"slices"

	"unthreaded/path/geom"
	"unthreaded/path/route/matching"
)

// tryLines joins each two odd junctions in sight of each other by a straight
// line. It can save no more than the walk between them, which could be walked
// instead; if the ends stay, a band with both or neither of them inside still
// proves its share, so it can save no more than the other bands. Lines that are
// longer than what they save are not given.
func (t *trial) tryLines() error {
	var list []candidate
	round := t.bandsRound()
	for i, u := range t.proof.odd {
		for k, v := range t.proof.odd[:i] {
			c := blank(AddLine)
			c.From, c.To = int(v), int(u)
			c.LengthMM = geom.Dist(t.n.g.Nodes[u], t.n.g.Nodes[v])
			most := t.mostBetween(i, k, round)
			if most < c.LengthMM*t.rules.Costs.Retrace {
				continue
			}
			cand := candidate{change: c, most: most}
			if t.proof.match.Mate[i] == k && t.replaces(i, k) {
				// Without their walk the rest is a join; no line between them saves more
				// than the walk.
				cand.most = mm(t.proof.dist[i*len(t.proof.odd)+k])
				cand.least = cand.most
			}
			list = append(list, cand)
		}
	}
	inSight := func(c Change) bool { return t.inSight(c.From, c.To) }
	return t.tryBest(list, inSight, func(c Change) (float64, error) {
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

// bandsRound lists for each odd junction the bands that it lies inside, by their
// index, ascending.
func (t *trial) bandsRound() [][]int {
	place := map[int]int{}
	for i, v := range t.proof.odd {
		place[int(v)] = i
	}
	out := make([][]int, len(t.proof.odd))
	for k, b := range t.reasons.Bands {
		for _, v := range b.Members {
			out[place[v]] = append(out[place[v]], k)
		}
	}
	return out
}

// mostBetween returns the most that a line between the odd junctions i and k can
// save, given the bands round each.
func (t *trial) mostBetween(i, k int, round [][]int) float64 {
	if t.rules.Ends.freeEnds() > 0 || t.reasons.LooseMM > 0 {
		if d := t.proof.dist[i*len(t.proof.odd)+k]; d != matching.Missing {
			return mm(d) + t.reasons.LooseMM
		}
		return t.now
	}
	most := 0.0
	a, b := round[i], round[k]
	for len(a) > 0 || len(b) > 0 {
		switch {
		case len(b) == 0 || len(a) > 0 && a[0] < b[0]:
			most += t.reasons.Bands[a[0]].Width
			a = a[1:]
		case len(a) == 0 || b[0] < a[0]:
			most += t.reasons.Bands[b[0]].Width
			b = b[1:]
		default:
			a, b = a[1:], b[1:]
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
