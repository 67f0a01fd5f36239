package route

import "slices"

// crowded tells whether junction v has more darts than joinUp is exact for.
func (w *walks) crowded(v int) bool { return len(w.at[v]) > 4 }

// smoothWork bounds the search for smoother pairings at crowded junctions,
// counted in arcs looked at: a few milliseconds.
const smoothWork = 30_000

// smoothest returns a tour of the walks that counts little turning, and a count
// that no tour undercuts; they are equal if the tour is the best there is, which
// holds wherever no junction is crowded and within the budget elsewhere. With
// junctions of six or more the problem is NP-hard (it contains the A-trails of
// Yan & Jin, Ars Math. Contemp., 10.26493/1855-3974.2053.c7b).
func (w *walks) smoothest() (*circuits, int64, error) {
	c, err := w.cheapestCircuits()
	if err != nil {
		return nil, 0, err
	}
	bound := c.cost
	first := slices.Clone(c.mate)
	if err := c.joinUp(func(int) bool { return true }); err != nil {
		return nil, 0, err
	}
	if !slices.ContainsFunc(w.junctions(), w.crowded) || c.cost == bound {
		return c, c.cost, nil
	}
	budget := smoothWork
	c.improve(&budget)
	if c.cost == bound || c.searchPairings(first, &budget) {
		bound = c.cost
	}
	return c, bound, nil
}

func (w *walks) junctions() []int {
	out := make([]int, len(w.at))
	for v := range out {
		out[v] = v
	}
	return out
}

// improve makes exchanges at crowded junctions while the circuits stay one: a
// single one, or one that parts them and the cheapest that joins them again.
func (c *circuits) improve(budget *int) {
	for again := true; again; {
		again = false
		for v := range c.w.at {
			if !c.w.crowded(v) {
				continue
			}
			for _, s := range c.swaps(nil, v, false) {
				if s.delta >= 0 {
					continue
				}
				if *budget -= len(c.w.arcs); *budget < 0 {
					return
				}
				if c.try(s) {
					again = true
					break
				}
			}
		}
	}
}

// try makes exchange s, and another if s parts the circuit, if that saves.
func (c *circuits) try(s swap) bool {
	c.apply(s)
	c.trace()
	if c.left == 1 {
		return true
	}
	var best *swap
	for v := range c.w.at {
		for _, join := range c.swaps(nil, v, true) {
			if best == nil || join.delta < best.delta {
				best = &join
			}
		}
	}
	saves := best != nil && s.delta+best.delta < 0
	if saves {
		c.apply(*best)
	} else {
		c.apply(swap{v: s.v, a: s.a, b: s.c, c: s.b, d: s.d, delta: -s.delta})
	}
	c.trace()
	return saves
}

// searchPairings looks for a better tour through all choices of pairings at the
// crowded junctions, by branch and bound; the other junctions start from first,
// their cheapest, and are joined up exactly. It returns true if it got through,
// so that c is the best there is.
func (c *circuits) searchPairings(first []int32, budget *int) bool {
	w := c.w
	var lists [][]pairing
	for v, darts := range w.at {
		if !w.crowded(v) {
			continue
		}
		if len(darts) > mostListed {
			return false
		}
		list := w.pairings(darts)
		slices.SortFunc(list, pairing.compare)
		lists = append(lists, list)
	}
	slices.SortFunc(lists, func(a, b []pairing) int { return len(b) - len(a) })
	rest := make([]int64, len(lists)+1) // the least that the lists from here on cost
	for i := len(lists) - 1; i >= 0; i-- {
		rest[i] = rest[i+1] + lists[i][0].cost
	}
	part := &circuits{w: w, mate: slices.Clone(first)}
	scratch := &circuits{w: w, mate: slices.Clone(first)}
	base := int64(0)
	for v := range w.at {
		if !w.crowded(v) {
			for _, p := range part.passages(v) {
				base += w.cost(p[0], p[1])
			}
		}
	}
	var choose func(i int, sum int64)
	choose = func(i int, sum int64) {
		if i == len(lists) {
			*budget -= len(w.arcs)
			c.takeIfBetter(part, scratch, sum)
			return
		}
		for _, p := range lists[i] {
			if *budget < 0 || sum+p.cost+rest[i+1] >= c.cost {
				return
			}
			part.pair(p)
			choose(i+1, sum+p.cost)
		}
	}
	choose(0, base)
	return *budget >= 0
}

// takeIfBetter joins up the circuits of part, which cost sum, at the junctions
// that are not crowded, and takes them over if they beat c.
func (c *circuits) takeIfBetter(part, scratch *circuits, sum int64) {
	t := scratch
	copy(t.mate, part.mate)
	t.cost = sum
	t.trace()
	if t.joinUp(func(v int) bool { return !c.w.crowded(v) }) == nil && t.cost < c.cost {
		copy(c.mate, t.mate)
		c.cost = t.cost
		c.trace()
	}
}
