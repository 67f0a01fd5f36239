package scoring

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/scoring/align"
)

// Thinned out, a line is within twice the tolerance of itself by Frechet's
// measure, and a straight one has two points left.
func TestThinKeepsTheLine(t *testing.T) {
	coord := rapid.Float64Range(-3, 3)
	rapid.Check(t, func(rt *rapid.T) {
		p := geom.Point{}
		pl := geom.Polyline{p}
		for range rapid.IntRange(1, 60).Draw(rt, "points") {
			p = geom.Pt(p.X+coord.Draw(rt, "x"), p.Y+coord.Draw(rt, "y"))
			pl = append(pl, p)
		}
		tol := rapid.Float64Range(0.01, 2).Draw(rt, "tol")
		out := thin(pl, tol)
		if out[0] != pl[0] || out[len(out)-1] != pl[len(pl)-1] {
			rt.Fatal("the ends moved")
		}
		if !align.FrechetWithin(pl, out, 2*tol) {
			rt.Fatalf("thinned by %v the line is further than %v from itself", tol, 2*tol)
		}
	})
	straight := mustLine(t, geom.MustParse("M 0 0 L 90 30")).Resample(0.3)
	if n := len(thin(straight, 0.01)); n != 2 {
		t.Errorf("%d points of a straight line are left, want 2", n)
	}
}

// The gate: going back, going the wrong way and leaving out a loop are not
// following the line in order, however near the line they are.
func TestFollowedInOrder(t *testing.T) {
	l := loops(t)
	n := l.Length()
	join := func(parts ...geom.Polyline) (all geom.Polyline) {
		for _, p := range parts {
			all = append(all, p...)
		}
		return all
	}
	for name, c := range map[string]struct {
		path geom.Polyline
		want bool
	}{
		"as drawn":   {l.Path(), true},
		"3 mm aside": {bulge(t, l, n/2, 3, 40).Path(), true},
		"backwards":  {l.Path().Reversed(), false},
		"40 mm back": {join(l.Section(0, 300), l.Section(260, 300).Reversed(), l.Section(260, n)), false},
		"half of it": {l.Section(0, n/2), false},
		"twice over": {join(l.Path(), l.Path().Reversed(), l.Path()), false},
	} {
		rep := score(t, l, sew(mustLine(t, c.path), 120, steadily(cruise), nil), plan())
		if rep.Order.Followed != c.want {
			t.Errorf("%s: followed is %v (%+v), want %v", name, rep.Order.Followed, rep.Order.Frechet, c.want)
		}
	}
}

// Holes made as planned lie on the planned ones; a hand that is twice as fast
// leaves every second planned one a planned stitch away.
func TestHolesBesideThePlan(t *testing.T) {
	l := mustLine(t, geom.MustParse("M 0 0 L 250 0"))
	even := score(t, l, hand(func(t float64) geom.Point { return geom.Pt(25*t, 0) }, 10, 120), plan())
	fast := score(t, l, hand(func(t float64) geom.Point { return geom.Pt(math.Min(250, 50*t), 0) }, 5, 120), plan())
	near(t, "as planned", even.Order.Holes.Value, 0, 0.1)
	near(t, "twice as fast", fast.Order.Holes.Value, 2.5, 0.1)
}
