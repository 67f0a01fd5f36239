package route

import (
	"cmp"
	"slices"
)

// candidate is a change that is still to be solved, the least that it is known to
// save and the most that it can.
type candidate struct {
	change      Change
	least, most float64
}

// tryBest solves the candidates that are possible until none of the rest can beat
// the best that are kept, or the budget is used up. Where least and most meet
// nothing is left to solve.
func (t *trial) tryBest(list []candidate, possible func(Change) bool, solve func(Change) (float64, error)) error {
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
		if !possible(c.change) {
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
