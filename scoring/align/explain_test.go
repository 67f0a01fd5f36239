package align

import (
	"math"
	"testing"

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
	d := geom.Dist(o.p, st.at[k])
	return max(o.move, st.step) / (spread * spread) * min(d*d, Reach*Reach)
}

// bruteForce tries every sequence of states and returns the least price.
func bruteForce(st *states, obs []observation, j int, u int32, price, best float64) float64 {
	if price >= best {
		return best
	}
	if j == len(obs) {
		return price
	}
	for _, v := range st.near(obs[j].p) {
		c := min(priceBreak, priceSkip*st.step*float64(v))
		if j > 0 {
			c = change(u, v, st.step, obs[j].move)
		}
		best = min(best, bruteForce(st, obs, j+1, v, price+c+beside(st, obs[j], v), best))
	}
	return best
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
		seen, chosen := st.explain(observe(pts, 0))
		if len(seen) == 0 {
			return
		}
		var got float64
		for j, o := range seen {
			v := int32(math.Round(chosen[j] / st.step))
			if j == 0 {
				got = min(priceBreak, priceSkip*chosen[0])
			} else {
				got += change(int32(math.Round(chosen[j-1]/st.step)), v, st.step, o.move)
			}
			got += beside(st, o, v)
		}
		if want := bruteForce(st, seen, 0, 0, 0, math.Inf(1)); math.Abs(got-want) > 1e-9*(1+want) {
			rt.Fatalf("price %v, the best of all sequences costs %v", got, want)
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
