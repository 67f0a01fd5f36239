package steps

import "math/bits"

// mostExact is the number of lines up to which their order is found exactly.
const mostExact = 12

// exact is the search for the best order of few lines: the least that it costs to
// sew a set of lines from one station on and end with a given walk, by dynamic
// programming over sets (Held & Karp, J. SIAM 10, 1962; Bellman, J. ACM 9, 1962).
// Since a set says which lines are sewn, travel over them is priced exactly.
type exact struct {
	b *ground
	// of holds the walks of each line.
	of [][]int
	// least is by set and walk.
	least []int64
	entry int
}

func (b *ground) newExact() *exact {
	x := &exact{b: b, of: make([][]int, len(b.lines)), entry: -1}
	for w, l := range b.lineOf {
		x.of[l] = append(x.of[l], w)
	}
	return x
}

func (x *exact) at(set, walk int) int { return set*len(x.b.walks) + walk }

func maskOf(set int) mask { return mask{uint64(set)} }

// from fills the table for an entry. Cost O(2^n w^2) for n lines and w walks.
func (x *exact) from(entry int) {
	if x.entry == entry {
		return
	}
	b, n, w := x.b, len(x.b.lines), len(x.b.walks)
	if x.least == nil {
		x.least = make([]int64, w<<n)
	}
	for i := range x.least {
		x.least[i] = unreached
	}
	x.entry = entry
	for v := range w {
		x.least[x.at(1<<b.lineOf[v], v)] = b.across(entry, b.from[v], mask{})
	}
	// Where going on never leans on lines sewn before, it costs the same for all sets.
	flat := make([]int64, w*w)
	for u := range w {
		for v := range w {
			flat[u*w+v] = b.flat(u, v)
		}
	}
	for set := 1; set < 1<<n; set++ {
		for in := set; in != 0; in &= in - 1 {
			for _, u := range x.of[bits.TrailingZeros(uint(in))] {
				have := x.least[x.at(set, u)]
				if have >= unreached {
					continue
				}
				for out := (1<<n - 1) &^ set; out != 0; out &= out - 1 {
					l := bits.TrailingZeros(uint(out))
					for _, v := range x.of[l] {
						more := flat[u*w+v]
						if more < 0 {
							more = b.between(u, v, maskOf(set))
						}
						if sum := have + more; sum < x.least[x.at(set|1<<l, v)] {
							x.least[x.at(set|1<<l, v)] = sum
						}
					}
				}
			}
		}
	}
}

// flat returns what going on from walk u with walk v costs whatever is sewn, -1 if
// that depends on it.
func (b *ground) flat(u, v int) int64 {
	s, t := b.to[u], b.from[v]
	if s == t || b.lineOf[u] == b.lineOf[v] {
		return b.between(u, v, mask{})
	}
	list := b.row(s)[t]
	if len(list) > 0 && list[0].over != (mask{}) {
		return -1
	}
	return list.cheapest(mask{}) + 1
}

// sets returns for an entry and an exit the least that sewing each set of lines
// between them costs.
func (x *exact) sets(entry, exit int) []int64 {
	x.from(entry)
	b, n := x.b, len(x.b.lines)
	out := make([]int64, 1<<n)
	out[0] = b.across(entry, exit, mask{})
	for set := 1; set < 1<<n; set++ {
		out[set] = unreached
		for in := set; in != 0; in &= in - 1 {
			for _, v := range x.of[bits.TrailingZeros(uint(in))] {
				if have := x.least[x.at(set, v)]; have < unreached {
					out[set] = min(out[set], have+b.across(b.to[v], exit, maskOf(set)))
				}
			}
		}
	}
	return out
}

// all returns the least that sewing all lines costs between an entry and an exit.
func (x *exact) all(entry, exit int) int64 {
	x.from(entry)
	_, least := x.last(1<<len(x.b.lines)-1, exit)
	return least
}

// last returns the walk with which sewing a set of lines best ends, -1 for none.
func (x *exact) last(set, exit int) (walk int, least int64) {
	if set == 0 {
		return -1, x.b.across(x.entry, exit, mask{})
	}
	walk, least = -1, unreached
	for in := set; in != 0; in &= in - 1 {
		for _, v := range x.of[bits.TrailingZeros(uint(in))] {
			have := x.least[x.at(set, v)]
			if have >= unreached {
				continue
			}
			if sum := have + x.b.across(x.b.to[v], exit, maskOf(set)); sum < least {
				walk, least = v, sum
			}
		}
	}
	return walk, least
}

// order returns the walks of a best way to sew a set of lines between an entry and
// an exit; nil for no lines or where there is no way.
func (x *exact) order(entry, exit, set int) []int {
	x.from(entry)
	walk, _ := x.last(set, exit)
	if walk < 0 {
		return nil
	}
	out := make([]int, bits.OnesCount(uint(set)))
	for k := len(out) - 1; ; k-- {
		out[k] = walk
		rest := set &^ (1 << x.b.lineOf[walk])
		if rest == 0 {
			return out
		}
		walk, set = x.before(set, rest, walk), rest
	}
}

// before returns the walk before the last of a set.
func (x *exact) before(set, rest, walk int) int {
	for in := rest; in != 0; in &= in - 1 {
		for _, u := range x.of[bits.TrailingZeros(uint(in))] {
			have := x.least[x.at(rest, u)]
			if have < unreached && have+x.b.between(u, walk, maskOf(rest)) == x.least[x.at(set, walk)] {
				return u
			}
		}
	}
	return -1
}
