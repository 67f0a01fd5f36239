package route

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"unthreaded/path/plane"
)

// sampler makes other routes than the best.
type sampler struct {
	n     *network
	d     demand
	g     plane.Graph
	rules Rules
	best  Route
}

func newSampler(g plane.Graph, rules Rules, best Route) *sampler {
	n := newNetwork(g, rules)
	return &sampler{n: n, d: n.demandOf(rules), g: g, rules: rules, best: best}
}

// joins returns routes over joins that are the least at prices shifted up at
// random, line by line, by at most the given share.
func (s *sampler) joins(share float64) ([]Route, error) {
	var out []Route
	for seed := range uint64(joinSamples) {
		rng := rand.New(rand.NewPCG(seed, 0))
		shifted := *s.n
		shifted.lines = slices.Clone(s.n.lines)
		for i := range shifted.lines {
			l := &shifted.lines[i]
			l.cost += int64(float64(l.cost) * share * rng.Float64())
		}
		f := &finder{n: &shifted}
		j, _, _, err := f.leastConnected(s.d)
		if err != nil {
			return nil, fmt.Errorf("sampling: %w", err)
		}
		r, _, err := s.n.routeOf(s.d, j, s.n.costOf(j.extra), s.rules)
		if err != nil {
			return nil, err
		}
		out = append(out, s.repriced(r))
	}
	return out, nil
}

// orders returns routes that walk the same lines as the best in other orders,
// the smoothest under turns that are blurred at random.
func (s *sampler) orders() ([]Route, error) {
	f := &finder{n: s.n, work: searchWork}
	j, _, _, err := f.leastConnected(s.d)
	if err != nil {
		return nil, err
	}
	w := newWalks(s.n, s.d.must, j, s.rules.NeverCross)
	var out []Route
	for w.blur = 1; w.blur <= orderSamples; w.blur++ {
		c, err := w.sample()
		if err != nil {
			return nil, err
		}
		out = append(out, s.repriced(s.n.routeAlong(c.steps(j.start))))
	}
	return out, nil
}

// repriced returns route r, which was found at other prices, at those of the
// rules. What is proven is what the best route proves.
func (s *sampler) repriced(r Route) Route {
	r.Added = s.n.added(r.Steps)
	r.LowerBound = s.best.LowerBound
	r.Exact = r.Added <= r.LowerBound+costSlack
	return r
}
