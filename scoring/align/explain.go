package align

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// The price of an explanation, per mm unless said otherwise, chosen so that a
// wandering hand (0.5 to 3 mm beside the line) never buys a jump to a
// neighbouring turn 5 mm away and back, while a part that was really left out or
// sewn twice is cheaper to explain as that than as a hand far from its place.
const (
	// spread is the distance in mm from the line that costs 1; the price grows
	// with the square of the distance up to Reach.
	spread = 2.5
	// priceSkip is for line passed over beyond what the hand moved.
	priceSkip = 0.5
	// priceStall is for movement that does not get on along the line.
	priceStall = 0.3
	// priceBack is for going back along the line.
	priceBack = 0.7
	// priceTurn is for moving across the line, at 1 - |cos| of the angle between the
	// movement and the line: it tells crossings, not which way along. That is told by
	// the order of the places.
	priceTurn = 1.0
	// pricePast is for movement after the end of the line was reached, wherever it goes,
	// mostPast mm at most.
	pricePast = 1.0
	mostPast  = 40.0
	// lostPrice is for movement out of reach of all of the line: that of Reach.
	lostPrice = Reach * Reach / (spread * spread)
	// priceBreak bounds the price of any one change of place, so that a whole
	// part may be left out or repeated however long it is.
	priceBreak = 60.0
)

// layer is what is known after one observation: the states considered and the
// least price of all explanations that end in each.
type layer struct {
	ids   []int32
	price []float64
}

// workspace is the memory of one search, used again by the next.
type workspace struct {
	price [2][]float64
	// from holds, layer after layer, the index within the layer before.
	from []int32
}

// sized returns v with n elements, whatever they are.
func sized[T any](v []T, n int) []T { return slices.Grow(v[:0], n)[:n] }

// explained is the cheapest sequence of states for a movement.
type explained struct {
	// seen are the observations with a state in reach, chosen the arc lengths in mm of
	// their states.
	seen   []observation
	chosen []float64
	// price is that of the sequence, with what lies out of reach at the price of Reach.
	price float64
}

// explain finds the cheapest sequence of states for the observations by dynamic
// programming (Viterbi). Observations without a state in reach take no part.
func (st *states) explain(obs []observation) explained { return st.explainBelow(math.Inf(1), obs) }

// explainBelow is explain that gives up, with an infinite price, as soon as no sequence can
// cost less than limit.
func (st *states) explainBelow(limit float64, obs []observation) explained {
	seen, total, lost, tail := st.inReach(obs)
	out := explained{seen: seen, price: lost * lostPrice}
	if len(seen) == 0 {
		out.price += tail * lostPrice
		return out
	}
	from := sized(st.work.from, total)[:0]
	before, now := layer{price: st.work.price[0]}, layer{price: st.work.price[1]}
	st.begin(seen[0], &before)
	past := st.newPast(seen, tail, before)
	at := cheapest(before.price)
	for j, o := range seen[1:] {
		// No price is negative, so that none of the layers to come is cheaper.
		if out.price+min(before.price[at], past.price) > limit {
			return explained{price: math.Inf(1)}
		}
		now.ids = st.near(o.p)
		now.price = sized(now.price, len(now.ids))
		from = from[:len(from)+len(now.ids)]
		back := from[len(from)-len(now.ids):]
		st.advance(before, now, at, o.move, back)
		st.goBack(before, now, back)
		st.distance(now, o)
		before, now = now, before
		at = cheapest(before.price)
		past.look(j+1, o.move, len(from), before)
	}
	st.work = workspace{price: [2][]float64{before.price, now.price}, from: from}
	if past.price < before.price[at]+tail*lostPrice {
		out.price += past.price
		out.chosen = st.trackBack(seen[:past.j+1], from[:past.from], past.at)
		for range seen[past.j+1:] {
			out.chosen = append(out.chosen, st.step*float64(past.last))
		}
		return out
	}
	out.price += before.price[at] + tail*lostPrice
	out.chosen = st.trackBack(seen, from, at)
	return out
}

// past is the cheapest explanation that reaches the end of the line at observation j and
// takes what follows as movement past the end.
type past struct {
	last        int32   // the state at the end of the line
	left        float64 // mm of movement still to come
	price       float64
	j, from, at int // where it is in the observations, in from, and in the layer
}

// newPast begins with the first layer; after the observations seen come tail mm more, out
// of reach.
func (st *states) newPast(seen []observation, tail float64, first layer) past {
	p := past{last: int32(len(st.at) - 1), left: tail, price: math.Inf(1)}
	for _, o := range seen[1:] {
		p.left += o.move
	}
	p.look(0, 0, 0, first)
	return p
}

// look considers the end at observation j, after move mm more.
func (p *past) look(j int, move float64, from int, now layer) {
	p.left -= move
	if n := len(now.ids) - 1; p.left <= mostPast && now.ids[n] == p.last {
		if c := now.price[n] + pricePast*p.left; c < p.price {
			p.price, p.j, p.from, p.at = c, j, from, n
		}
	}
}

// inReach returns the observations that have states, each with the movement
// since the one before in the result, the number of their states without
// those of the first, and the lengths in mm of the movement out of reach, before the last
// of them and after.
func (st *states) inReach(obs []observation) (seen []observation, total int, out, tail float64) {
	for _, o := range obs {
		if len(st.near(o.p)) == 0 {
			return st.someInReach(obs)
		}
		total += len(st.near(o.p))
	}
	return obs, total - len(st.near(obs[0].p)), 0, 0
}

// someInReach is inReach where not all of them are.
func (st *states) someInReach(obs []observation) (seen []observation, total int, out, tail float64) {
	var lost float64
	seen = make([]observation, 0, len(obs))
	for _, o := range obs {
		n := len(st.near(o.p))
		if n == 0 {
			tail += max(o.move, st.step)
			lost += o.move
			continue
		}
		o.move += lost
		out, tail = out+tail, 0
		if len(seen) > 0 {
			total += n
		}
		seen = append(seen, o)
		lost = 0
	}
	return seen, total, out, tail
}

// begin prices beginning elsewhere than at the start of the line.
func (st *states) begin(o observation, l *layer) {
	l.ids = st.near(o.p)
	l.price = sized(l.price, len(l.ids))
	for i, k := range l.ids {
		l.price[i] = min(priceBreak, priceSkip*st.step*float64(k))
	}
	st.distance(*l, o)
}

// far returns the square of the distance in mm^2 of p from the piece of the line that
// state k stands for, half a step to either side.
func (st *states) far(k int32, p geom.Point) float64 {
	d := r2.Sub(p, st.at[k])
	along := math.Abs(r2.Dot(d, st.way[k]))
	beyond := max(0, along-st.step/2)
	return max(0, r2.Norm2(d)-along*along) + beyond*beyond
}

// distance adds the price of lying beside the line, and of moving across it, in each
// state.
func (st *states) distance(now layer, o observation) {
	w := max(o.move, st.step)
	for i, k := range now.ids {
		now.price[i] += w / (spread * spread) * min(st.far(k, o.p), Reach*Reach)
		if o.way != (geom.Point{}) {
			now.price[i] += w * priceTurn * (1 - math.Abs(r2.Dot(o.way, st.way[k])))
		}
	}
}

// advance prices getting from the states before, of which that at least is the cheapest,
// to those now while the hand moves by move mm, and notes in back where each came from. Prices are linear in
// the distance, so that a running minimum stands for trying every pair: cost
// O(states).
func (st *states) advance(before, now layer, least int, move float64, back []int32) {
	adv := move / st.step
	pass, stall := priceSkip*st.step, priceStall*st.step
	lo, skip := 0, -1
	skipPrice := math.Inf(1)
	for v, id := range now.ids {
		k := float64(id)
		// Passing over: from states more than the movement behind.
		for ; lo < len(before.ids) && float64(before.ids[lo]) < k-adv; lo++ {
			if c := before.price[lo] - pass*float64(before.ids[lo]); c < skipPrice {
				skip, skipPrice = lo, c
			}
		}
		best, from := before.price[least]+priceBreak, least
		if c := skipPrice + pass*(k-adv); c < best {
			best, from = c, skip
		}
		// Getting on by no more than the movement.
		for u := lo; u < len(before.ids) && before.ids[u] <= id; u++ {
			if c := before.price[u] + stall*(adv-k+float64(before.ids[u])); c < best {
				best, from = c, u
			}
		}
		now.price[v], back[v] = best, int32(from)
	}
}

// goBack lowers the prices of the states now that are reached more cheaply from
// ones further along.
func (st *states) goBack(before, now layer, back []int32) {
	hi, from := len(before.ids)-1, -1
	price := math.Inf(1)
	for v := len(now.ids) - 1; v >= 0; v-- {
		for ; hi >= 0 && before.ids[hi] > now.ids[v]; hi-- {
			if c := before.price[hi] + priceBack*st.step*float64(before.ids[hi]); c < price {
				from, price = hi, c
			}
		}
		if c := price - priceBack*st.step*float64(now.ids[v]); c < now.price[v] {
			now.price[v], back[v] = c, int32(from)
		}
	}
}

// trackBack returns the arc lengths in mm of the cheapest sequence, which ends
// in the at-th state of the last layer.
func (st *states) trackBack(seen []observation, from []int32, at int) []float64 {
	out := make([]float64, len(seen))
	for j := len(seen) - 1; j >= 0; j-- {
		ids := st.near(seen[j].p)
		out[j] = st.step * float64(ids[at])
		if j > 0 {
			layer := from[len(from)-len(ids):]
			from = from[:len(from)-len(ids)]
			at = int(layer[at])
		}
	}
	return out
}

// cheapest returns the index of the least price.
func cheapest(price []float64) int {
	at := 0
	for i, c := range price {
		if c < price[at] {
			at = i
		}
	}
	return at
}
