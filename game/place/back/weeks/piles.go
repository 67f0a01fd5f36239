package weeks

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"unthreaded/scoring/progress"
)

// Pile is a set of traces that are alike: the values that all of them have.
type Pile struct {
	By map[Filter]string
	// Traces is how many there are, Sessions in how many sessions enough of them count to
	// be judged.
	Traces, Sessions int
	newest           float64
	key              string
}

// Judged tells that a pile has sessions enough for a verdict.
func (p Pile) Judged() bool { return p.Sessions >= progress.LeastSessions }

// piles sorts entries into those that are alike in the given filters: first those with
// the most sessions that can be judged, of these first the newest. What is measured does
// not matter, so that looking at another measure looks at the same traces. Cost O(n log n).
func (b Book) piles(entries []*entry, filters []Filter) []Pile {
	in := map[string]*Pile{}
	ofEntry := map[string]*Pile{} // by trace
	for _, e := range entries {
		var values []string
		for _, f := range filters {
			values = append(values, e.by[f])
		}
		key := strings.Join(values, "\n")
		p := in[key]
		if p == nil {
			p = &Pile{By: map[Filter]string{}, key: key}
			for i, f := range filters {
				p.By[f] = values[i]
			}
			in[key] = p
		}
		p.Traces++
		p.newest = math.Max(p.newest, e.At)
		ofEntry[e.ID] = p
	}
	for _, s := range b.sessions {
		countIn(s, ofEntry)
	}
	var out []Pile
	for _, p := range in {
		out = append(out, *p)
	}
	slices.SortFunc(out, func(x, y Pile) int {
		return cmp.Or(cmp.Compare(y.Sessions, x.Sessions), cmp.Compare(y.newest, x.newest), strings.Compare(x.key, y.key))
	})
	return out
}

// countIn counts a session for each pile of which enough traces count in it.
func countIn(s progress.Session, of map[string]*Pile) {
	n := map[*Pile]int{}
	for i, t := range s.Traces {
		p := of[t.ID]
		if p == nil || i < progress.WarmUpTraces || t.WarmUp {
			continue
		}
		if n[p]++; n[p] == progress.LeastTraces {
			p.Sessions++
		}
	}
}

// narrow takes piles, the better known ones first, down to one: by each filter to the
// value asked for or, where no trace has it, to that of the first pile left. It returns
// the pile and the values there were to choose from.
func narrow(piles []Pile, asked map[Filter]string) (Pile, map[Filter][]Option) {
	options := map[Filter][]Option{}
	for _, f := range Filters {
		options[f] = count(piles, f)
		if len(piles) == 0 {
			return Pile{By: map[Filter]string{}}, options
		}
		take := piles[0].By[f]
		if v := asked[f]; slices.ContainsFunc(options[f], func(o Option) bool { return o.Value == v }) {
			take = v
		}
		piles = slices.DeleteFunc(slices.Clone(piles), func(p Pile) bool { return p.By[f] != take })
	}
	return piles[0], options
}

// count returns the values of a filter, those of most traces first.
func count(piles []Pile, f Filter) []Option {
	n := map[string]int{}
	for _, p := range piles {
		if v, ok := p.By[f]; ok {
			n[v] += p.Traces
		}
	}
	var out []Option
	for v, c := range n {
		out = append(out, Option{v, c})
	}
	slices.SortFunc(out, func(a, b Option) int {
		return cmp.Or(cmp.Compare(b.Count, a.Count), strings.Compare(a.Value, b.Value))
	})
	return out
}
