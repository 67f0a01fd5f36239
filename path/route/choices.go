package route

import "slices"

// pairingSearch looks for a better tour through all choices of pairings at the
// crowded junctions, by branch and bound; the other junctions start from their
// cheapest pairings and are joined up exactly.
type pairingSearch struct {
	best    *circuits
	part    *circuits // the choices so far; elsewhere the cheapest pairings
	scratch *circuits
	lists   [][]pairing
	rest    []int64 // the least that the lists from here on cost
	budget  *int
}

// searchPairings improves c, starting from first, the cheapest pairings. It
// returns true if it got through, so that c is the best there is.
func (c *circuits) searchPairings(first []int32, budget *int) bool {
	w := c.w
	s := &pairingSearch{
		best: c, part: &circuits{w: w, mate: slices.Clone(first)}, scratch: &circuits{w: w, mate: slices.Clone(first)},
		budget: budget,
	}
	base := int64(0) // of the junctions that are not crowded
	for v, darts := range w.at {
		switch {
		case len(darts) > mostListed:
			return false
		case w.crowded(v):
			list := w.pairings(darts)
			slices.SortFunc(list, pairing.compare)
			s.lists = append(s.lists, list)
		default:
			for _, p := range s.part.passages(v) {
				base += w.cost(p[0], p[1])
			}
		}
	}
	slices.SortFunc(s.lists, func(a, b []pairing) int { return len(b) - len(a) })
	s.rest = make([]int64, len(s.lists)+1)
	for i := len(s.lists) - 1; i >= 0; i-- {
		s.rest[i] = s.rest[i+1] + s.lists[i][0].cost
	}
	s.choose(0, base)
	return *budget >= 0
}

// choose tries the pairings of list i and those after it; sum is the cost of all
// that is chosen.
func (s *pairingSearch) choose(i int, sum int64) {
	if i == len(s.lists) {
		*s.budget -= len(s.best.w.arcs)
		s.takeIfBetter(sum)
		return
	}
	for _, p := range s.lists[i] {
		if *s.budget < 0 || sum+p.cost+s.rest[i+1] >= s.best.cost {
			return
		}
		s.part.pair(p)
		s.choose(i+1, sum+p.cost)
	}
}

// takeIfBetter joins up the circuits of the choices, which cost sum, at the
// junctions that are not crowded, and takes them over if they beat the best.
func (s *pairingSearch) takeIfBetter(sum int64) {
	t := s.scratch
	copy(t.mate, s.part.mate)
	t.cost = sum
	t.trace()
	if t.joinUp(func(v int) bool { return !t.w.crowded(v) }) == nil && t.cost < s.best.cost {
		copy(s.best.mate, t.mate)
		s.best.cost = t.cost
		s.best.trace()
	}
}
