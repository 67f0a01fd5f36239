package route

import (
	"math/rand/v2"
	"slices"
)

// tieWork bounds the search for smoother routes among those that add the same, in
// lines: eight tries for a block of a hundred lines, none for a whole top. Where the
// fewest moves are asked for, fewestWork does: another choice of lines to walk twice
// may spare many, and a hundred tries found the fewest of a crosshatch of 5 + 5 lines.
const tieWork, fewestWork = 800, 10_000

// mostTies bounds the tries on a small drawing.
const mostTies = 128

// smootherTie returns the smoothest of route r, made from join j and counting so
// much turning, and the routes over some other joins that cost the same to the
// last unit: the least under tie-breaks drawn at random.
func (f *finder) smootherTie(d demand, j join, bound int64, rules Rules, r Route, count int64) (Route, error) {
	n := f.n
	seen := []join{j}
	work := tieWork
	if rules.FewestMoves {
		work = fewestWork
	}
	for seed := range uint64(min(mostTies, work/len(n.lines))) {
		rng := rand.New(rand.NewPCG(seed, 1))
		tied := *n
		tied.lines = slices.Clone(n.lines)
		most := int64(1) << tieBits / int64(2*len(n.lines))
		for i := range tied.lines {
			l := &tied.lines[i]
			l.cost = l.cost>>tieBits<<tieBits + rng.Int64N(most)
		}
		k, _, err := (&finder{n: &tied}).leastJoin(d)
		if err != nil {
			return r, err
		}
		k.cost = n.costOf(k.extra)
		same := func(s join) bool { return slices.Equal(s.extra, k.extra) && s.start == k.start && s.exit == k.exit }
		if k.cost>>tieBits != j.cost>>tieBits || !n.connected(d, k) || slices.ContainsFunc(seen, same) {
			continue
		}
		seen = append(seen, k)
		other, counted, err := n.routeOf(d, k, bound, rules)
		if err != nil {
			return r, err
		}
		if counted < count {
			r, count = other, counted
		}
	}
	return r, nil
}
