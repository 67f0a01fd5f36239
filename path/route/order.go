package route

import (
	"math"
	"math/rand/v2"
	"slices"
)

// orderSeeds is the number of orders that are tried.
const orderSeeds = 64

// narrowOrder returns an order in which to pass the junctions that keeps the
// frontier narrow, and the most junctions on it: the best of some orders that
// begin anywhere and always pass the junction which brings the fewest others onto
// the frontier, ties broken at random.
func (s *sweep) narrowOrder() ([]int32, int) {
	var best passing
	best.work = math.Inf(1)
	for seed := range uint64(orderSeeds) {
		p := passing{s: s, rng: rand.New(rand.NewPCG(seed, 0)), state: make([]uint8, s.n.junctions())}
		if p.run(); p.work < best.work {
			best = p
		}
	}
	return best.order, best.width
}

// The states of a junction while an order is made.
const (
	outside = iota
	onFrontier
	passedBy
)

// passing is the making of one order: the junctions passed, a guess at the work
// it makes, and its width.
type passing struct {
	s        *sweep
	rng      *rand.Rand
	state    []uint8
	frontier []int32
	order    []int32
	work     float64
	width    int
}

// run passes all junctions, or gives up once the frontier is too wide.
func (p *passing) run() {
	for _, first := range p.rng.Perm(len(p.state)) {
		for p.put(int32(first)); len(p.frontier) > 0; {
			p.pass(p.next())
			if p.width > mostSlots {
				p.work = math.MaxFloat64
				return
			}
		}
	}
}

// put brings a junction onto the frontier unless it has been there.
func (p *passing) put(v int32) {
	if p.state[v] == outside {
		p.state[v] = onFrontier
		p.frontier = append(p.frontier, v)
	}
}

// next returns the place on the frontier of the junction to be passed next.
func (p *passing) next() int {
	at, least := 0, math.Inf(1)
	for i, v := range p.frontier {
		fresh := p.rng.Float64()
		for _, h := range p.s.n.halves(v) {
			if p.state[h.to] == outside && p.s.walkable(h.line) {
				fresh++
			}
		}
		if fresh < least {
			at, least = i, fresh
		}
	}
	return at
}

func (p *passing) pass(at int) {
	v := p.frontier[at]
	p.frontier = slices.Delete(p.frontier, at, at+1)
	p.state[v] = passedBy
	p.order = append(p.order, v)
	for _, h := range p.s.n.halves(v) {
		if p.s.walkable(h.line) {
			p.put(h.to)
		}
	}
	p.width = max(p.width, len(p.frontier)+1)
	p.work += math.Pow(3, float64(len(p.frontier)))
}
