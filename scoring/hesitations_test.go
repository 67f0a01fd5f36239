package scoring

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// prominence by its definition: go from the peak to either side until a higher
// value or the end, and take the higher of the two lowest values met.
func prominence(x []float64, i int) float64 {
	low := [2]float64{x[i], x[i]}
	for side, step := range [2]int{-1, 1} {
		for k := i; k >= 0 && k < len(x) && x[k] <= x[i]; k += step {
			low[side] = math.Min(low[side], x[k])
		}
	}
	return x[i] - math.Max(low[0], low[1])
}

// The peaks found in one go are those that the definition finds one by one.
func TestPeaksAgainstDefinition(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.SliceOfN(rapid.IntRange(0, 6), 0, 30).Draw(rt, "heights")
		x := make([]float64, len(n))
		for i, v := range n {
			x[i] = float64(v)
		}
		found := map[int]float64{}
		for _, p := range peaks(x, 2) {
			found[p.i] = p.prominence
		}
		for i := 1; i < len(x)-1; i++ {
			a, b := i, i // the plateau around i
			for a > 0 && x[a-1] == x[i] {
				a--
			}
			for b < len(x)-1 && x[b+1] == x[i] {
				b++
			}
			is := a > 0 && b < len(x)-1 && x[a-1] < x[i] && x[b+1] < x[i] && i == (a+b)/2 && prominence(x, i) >= 2
			if p, ok := found[i]; ok != is || (is && p != prominence(x, i)) {
				rt.Fatalf("%v: peak at %d found %v (%v), want %v (%v)", x, i, ok, p, is, prominence(x, i))
			}
		}
	})
}

// Two short dips on a straight line are found where they are; the one at a dot
// belongs there.
func TestHesitationsHaveAPlace(t *testing.T) {
	l, err := mustLine(t, geom.MustParse("M 0 0 L 200 0")).WithDots([]float64{0, 140, 200})
	if err != nil {
		t.Fatal(err)
	}
	pace := func(_, s float64) float64 {
		return cruise * (1 - 0.7*math.Exp(-math.Pow((s-60)/2, 2)) - 0.7*math.Exp(-math.Pow((s-140)/2, 2)))
	}
	rep := score(t, l, sew(l, 120, pace, nil), plan())
	if len(rep.Hesitations) != 2 {
		t.Fatalf("%d hesitations, want 2: %+v", len(rep.Hesitations), rep.Hesitations)
	}
	for k, at := range []float64{60, 140} {
		h := rep.Hesitations[k]
		near(t, "place", h.At, at, 0.5)
		near(t, "speed", h.Speed, 0.3*cruise, 1)
		near(t, "prominence", h.Prominence, 0.7*cruise, 1.2)
		if h.AtBreak != (k == 1) {
			t.Errorf("hesitation at %v mm: at a break %v", at, h.AtBreak)
		}
	}
}

// A swing of 6 % up and down, as any hand has, is no slowdown; one of 20 % is, each time but
// where it ends in one.
func TestSmallSwingsAreNoSlowdowns(t *testing.T) {
	l := mustLine(t, geom.MustParse("M 0 0 L 250 0"))
	for swing, want := range map[float64]float64{0.06: 0, 0.2: 7} {
		at := func(t float64) geom.Point {
			return geom.Pt(25*t-25*swing/(2*math.Pi*0.8)*(math.Cos(2*math.Pi*0.8*t)-1), 0)
		}
		near(t, "slowdowns", hesitationCount(score(t, l, hand(at, 10, 120), plan())), want, 0)
	}
}
