package align

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// change is the price of getting from state u to v while the hand moves by move
// mm, written down as the constants describe it.
func change(u, v int32, step, move float64) float64 {
	d := step * float64(v-u)
	switch {
	case d < 0:
		return min(priceBreak, priceBack*-d)
	case d <= move:
		return min(priceBreak, priceStall*(move-d))
	}
	return min(priceBreak, priceSkip*(d-move))
}

func beside(st *states, o observation, k int32) float64 {
	d := r2.Sub(o.p, st.at[k])
	along := r2.Dot(d, st.way[k])
	across, beyond := r2.Norm2(d)-along*along, max(0, math.Abs(along)-st.step/2)
	price := min(across+beyond*beyond, Reach*Reach) / (spread * spread)
	if o.way != (geom.Point{}) {
		price += priceTurn * (1 - math.Abs(r2.Dot(o.way, st.way[k])))
	}
	return max(o.move, st.step) * price
}

// bruteForce tries every sequence of states and returns the least price.
func bruteForce(st *states, obs []observation, tail float64, j int, u int32, price, best float64) float64 {
	if price >= best {
		return best
	}
	if j == len(obs) {
		return min(best, min(price+lostPrice*tail, pastEnd(st, nil, tail, u, price)))
	}
	if j > 0 {
		best = min(best, pastEnd(st, obs[j:], tail, u, price))
	}
	for _, v := range st.near(obs[j].p) {
		c := min(priceBreak, priceSkip*st.step*float64(v))
		if j > 0 {
			c = change(u, v, st.step, obs[j].move)
		}
		best = min(best, bruteForce(st, obs, tail, j+1, v, price+c+beside(st, obs[j], v), best))
	}
	return best
}

// pastEnd returns the price of taking what follows state u as movement past the end, if it
// may be.
func pastEnd(st *states, rest []observation, tail float64, u int32, price float64) float64 {
	for _, o := range rest {
		tail += o.move
	}
	if int(u) != len(st.at)-1 || tail > mostPast {
		return math.Inf(1)
	}
	return price + pricePast*tail
}

// sequence returns the price of a sequence of places, the last of them at the end of the
// line taken as past it where that is cheaper.
func sequence(st *states, seen []observation, tail float64, chosen []float64) float64 {
	var price float64
	best := math.Inf(1)
	state := func(j int) int32 { return int32(math.Round(chosen[j] / st.step)) }
	for j, o := range seen {
		if j == 0 {
			price = min(priceBreak, priceSkip*chosen[0])
		} else {
			price += change(state(j-1), state(j), st.step, o.move)
		}
		price += beside(st, o, state(j))
		best = min(best, pastEnd(st, seen[j+1:], tail, state(j), price))
	}
	return min(best, price+lostPrice*tail)
}

// On small input the dynamic programme finds a sequence as cheap as the best of
// all, which is found by trying them all.
func TestExplainAgainstBruteForce(t *testing.T) {
	coord := rapid.Float64Range(-15, 15)
	rapid.Check(t, func(rt *rapid.T) {
		var path geom.Polyline
		for range rapid.IntRange(2, 5).Draw(rt, "vertices") {
			path = append(path, geom.Pt(coord.Draw(rt, "x"), coord.Draw(rt, "y")))
		}
		l, err := geom.NewLine(path)
		if err != nil {
			return
		}
		st := index(l, l.Length()/float64(rapid.IntRange(2, 9).Draw(rt, "states")))
		var pts geom.Polyline
		for range rapid.IntRange(1, 5).Draw(rt, "points") {
			pts = append(pts, geom.Pt(coord.Draw(rt, "px"), coord.Draw(rt, "py")))
		}
		obs := observe(pts, 0)
		seen, _, lost, tail := st.inReach(obs)
		e := st.explain(obs)
		if len(seen) == 0 {
			return
		}
		want := lostPrice*lost + bruteForce(st, seen, tail, 0, 0, 0, math.Inf(1))
		if math.Abs(e.price-want) > 1e-9*(1+want) {
			rt.Fatalf("price %v, the best of all sequences costs %v", e.price, want)
		}
		if got := lostPrice*lost + sequence(st, seen, tail, e.chosen); math.Abs(got-want) > 1e-9*(1+want) {
			rt.Fatalf("the sequence costs %v, the best of all %v", got, want)
		}
	})
}

// The states near a point are all of those within Reach, in order.
func TestNearHoldsAllInReach(t *testing.T) {
	for name, l := range motifs(t) {
		st := newStates(l)
		for x := -80.0; x < 180; x += 7.3 {
			for y := -90.0; y < 90; y += 7.3 {
				p := geom.Pt(x, y)
				found := map[int32]bool{}
				last := int32(-1)
				for _, k := range st.near(p) {
					if k <= last {
						t.Fatalf("%s: state %d after %d", name, k, last)
					}
					found[k], last = true, k
				}
				for k, q := range st.at {
					if geom.Dist(p, q) <= Reach && !found[int32(k)] {
						t.Fatalf("%s: state %d lies %.2f mm from %v and is missing", name, k, geom.Dist(p, q), p)
					}
				}
			}
		}
	}
}

// Where a line crosses itself the way of the movement tells the strands apart: a short
// stroke across the first lies on the second, though that is further along.
func TestTheWayTellsCrossingsApart(t *testing.T) {
	l := mustLine(t, geom.MustParse("M 40 0 L 60 0 L 60 8 L 50 8 L 50 -10"))
	var pts geom.Polyline
	for y := 4.0; y >= -4; y -= 0.25 {
		pts = append(pts, geom.Pt(50, y))
	}
	st := newStates(l)
	for _, s := range st.explain(observe(pts, st.step)).chosen {
		if s < 39 || s > 53 {
			t.Fatalf("matched at %.0f mm, want 42 to 50", s)
		}
	}
}
