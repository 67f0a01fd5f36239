package game_test

import (
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/path/geom"
)

// onTop is the cot quilt on the table.
func onTop(t testing.TB) *table {
	tb := newTable(t)
	tb.send(game.Shelf{}, game.Control{Name: "place", Value: "quilt"})
	return tb
}

func (tb *table) finger(kind game.PointerKind, id int, p geom.Point) {
	tb.send(game.Pointer{Kind: kind, ID: id, Device: "touch", X: p.X, Y: p.Y})
}

// Two fingers hold the top like cloth: what lies between them stays there, and a place
// under each stays under it, as long as neither the size nor the edge is at its limit.
// Nothing is chosen by them.
func TestTwoFingersHoldTheTop(t *testing.T) {
	whole := onTop(t).m.Sight().Scale
	rapid.Check(t, func(rt *rapid.T) {
		tb := onTop(t)
		place := func(name string) geom.Point {
			return geom.Pt(rapid.Float64Range(200, 800).Draw(rt, name+" x"), rapid.Float64Range(60, 600).Draw(rt, name+" y"))
		}
		a, b := place("a"), place("b")
		if geom.Dist(a, b) < 40 {
			return
		}
		tb.finger(game.Down, 1, a)
		tb.finger(game.Down, 2, b)
		held := [2]geom.Point{tb.m.Sight().ToCloth(a), tb.m.Sight().ToCloth(b)}
		// Only what the fingers have turned cannot be followed: they move on their line.
		grow, by := rapid.Float64Range(0.3, 6).Draw(rt, "grow"), geom.Pt(rapid.Float64Range(-90, 90).Draw(rt, "dx"), rapid.Float64Range(-90, 90).Draw(rt, "dy"))
		mid := geom.Lerp(a, b, 0.5)
		to := func(p geom.Point) geom.Point {
			return geom.Pt(mid.X+by.X+grow*(p.X-mid.X), mid.Y+by.Y+grow*(p.Y-mid.Y))
		}
		tb.finger(game.Move, 1, to(a))
		tb.finger(game.Move, 2, to(b))
		v := tb.m.Sight()
		if v.Scale < whole*(1-1e-9) || v.Zoom > 3*(1+1e-9) {
			rt.Fatalf("shown at %v of true size, whole at %v px/mm", v.Zoom, whole)
		}
		centre := v.ToCloth(geom.Pt(tb.m.Screen.W/2, tb.m.Screen.H/2))
		size := tb.m.Top.Quilt.Size()
		inside := centre.X > 1 && centre.Y > 1 && centre.X < size.W-1 && centre.Y < size.H-1
		if free := v.Scale > whole*1.001 && v.Zoom < 2.999; free && inside {
			for i, p := range []geom.Point{to(a), to(b)} {
				if d := geom.Dist(v.ToScreen(held[i]), p); d > 0.01 {
					rt.Fatalf("finger %d holds a place that lies %v px off", i+1, d)
				}
			}
		}
		tb.finger(game.Up, 2, to(b))
		before := tb.m.Sight().ToCloth(to(a))
		tb.finger(game.Move, 1, to(a))
		if geom.Dist(before, tb.m.Sight().ToCloth(to(a))) > 0.01 {
			rt.Fatal("the top jumps as one finger lifts")
		}
		tb.finger(game.Up, 1, to(a))
		if tb.m.Top.Chosen >= 0 {
			rt.Fatal("two fingers have chosen a place")
		}
		tb.send(game.Control{Name: "key", Value: "0"})
		tap := tb.m.Sight().ToScreen(geom.Pt(180, 180))
		tb.finger(game.Down, 3, tap)
		tb.finger(game.Up, 3, tap)
		if tb.m.Top.Chosen < 0 {
			rt.Fatal("after two fingers a tap chooses nothing")
		}
	})
}

// Stepping back shows the newest trace of a block or the most even that follows the
// whole line; a warm-up is none to choose, and without a whole line it is the newest.
func TestNewestOrMostEven(t *testing.T) {
	f := func(v float64) *float64 { return &v }
	lily, reeds := "block-demo-lily-0a1b2c3d", "block-demo-reeds-0a1b2c3d"
	tb := onTop(t)
	tb.send(game.Listed{Past: []keep.Summary{
		{ID: "7", Motif: lily, StitchCV: f(0.4), Coverage: f(1)},
		{ID: "6", Motif: lily, StitchCV: f(0.1), Coverage: f(0.5)},
		{ID: "5", Motif: lily, StitchCV: f(0.12), Coverage: f(1), WarmUp: true},
		{ID: "4", Motif: lily, StitchCV: f(0.2), Coverage: f(0.95)},
		{ID: "3", Motif: lily, StitchCV: f(0.3), Coverage: f(1)},
		{ID: "2", Motif: reeds, StitchCV: f(0.1), Coverage: f(0.3)},
	}})
	for _, c := range []struct{ choice, lily, reeds string }{{"own", "7", "2"}, {"best", "4", "2"}, {"own", "7", "2"}} {
		tb.effects = nil
		tb.send(game.Control{Name: "quilt.back", Value: "on"}, game.Control{Name: "quilt.threads", Value: c.choice})
		asked := map[string]bool{}
		for _, e := range tb.effects {
			if fetch, ok := e.(game.Fetch); ok && fetch.Top {
				asked[fetch.ID] = true
			}
		}
		if !asked[c.lily] || !asked[c.reeds] || onTable(tb.m).Away.Best != (c.choice == "best") {
			t.Errorf("%s: asked for %v, want %s and %s", c.choice, asked, c.lily, c.reeds)
		}
		if s, ok := onTable(tb.m).OwnTrace("demo-lily"); !ok || s.ID != c.lily {
			t.Errorf("%s: the trace of the lily is %q, want %q", c.choice, s.ID, c.lily)
		}
		if _, ok := onTable(tb.m).OwnTrace("demo-bank"); ok {
			t.Errorf("%s: a block that was never traced has a trace", c.choice)
		}
	}
}
