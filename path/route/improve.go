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
	bound := c.cost - c.loose
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
