package route

import "math"

// stringing is the state of the dynamic programme along a row: the least turning
// between blocks if a block is walked in one of its two ways, and the way of the
// block before.
type stringing struct {
	turned float64
	from   int
}

// stringUp joins the cut tours of a row. Each may be walked as it is or backwards,
// its ways there and home changing places; of all choices the one that turns
// least between blocks is taken.
func (n *network) stringUp(cuts []cutTour) []Step {
	ways := make([][2]cutTour, len(cuts))
	states := make([][2]stringing, len(cuts))
	for i, c := range cuts {
		ways[i] = [2]cutTour{c, c.backwards()}
		for k := 0; k < 2 && i > 0; k++ {
			states[i][k].turned = math.Inf(1)
			for was := range 2 {
				before, now := ways[i-1][was], ways[i][k]
				t := states[i-1][was].turned + n.turnInto(before.there, now.there) + n.turnInto(now.home, before.home)
				if t < states[i][k].turned {
					states[i][k] = stringing{t, was}
				}
			}
		}
	}
	last := len(cuts) - 1
	k := 0
	if states[last][1].turned < states[last][0].turned {
		k = 1
	}
	for i := last; i >= 0; i-- {
		cuts[i] = ways[i][k]
		k = states[i][k].from
	}
	var steps []Step
	for _, c := range cuts {
		steps = append(steps, c.there...)
	}
	for i := last; i >= 0; i-- {
		steps = append(steps, cuts[i].home...)
	}
	settle(steps)
	return steps
}

// backwards returns the tour walked the other way round.
func (c cutTour) backwards() cutTour {
	if len(c.home) == 0 {
		return cutTour{there: reversed(c.there)}
	}
	return cutTour{there: reversed(c.home), home: reversed(c.there)}
}

// turnInto returns the turn between the last of some steps and the first of the
// next, 0 if there are none or one of them is a stop.
func (n *network) turnInto(a, b []Step) float64 {
	if len(a) == 0 || len(b) == 0 {
		return 0
	}
	p, q := a[len(a)-1], b[0]
	if p.Way == Jump || q.Way == Jump {
		return 0
	}
	return n.dirs.turn(p.arrives(), q.leaves())
}
