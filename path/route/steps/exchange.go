package steps

import "slices"

// mostExchanged is the number of lines up to which an order is improved; beyond it
// the order in which the lines were drawn is kept.
const mostExchanged = 300

// exchangeWork bounds the exchanges that are looked at for one pair of ends: a few
// milliseconds.
const exchangeWork = 400_000

// exchange is the search for a good order of many lines: it begins with the order in
// which they were drawn, with its reverse and with the nearest next line each time, and
// improves the best by turning stretches of the order round (Croes, Oper. Res. 6,
// 1958) and by moving up to three lines elsewhere (Or, 1976, from memory). The fixed
// walk stands for the far end of a row, where the way out becomes the way home.
type exchange struct {
	b           *ground
	entry, exit int
	// far are the stations by which the order has to come on its way, and go on
	// from; no walk of the ground, but number len(walks). nil for none.
	far *[2]int
}

const farWalk = -1

// begins and ends of a walk, the far one included.
func (x *exchange) begins(w int) int {
	if w == farWalk {
		return x.far[0]
	}
	return x.b.from[w]
}

func (x *exchange) leaves(w int) int {
	if w == farWalk {
		return x.far[1]
	}
	return x.b.to[w]
}

func (x *exchange) back(w int) int {
	if w == farWalk {
		return w
	}
	return x.b.back[w]
}

// hop returns what it costs to go on from walk v with walk w.
func (x *exchange) hop(v, w int, sewn mask) int64 {
	if v != farWalk && w != farWalk {
		return x.b.between(v, w, sewn)
	}
	return x.b.across(x.leaves(v), x.begins(w), sewn)
}

// cost returns what an order adds, unreached if it cannot be sewn. Cost O(n).
func (x *exchange) cost(order []int) int64 {
	var sewn mask
	at, sum := -1, int64(0)
	for i, w := range order {
		if i == 0 {
			sum += x.b.across(x.entry, x.begins(w), sewn)
		} else {
			sum += x.hop(at, w, sewn)
		}
		if sum >= unreached {
			return unreached
		}
		if w != farWalk && x.b.lineOf[w] < maskLines {
			sewn = sewn.with(x.b.lineOf[w])
		}
		at = w
	}
	if at == -1 && len(order) == 0 {
		return x.b.across(x.entry, x.exit, sewn)
	}
	sum += x.b.across(x.leaves(at), x.exit, sewn)
	return min(sum, unreached)
}

// low returns the least that a hop can cost whatever is sewn; v or w is none where
// the order begins or ends.
const none = -2

func (x *exchange) low(v, w int) int64 {
	s, t := x.entry, x.exit
	if v != none {
		s = x.leaves(v)
	}
	if w != none {
		t = x.begins(w)
	}
	if s == t {
		if v >= 0 && w >= 0 && x.b.breaks(v, w) {
			return 1
		}
		return 0
	}
	list := x.b.row(s)[t]
	if len(list) == 0 {
		return unreached
	}
	return list[0].cost + 1
}

// oriented returns the walks of lines in a given order that cost least, by dynamic
// programming over the walks of each line.
func (x *exchange) oriented(lines []int, of [][]int) []int {
	type state struct {
		cost int64
		came int
	}
	var sewn mask
	states := make([][]state, len(lines))
	choices := make([][]int, len(lines))
	for i, l := range lines {
		choices[i] = []int{farWalk}
		if l != farWalk {
			choices[i] = of[l]
		}
		for _, w := range choices[i] {
			best := state{cost: unreached}
			if i == 0 {
				best.cost = x.b.across(x.entry, x.begins(w), sewn)
			} else {
				for k, v := range choices[i-1] {
					if c := states[i-1][k].cost + x.hop(v, w, sewn); c < best.cost {
						best = state{c, k}
					}
				}
			}
			states[i] = append(states[i], best)
		}
		if l != farWalk && l < maskLines {
			sewn = sewn.with(l)
		}
	}
	last := len(lines) - 1
	k, least := 0, int64(unreached)
	for i, s := range states[last] {
		if c := s.cost + x.b.across(x.leaves(choices[last][i]), x.exit, sewn); c < least {
			k, least = i, c
		}
	}
	out := make([]int, len(lines))
	for i := last; i >= 0; i-- {
		out[i] = choices[i][k]
		k = states[i][k].came
	}
	return out
}

// nearest returns the order that always goes on with the cheapest next line.
func (x *exchange) nearest() []int {
	var order []int
	var sewn mask
	left := make(map[int]bool, len(x.b.lines))
	for l := range x.b.lines {
		left[l] = true
	}
	at := none
	for len(left) > 0 {
		best, least := none, int64(unreached)+1
		for w, l := range x.b.lineOf {
			if !left[l] {
				continue
			}
			c := int64(0)
			if at == none {
				c = x.b.across(x.entry, x.b.from[w], sewn)
			} else {
				c = x.b.between(at, w, sewn)
			}
			if c < least {
				best, least = w, c
			}
		}
		order = append(order, best)
		delete(left, x.b.lineOf[best])
		if l := x.b.lineOf[best]; l < maskLines {
			sewn = sewn.with(l)
		}
		at = best
	}
	if x.far != nil {
		order = x.withFar(order)
	}
	return order
}

// withFar puts the far end where it costs least.
func (x *exchange) withFar(order []int) []int {
	var best []int
	least := int64(unreached) + 1
	for i := 0; i <= len(order); i++ {
		try := slices.Insert(slices.Clone(order), i, farWalk)
		if c := x.cost(try); c < least {
			best, least = try, c
		}
	}
	return best
}

// natural returns the order in which the lines were drawn, or its reverse, each line
// turned so that it costs least.
func (x *exchange) natural(reverse bool, of [][]int) []int {
	lines := make([]int, len(x.b.lines))
	for i := range lines {
		lines[i] = i
	}
	if reverse {
		slices.Reverse(lines)
	}
	order := x.oriented(lines, of)
	if x.far != nil {
		order = x.withFar(order)
	}
	return order
}

// natureShare is how much more an order may add, as a share of the length sewn, if
// the lines are sewn as they were drawn: an order of a motif's own is remembered. A
// judgement of ours.
const natureShare = 0.02

// best returns the best order found and its cost. Warm is one more order to begin
// with, nil for none.
func (x *exchange) best(warm []int) ([]int, int64) {
	of := make([][]int, len(x.b.lines))
	for w, l := range x.b.lineOf {
		of[l] = append(of[l], w)
	}
	drawn := x.natural(false, of)
	drawnCost := x.cost(drawn)
	if back := x.natural(true, of); x.cost(back) < drawnCost {
		drawn, drawnCost = back, x.cost(back)
	}
	order, cost := drawn, drawnCost
	if x.b.big() {
		return order, cost
	}
	starts := [][]int{x.nearest()}
	if warm != nil {
		starts = append(starts, warm)
	}
	for _, o := range starts {
		if c := x.cost(o); c < cost {
			order, cost = o, c
		}
	}
	budget := exchangeWork
	order, cost = x.improved(slices.Clone(order), cost, &budget)
	if slack := price(x.b.sewn(), natureShare); drawnCost <= cost+slack {
		return drawn, drawnCost
	}
	return order, cost
}

// improved makes exchanges while they save and the budget lasts.
func (x *exchange) improved(order []int, cost int64, budget *int) ([]int, int64) {
	n := len(order)
	at := func(i int) int {
		if i < 0 || i >= n {
			return none
		}
		return order[i]
	}
	try := func(next []int) bool {
		*budget -= n
		c := x.cost(next)
		if c < cost {
			order, cost = next, c
			return true
		}
		return false
	}
	back := func(w int) int {
		if w == none {
			return none
		}
		return x.back(w)
	}
	for again := true; again && *budget > 0; {
		again = false
		for i := 0; i < n && *budget > 0; i++ {
			for k := i; k < n; k++ {
				*budget--
				// Turn the stretch from i to k round.
				before, after := at(i-1), at(k+1)
				gain := x.low(before, at(i)) + x.low(at(k), after) - x.low(before, back(at(k))) - x.low(back(at(i)), after)
				if gain > 0 && try(turned(order, x, i, k)) {
					again = true
				}
			}
			for size := 1; size <= 3 && i+size <= n; size++ {
				again = x.moveElsewhere(&order, &cost, i, size, budget) || again
			}
		}
	}
	return order, cost
}

// turned returns the order with the stretch from i to k the other way round.
func turned(order []int, x *exchange, i, k int) []int {
	out := slices.Clone(order)
	for a := i; a <= k; a++ {
		out[a] = x.back(order[i+k-a])
	}
	return out
}

// moveElsewhere moves size walks from place i to where they cost least, either way
// round.
func (x *exchange) moveElsewhere(order *[]int, cost *int64, i, size int, budget *int) bool {
	o := *order
	n := len(o)
	at := func(k int) int {
		if k < 0 || k >= n {
			return none
		}
		return o[k]
	}
	head, tail := o[i], o[i+size-1]
	gone := x.low(at(i-1), head) + x.low(tail, at(i+size)) - x.low(at(i-1), at(i+size))
	if gone <= 0 {
		return false
	}
	for k := -1; k < n; k++ {
		if k >= i-1 && k < i+size {
			continue
		}
		*budget--
		open := x.low(at(k), at(k+1))
		for _, round := range [2]bool{false, true} {
			a, z := head, tail
			if round {
				a, z = x.back(tail), x.back(head)
			}
			if gone+open-x.low(at(k), a)-x.low(z, at(k+1)) <= 0 {
				continue
			}
			*budget -= n
			next := moved(o, x, i, size, k, round)
			if c := x.cost(next); c < *cost {
				*order, *cost = next, c
				return true
			}
		}
	}
	return false
}

// moved returns the order with size walks from place i put after place k.
func moved(o []int, x *exchange, i, size, k int, round bool) []int {
	piece := slices.Clone(o[i : i+size])
	if round {
		slices.Reverse(piece)
		for a := range piece {
			piece[a] = x.back(piece[a])
		}
	}
	rest := slices.Delete(slices.Clone(o), i, i+size)
	at := k + 1
	if k > i {
		at -= size
	}
	return slices.Insert(rest, at, piece...)
}
