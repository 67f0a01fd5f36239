package plane

import "math"

// dropRedrawn looks for stretches that were drawn twice, not exactly on each
// other but within snap mm, and keeps one. Such a stretch is a run of slivers:
// faces between two chains. A run counts only if one of the two chains ends or
// makes a corner in it; two curves that merely cross at a small angle, or
// touch, share no stretch and are left alone. The slivers are looked for anew
// after each change, so a third copy is compared with the one that stayed and no
// line is moved step by step.
func (p *pieces) dropRedrawn(snap float64) {
	for {
		found := p.complete(p.slivers(snap))
		touched := map[int]bool{}
		for _, s := range found {
			if !s.touches(touched) {
				p.drop(s, touched, snap)
			}
		}
		if len(touched) == 0 {
			return
		}
		p.removeEmptied()
	}
}

// complete returns those slivers whose run has a tip of one of the two chains, or
// a place where one begins to lie exactly on the other.
func (p *pieces) complete(all []sliver) []sliver {
	at := map[spot][]int{}
	for i, s := range all {
		for _, node := range [2]int{s.a, s.b} {
			k := newSpot(p.nodes[node], s.chain[0], s.chain[1])
			at[k] = append(at[k], i)
		}
	}
	var kept []sliver
	seen := make([]bool, len(all))
	for i := range all {
		if seen[i] {
			continue
		}
		seen[i] = true
		run, tips := []int{i}, false
		for n := 0; n < len(run); n++ {
			s := all[run[n]]
			for _, node := range [2]int{s.a, s.b} {
				k := newSpot(p.nodes[node], s.chain[0], s.chain[1])
				tips = tips || p.overlaps[k] || p.tips[tip{k.at, k.low}] || p.tips[tip{k.at, k.high}]
				for _, next := range at[k] {
					if !seen[next] {
						seen[next] = true
						run = append(run, next)
					}
				}
			}
		}
		if tips {
			for _, n := range run {
				kept = append(kept, all[n])
			}
		}
	}
	return kept
}

// drop keeps one side of the sliver. The stronger line gives the name and the
// length; the side that other lines join on the way gives the place, else the
// stronger line too. If both sides are joined on the way the sliver stays. It
// notes in touched the edges it looked at.
func (p *pieces) drop(s sliver, touched map[int]bool, snap float64) {
	win := p.winner(s)
	stay := win
	if p.joinedOnTheWay(s.sides[1-win]) {
		stay = 1 - win
	}
	if p.joinedOnTheWay(s.sides[1-stay]) {
		return
	}
	p.w.reportDouble(p.stretch(s.sides[win]), p.stretch(s.sides[1-win]), snap)
	if stay != win {
		p.rename(s.sides[stay], s.sides[win])
	}
	for _, h := range s.sides[1-stay] {
		p.list[h.Edge()].path = nil
	}
	for _, side := range s.sides {
		for _, h := range side {
			touched[h.Edge()] = true
		}
	}
}

// joinedOnTheWay tells whether another line ends or passes at an inner node of a
// side.
func (p *pieces) joinedOnTheWay(side []HalfEdge) bool {
	for _, h := range side[1:] {
		ends := 0
		for _, e := range p.list {
			if e.path == nil {
				continue
			}
			if e.u == p.tail(h) {
				ends++
			}
			if e.v == p.tail(h) {
				ends++
			}
		}
		if ends > 2 {
			return true
		}
	}
	return false
}

// winner returns the side of the stronger chain, or else the longer side.
func (p *pieces) winner(s sliver) int {
	switch {
	case p.w.chainBeats(s.chain[0], s.chain[1]):
		return 0
	case p.w.chainBeats(s.chain[1], s.chain[0]):
		return 1
	case p.length(s.sides[0]) >= p.length(s.sides[1]):
		return 0
	}
	return 1
}

// stretch returns where on its chain a side lies.
func (p *pieces) stretch(side []HalfEdge) stretch {
	e := p.list[side[0].Edge()]
	out := stretch{e.chain, e.from, e.to}
	for _, h := range side[1:] {
		e = p.list[h.Edge()]
		out.from, out.to = math.Min(out.from, e.from), math.Max(out.to, e.to)
	}
	return out
}

func (p *pieces) length(side []HalfEdge) float64 {
	var sum float64
	for _, h := range side {
		sum += p.list[h.Edge()].length
	}
	return sum
}

// rename gives the pieces of a side to the line of another, which runs from the
// same start to the same end, and shares out its length and its direction.
func (p *pieces) rename(side, by []HalfEdge) {
	line, on, length := p.list[by[0].Edge()].line, p.stretch(by), p.length(by)
	whole, before := p.length(side), 0.0
	for _, h := range side {
		f := p.list[h.Edge()]
		share := f.length / whole
		start := before
		before += share
		if h.Forward() != by[0].Forward() {
			f = f.reversed()
		}
		if !by[0].Forward() {
			start = 1 - before
		}
		f.chain, f.line = on.chain, line
		f.length = share * length
		f.from = on.from + start*(on.to-on.from)
		f.to = f.from + share*(on.to-on.from)
		f.ends = [2]mark{{on.chain, f.from}, {on.chain, f.to}}
		p.list[h.Edge()] = f
	}
}

// removeEmptied takes the dropped pieces off the list.
func (p *pieces) removeEmptied() {
	kept := p.list[:0]
	for _, e := range p.list {
		if e.path != nil {
			kept = append(kept, e)
		}
	}
	p.list = kept
}
