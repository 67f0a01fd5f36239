package steps

import (
	"math"
	"slices"
)

// table is a different block, planned once for each pair of its ends.
type table struct {
	b      *ground
	exact  *exact // nil where there are too many lines
	sets   map[[2]int][]int64
	known  map[[2]int]planned
	costs  map[[2]int]int64
	both   map[[4]int]twice
	twices map[[4]int]int64
	warm   []int
}

// planned is an order of the walks of a block between two ends and what it costs.
type planned struct {
	order []int
	cost  int64
}

// twice is an order in two passes: there, and home.
type twice struct {
	there, home []int
	cost        int64
	uneven      float64 // mm by which the passes differ
}

func newTable(b *ground) *table {
	t := &table{b: b, sets: map[[2]int][]int64{}, known: map[[2]int]planned{}, costs: map[[2]int]int64{}, both: map[[4]int]twice{}, twices: map[[4]int]int64{}}
	if len(b.lines) <= mostExact {
		t.exact = b.newExact()
	}
	if !t.possible() {
		b.pre = true
		b.ways = nil
		if t.exact != nil {
			t.exact = b.newExact()
		}
	}
	return t
}

// possible tells whether all lines can be reached over seams and sewn lines.
func (t *table) possible() bool {
	b := t.b
	if len(b.lines) == 0 || b.jump < unreached {
		return true
	}
	// What is sewn grows from any station as long as a line begins where sewn lines
	// and seams lead.
	var sewn mask
	left := len(b.lines)
	done := make([]bool, len(b.lines))
	at := b.from[0]
	for grown := true; grown && left > 0; {
		grown = false
		for w, l := range b.lineOf {
			if !done[l] && b.across(at, b.from[w], sewn) < unreached {
				done[l], grown = true, true
				left--
				if l < maskLines {
					sewn = sewn.with(l)
				}
				at = b.to[w]
			}
		}
	}
	return left == 0
}

// plan returns the best order between an entry and an exit, both stations.
func (t *table) plan(entry, exit int) planned {
	key := [2]int{entry, exit}
	if p, known := t.known[key]; known {
		return p
	}
	var p planned
	switch {
	case len(t.b.lines) == 0:
		p.cost = t.b.across(entry, exit, mask{})
	case t.exact != nil:
		p.cost = t.exact.all(entry, exit)
		if p.cost < unreached {
			p.order = t.exact.order(entry, exit, 1<<len(t.b.lines)-1)
		}
	default:
		x := &exchange{b: t.b, entry: entry, exit: exit}
		p.order, p.cost = x.best(t.warm)
		t.warm = p.order
	}
	t.known[key] = p
	return p
}

// cost returns what the best order adds, without making the order where that saves.
func (t *table) cost(entry, exit int) int64 {
	key := [2]int{entry, exit}
	if c, known := t.costs[key]; known {
		return c
	}
	if t.exact != nil && len(t.b.lines) > 0 {
		t.costs[key] = t.exact.all(entry, exit)
	} else {
		t.costs[key] = t.plan(entry, exit).cost
	}
	return t.costs[key]
}

// planTwice returns the best order in two passes: from a to b on the way out, from c
// to d on the way home. Of orders that cost the same that with the most even halves
// is taken.
func (t *table) planTwice(a, b, c, d int) twice {
	key := [4]int{a, b, c, d}
	if p, known := t.both[key]; known {
		return p
	}
	var p twice
	if t.exact != nil {
		p = t.exactTwice(a, b, c, d)
	} else {
		x := &exchange{b: t.b, entry: a, exit: d, far: &[2]int{b, c}}
		order, cost := x.best(nil)
		k := slices.Index(order, farWalk)
		p = twice{there: order[:k], home: order[k+1:], cost: cost}
		p.uneven = math.Abs(t.length(p.there) - t.length(p.home))
	}
	t.both[key] = p
	return p
}

// costTwice returns what planTwice adds. Where there are many lines the passes share
// their ends, so that each table is filled in good time.
func (t *table) costTwice(a, b, c, d int) int64 {
	switch {
	case t.exact != nil:
		key := [4]int{a, b, c, d}
		if least, known := t.twices[key]; known {
			return least
		}
		there, home := t.setsOf(a, b), t.setsOf(c, d)
		all, least := len(there)-1, int64(unreached)
		for set, cost := range there {
			least = min(least, cost+home[all&^set])
		}
		t.twices[key] = least
		return least
	case a != d || b != c:
		return unreached
	}
	return t.planTwice(a, b, c, d).cost
}

func (t *table) length(order []int) float64 {
	sum := 0.0
	for _, w := range order {
		sum += t.b.lines[t.b.lineOf[w]].Length
	}
	return sum
}

// exactTwice is planTwice for few lines: every way to share them between the passes.
// Travel on the way home leans on what was sewn on the way home only.
func (t *table) exactTwice(a, b, c, d int) twice {
	there, home := t.setsOf(a, b), t.setsOf(c, d)
	all := len(there) - 1
	total := t.b.sewn()
	best, at := twice{cost: unreached}, -1
	for set := range there {
		cost := there[set] + home[all&^set]
		if cost > best.cost || cost >= unreached {
			continue
		}
		part := 0.0
		for l, line := range t.b.lines {
			if set&(1<<l) != 0 {
				part += line.Length
			}
		}
		if uneven := math.Abs(total - 2*part); cost < best.cost || uneven < best.uneven-sameMM {
			best, at = twice{cost: cost, uneven: uneven}, set
		}
	}
	if at >= 0 {
		best.there, best.home = t.exact.order(a, b, at), t.exact.order(c, d, all&^at)
	}
	return best
}

func (t *table) setsOf(entry, exit int) []int64 {
	key := [2]int{entry, exit}
	if t.sets[key] == nil {
		t.sets[key] = t.exact.sets(entry, exit)
	}
	return t.sets[key]
}
