package steps

import (
	"cmp"
	"slices"
)

// link is one cell of a row as the dynamic programme sees it: what it costs to sew it
// from each of its ways in to each of its ways out. In one pass a way in is an entry;
// out and back it is an entry on the way out and an exit on the way home.
type link struct {
	cost [][]int64 // by way in and way out
	// kin numbers the cells that have to be sewn alike, -1 for one that stands for
	// itself. Cells that are alike have the same ways in and out in the same order.
	kin int
	// joint is what it costs to go on to the next cell, by way out here and way in
	// there.
	joint [][]int64
}

// mode is a way in and a way out.
type mode struct{ in, out int }

// mostModes bounds the product of the modes of all kinds that are tried.
const mostModes = 20_000

// chained chooses a mode for each link so that the row costs least and links of a
// kind share one; exact tells that no choice costs less. Kinds are tried all with
// all as far as mostModes goes, each kind's dearest modes left out first; with more
// kinds one is changed at a time. Cost O(links x modes^2) for each choice tried.
func chained(links []link) (modes []mode, cost int64, exact bool) {
	kinds := 0
	for _, l := range links {
		kinds = max(kinds, l.kin+1)
	}
	fixed := make([]mode, kinds)
	if kinds == 0 {
		modes, cost = along(links, fixed)
		return modes, cost, true
	}
	lists, left := modeLists(links, kinds)
	cost = unreached
	if kinds <= 2 {
		tryAll(lists, func(choice []mode) {
			if c := costAlong(links, choice); c < cost {
				cost = c
				copy(fixed, choice)
			}
		})
	} else {
		cost = descend(links, lists, fixed)
	}
	exact = kinds <= 2 && cost <= left
	modes, cost = along(links, fixed)
	return modes, cost, exact
}

// modeLists returns the modes of each kind that are tried, the cheapest first, and a
// cost that no choice with a mode left out undercuts.
func modeLists(links []link, kinds int) (lists [][]mode, left int64) {
	most := mostModes
	if kinds == 2 {
		most = 140
	}
	left = unreached
	least, out, count := make([]int64, kinds), make([]int64, kinds), make([]int64, kinds)
	free := int64(0)
	for _, l := range links {
		if l.kin < 0 {
			free += cheapest(l.cost)
			continue
		}
		count[l.kin]++
	}
	lists = make([][]mode, kinds)
	for kin := range kinds {
		l := links[slices.IndexFunc(links, func(l link) bool { return l.kin == kin })]
		var all []mode
		for in, row := range l.cost {
			for o, c := range row {
				if c < unreached {
					all = append(all, mode{in, o})
				}
			}
		}
		slices.SortStableFunc(all, func(a, b mode) int { return cmp.Compare(l.cost[a.in][a.out], l.cost[b.in][b.out]) })
		least[kin], out[kin] = cheapest(l.cost), unreached
		if len(all) > most {
			out[kin] = l.cost[all[most].in][all[most].out]
			all = all[:most]
		}
		lists[kin] = all
	}
	for kin := range kinds {
		if out[kin] >= unreached {
			continue
		}
		sum := free
		for other := range kinds {
			if other == kin {
				sum += count[kin] * out[kin]
			} else {
				sum += count[other] * least[other]
			}
		}
		left = min(left, sum)
	}
	return lists, left
}

func cheapest(cost [][]int64) int64 {
	least := int64(unreached)
	for _, row := range cost {
		for _, c := range row {
			least = min(least, c)
		}
	}
	return least
}

// tryAll calls f for every choice of one mode from each list.
func tryAll(lists [][]mode, f func([]mode)) {
	choice := make([]mode, len(lists))
	var pick func(k int)
	pick = func(k int) {
		if k == len(lists) {
			f(choice)
			return
		}
		for _, m := range lists[k] {
			choice[k] = m
			pick(k + 1)
		}
	}
	pick(0)
}

// descend changes the mode of one kind at a time while that saves, from the cheapest
// of each and from each shared way through.
func descend(links []link, lists [][]mode, fixed []mode) int64 {
	best := int64(unreached)
	for start := range 12 {
		choice := make([]mode, len(lists))
		for k, list := range lists {
			if len(list) == 0 {
				return unreached
			}
			choice[k] = list[start*k%len(list)]
			if start < len(list) && start%2 == 0 {
				choice[k] = list[start/2%len(list)]
			}
		}
		cost := costAlong(links, choice)
		for again := true; again; {
			again = false
			for k, list := range lists {
				for _, m := range list {
					was := choice[k]
					choice[k] = m
					if c := costAlong(links, choice); c < cost {
						cost, again = c, true
					} else {
						choice[k] = was
					}
				}
			}
		}
		if cost < best {
			best = cost
			copy(fixed, choice)
		}
	}
	return best
}

// stage holds the least that the links so far cost, by way out of the last.
type stage struct {
	least []int64
	came  []mode // the way in here, and the way out of the link before
}

// costAlong returns what a row costs with the modes of the kinds given.
func costAlong(links []link, fixed []mode) int64 {
	var before []int64
	for i, l := range links {
		before = l.next(links, i, before, fixed, nil)
	}
	least := int64(unreached)
	for _, c := range before {
		least = min(least, c)
	}
	return least
}

// next returns the least up to link i by way out, from that up to the link before;
// came, if not nil, takes down how.
func (l link) next(links []link, i int, before []int64, fixed []mode, came []mode) []int64 {
	ins, outs := len(l.cost), len(l.cost[0])
	arrive := make([]int64, ins)
	from := make([]int, ins)
	if i > 0 {
		for in := range arrive {
			arrive[in] = unreached
			if l.kin >= 0 && in != fixed[l.kin].in {
				continue
			}
			for o, c := range before {
				if c >= unreached {
					continue
				}
				if sum := c + links[i-1].joint[o][in]; sum < arrive[in] {
					arrive[in], from[in] = sum, o
				}
			}
		}
	}
	out := make([]int64, outs)
	for o := range out {
		out[o] = unreached
		for in := range arrive {
			if l.kin >= 0 && (fixed[l.kin] != mode{in, o}) || arrive[in] >= unreached || l.cost[in][o] >= unreached {
				continue
			}
			if sum := arrive[in] + l.cost[in][o]; sum < out[o] {
				out[o] = sum
				if came != nil {
					came[o] = mode{in, from[in]}
				}
			}
		}
	}
	return out
}

// along returns the modes of all links at the least cost.
func along(links []link, fixed []mode) ([]mode, int64) {
	stages := make([]stage, len(links))
	var before []int64
	for i, l := range links {
		stages[i].came = make([]mode, len(l.cost[0]))
		before = l.next(links, i, before, fixed, stages[i].came)
		stages[i].least = before
	}
	last := len(links) - 1
	out, cost := 0, int64(unreached)
	for o, c := range stages[last].least {
		if c < cost {
			out, cost = o, c
		}
	}
	modes := make([]mode, len(links))
	for i := last; i >= 0; i-- {
		came := stages[i].came[out]
		modes[i] = mode{came.in, out}
		out = came.out
	}
	return modes, cost
}
