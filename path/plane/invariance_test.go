package plane

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// same is what must not change when a drawing is only described in another way.
// Which of two doubled lines stays can change, and with it the length, by what
// joining moved.
func same(rt *rapid.T, what string, snap float64, a, b Result, drawn []Stroke) {
	rt.Helper()
	x, y := a.counts(), b.counts()
	if math.Abs(x.Length-y.Length) < 1e-2+snap*float64(len(a.Snapped)+len(a.Doubled)) {
		y.Length = x.Length
	}
	if x != y {
		rt.Fatalf("%s: %+v, was %+v: %s", what, y, x, text(drawn))
	}
}

// tidy draws strokes whose halves lie on the grid, from and to the corners of a
// lattice of 5 mm or places up to shake mm off them.
func tidy(rt *rapid.T, shake float64) []Stroke {
	// In steps of 2 micrometres, lest the grid decide everything.
	const step = 20
	steps := int(shake * perMM / step)
	xy := rapid.Custom(func(rt *rapid.T) float64 {
		cell := rapid.IntRange(0, 8).Draw(rt, "cell")
		off := rapid.IntRange(-steps, steps).Draw(rt, "off")
		return float64(cell*perMM*5+step*off) / perMM
	})
	n := rapid.IntRange(1, 7).Draw(rt, "strokes")
	var out []Stroke
	for i := 0; i < n; i++ {
		s := Stroke{Name: string(rune('a' + i)), Kind: Sewn}
		for k := rapid.IntRange(2, 5).Draw(rt, "points"); k > 0; k-- {
			s.Path = append(s.Path, geom.Pt(xy.Draw(rt, "x"), xy.Draw(rt, "y")))
		}
		s.Path = s.Path.Compact()
		if len(s.Path) > 1 {
			out = append(out, s)
		}
	}
	return out
}

// blunt tells whether a corner or a crossing lies so near to a line, yet not on
// it, that rounding to the grid decides on which side it falls. Brute force.
func blunt(s []Stroke) bool {
	var a, b, spots []geom.Point
	for _, st := range s {
		a, b = append(a, st.Path[:len(st.Path)-1]...), append(b, st.Path[1:]...)
		spots = append(spots, st.Path...)
	}
	for i := range a {
		for k := range i {
			u, v := r2.Sub(b[i], a[i]), r2.Sub(b[k], a[k])
			if den := r2.Cross(u, v); den != 0 {
				t := r2.Cross(r2.Sub(a[k], a[i]), v) / den
				spots = append(spots, geom.Lerp(a[i], b[i], math.Max(0, math.Min(1, t))))
			}
		}
	}
	for _, p := range spots {
		for i := range a {
			_, q := geom.NearestOnSegment(p, a[i], b[i])
			if d := geom.Dist(p, q); d > 1e-9 && d < 2*Grid {
				return true
			}
		}
	}
	return false
}

// text writes the paths of strokes for a message.
func text(s []Stroke) string {
	var out []string
	for _, st := range s {
		out = append(out, geom.Format(st.Path))
	}
	return strings.Join(out, "; ")
}

func mapped(s []Stroke, f func(Stroke) Stroke) []Stroke {
	out := make([]Stroke, len(s))
	for i, st := range s {
		out[i] = f(st)
	}
	return out
}

func moved(s []Stroke, f func(geom.Point) geom.Point) []Stroke {
	return mapped(s, func(st Stroke) Stroke {
		st.Path = st.Path.Map(f)
		return st
	})
}

// split cuts a stroke in two at the middle of one of its pieces.
func split(s []Stroke, i, piece int) []Stroke {
	a, b := s[i], s[i]
	m := geom.Lerp(a.Path[piece], a.Path[piece+1], 0.5)
	a.Path = append(append(geom.Polyline{}, a.Path[:piece+1]...), m)
	b.Path = append(geom.Polyline{m}, b.Path[piece+1:]...)
	out := append([]Stroke{}, s...)
	out[i] = b
	return append(out, a)
}

// Counts and total length stay when the drawing is moved, turned by 90 degrees,
// mirrored, drawn in another order, backwards or in more parts.
func TestInvariance(t *testing.T) {
	for _, c := range []struct{ snap, shake float64 }{{0, 0}, {0, 0.1}, {DefaultSnap, 0}} {
		rapid.Check(t, func(rt *rapid.T) {
			s := tidy(rt, c.shake)
			if len(s) == 0 {
				return
			}
			i := rapid.IntRange(0, len(s)-1).Draw(rt, "stroke")
			k := rapid.IntRange(0, len(s[i].Path)-2).Draw(rt, "piece")
			inParts := split(s, i, k)
			if blunt(inParts) {
				return
			}
			dx := float64(rapid.IntRange(-1e6, 1e6).Draw(rt, "dx")) / perMM
			r := mustBuild(t, s, c.snap)
			for what, described := range map[string][]Stroke{
				"moved":            moved(s, func(p geom.Point) geom.Point { return geom.Pt(p.X+dx, p.Y-3*dx) }),
				"turned":           moved(s, func(p geom.Point) geom.Point { return geom.Pt(-p.Y, p.X) }),
				"mirrored":         moved(s, func(p geom.Point) geom.Point { return geom.Pt(-p.X, p.Y) }),
				"in another order": rapid.Permutation(s).Draw(rt, "order"),
				"in parts":         inParts,
				"backwards": mapped(s, func(st Stroke) Stroke {
					st.Path = st.Path.Reversed()
					return st
				}),
			} {
				same(rt, what, c.snap, r, mustBuild(t, described, c.snap), s)
			}
		})
	}
}

// tangled tells whether a stroke walks a side of the lattice twice, or more than
// two strokes walk one.
func tangled(s []Stroke) bool {
	count := map[[2]gridPoint]int{}
	for _, st := range s {
		own := map[[2]gridPoint]bool{}
		for i := 1; i < len(st.Path); i++ {
			key := side(toGrid(st.Path[i-1]), toGrid(st.Path[i]))
			count[key]++
			if own[key] || count[key] > 2 {
				return true
			}
			own[key] = true
		}
	}
	return false
}

// Walks along the sides and diagonals of a lattice, with every point up to 0.05 mm
// off: corners do not meet, crossings do not fall together, sides that two
// strokes walk lie beside each other. Snapped, they become the same graph as the walks
// without the shake, where no snapping is needed; snapped again, nothing changes.
func TestShakenDrawingBecomesTheOneThatWasMeant(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var meant, drawn []Stroke
		walked := 0
		for n := rapid.IntRange(1, 6).Draw(rt, "strokes"); n > 0; n-- {
			m, d := Stroke{Name: "walk", Kind: Sewn}, Stroke{Name: "walk", Kind: Sewn}
			x, y := rapid.IntRange(0, 4).Draw(rt, "x"), rapid.IntRange(0, 4).Draw(rt, "y")
			for k := rapid.IntRange(2, 7).Draw(rt, "points"); k > 0; k-- {
				p := geom.Pt(float64(x)*5, float64(y)*5)
				m.Path = append(m.Path, p)
				off := rapid.Custom(func(rt *rapid.T) float64 { return float64(rapid.IntRange(-50, 50).Draw(rt, "off")) / 1000 })
				d.Path = append(d.Path, geom.Pt(p.X+off.Draw(rt, "dx"), p.Y+off.Draw(rt, "dy")))
				step := rapid.SampledFrom([][2]int{{1, 0}, {0, 1}, {-1, 0}, {0, -1}, {1, 1}, {1, -1}, {-1, 1}, {-1, -1}}).Draw(rt, "step")
				x, y, walked = x+step[0], y+step[1], walked+1
			}
			meant, drawn = append(meant, m), append(drawn, d)
		}
		r := mustBuild(t, drawn, DefaultSnap)
		if err := check(drawn, r); err != nil {
			rt.Fatal(err)
		}
		if tangled(meant) {
			return
		}
		want, got := mustBuild(t, meant, 0).counts(), r.counts()
		// Each end of a side is up to 0.05 sqrt 2 off.
		if math.Abs(got.Length-want.Length) < float64(want.Edges+walked)*2*0.05*math.Sqrt2 {
			got.Length = want.Length
		}
		if got != want {
			rt.Fatalf("shaken %+v, meant %+v: %s", got, want, text(drawn))
		}
		twice := mustBuild(t, asStrokes(r.Graph), DefaultSnap)
		if a, b := sketchOf(r.Graph), sketchOf(twice.Graph); !slices.Equal(a, b) {
			rt.Fatalf("once:\n%s\ntwice:\n%s", strings.Join(a, "\n"), strings.Join(b, "\n"))
		}
	})
}
