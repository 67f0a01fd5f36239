package geom_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// A thinned line keeps its ends and its order, and every point left out lies within
// the tolerance of it.
func TestThinnedStaysNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tol := rapid.Float64Range(0.01, 5).Draw(t, "tol")
		var pl geom.Polyline
		for i := range rapid.IntRange(2, 60).Draw(t, "points") {
			pl = append(pl, geom.Pt(float64(i)+rapid.Float64Range(-3, 3).Draw(t, "x"), rapid.Float64Range(-9, 9).Draw(t, "y")))
		}
		out := pl.Thinned(tol)
		if out[0] != pl[0] || out[len(out)-1] != pl[len(pl)-1] {
			t.Fatal("an end is lost")
		}
		next := 0
		for _, p := range pl {
			if next < len(out) && out[next] == p {
				next++
			}
			if d := distance(p, out); d > tol+1e-9 {
				t.Fatalf("%v lies %v from the thinned line, tolerance %v", p, d, tol)
			}
		}
		if next != len(out) {
			t.Fatal("the thinned line is no part of the line in its order")
		}
	})
}

func distance(p geom.Point, pl geom.Polyline) float64 {
	best := math.Inf(1)
	for i := 1; i < len(pl); i++ {
		_, q := geom.NearestOnSegment(p, pl[i-1], pl[i])
		best = math.Min(best, geom.Dist(p, q))
	}
	return best
}

// A circle of radius r keeps chords whose sagitta is within the tolerance: a full
// turn in no fewer than pi / acos(1 - tol/r) of them.
func TestThinnedCircle(t *testing.T) {
	const r, tol = 100.0, 0.5
	pl := geom.Polyline(geom.Arc(geom.Pt(0, 0), r, 0, 2*math.Pi))
	n := len(pl.Thinned(tol)) - 1
	if least := math.Pi / math.Acos(1-tol/r); float64(n) < least-1 || float64(n) > 3*least {
		t.Errorf("%d chords of %d are left, want from %.0f on", n, len(pl)-1, least)
	}
}
