package game_test

import (
	"strconv"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/page"
	"unthreaded/game/plan"
	"unthreaded/path/geom"
	"unthreaded/path/route"
	"unthreaded/scoring/trace"
)

func atDesk(t *testing.T) *table {
	tb := newTable(t)
	tb.send(game.Control{Name: "place", Value: "route"})
	if tb.m.Place != game.RoutePlan || len(tb.m.Desk.Choices) == 0 {
		t.Fatalf("place %q with %d routes", tb.m.Place, len(tb.m.Desk.Choices))
	}
	return tb
}

// onCloth is a report of a mouse at a place on the cloth.
func (tb *table) onCloth(kind game.PointerKind, p geom.Point) game.Pointer {
	q := tb.m.Sight().ToScreen(p)
	return game.Pointer{Kind: kind, ID: 1, Device: trace.Mouse, X: q.X, Y: q.Y}
}

// The start is dragged with the pointer, and undo brings it back.
func TestDraggingTheStartOnTheCloth(t *testing.T) {
	tb := atDesk(t)
	from, _ := tb.m.Desk.PlaceOf(plan.StartHandle)
	tb.send(tb.onCloth(game.Down, from), tb.onCloth(game.Move, geom.Pt(60, 70)), tb.onCloth(game.Move, geom.Pt(80, 80)), tb.onCloth(game.Up, geom.Pt(80, 80)))
	at, _ := tb.m.Desk.PlaceOf(plan.StartHandle)
	if geom.Dist(at, geom.Pt(80, 80)) > 0.01 || tb.m.Desk.Rule != route.StartOnly || tb.m.Desk.Held() != plan.NoHandle {
		t.Errorf("the start is at %v under %q", at, tb.m.Desk.Rule)
	}
	if len(tb.saves()) > 0 {
		t.Error("dragging on the desk was kept as a trace")
	}
	tb.send(game.Control{Name: "undo"})
	if back, _ := tb.m.Desk.PlaceOf(plan.StartHandle); back != from || tb.m.Desk.Rule != route.Free {
		t.Errorf("undo leads to %v under %q, want %v and free ends", back, tb.m.Desk.Rule, from)
	}
}

// From Route straight to Rehearse: the route is traced, kept under its name, and
// found again by it.
func TestRehearsingARoute(t *testing.T) {
	tb := atDesk(t)
	want := tb.m.Desk.Pieces()[0].Line.Length()
	tb.send(game.Control{Name: "rehearse-route", Item: "0"})
	if tb.m.Place != game.Rehearse || tb.m.Rehearsal().Line.Length() != want {
		t.Fatalf("place %q with a line of %.1f mm, want the route of %.1f", tb.m.Place, tb.m.Rehearsal().Line.Length(), want)
	}
	h := even()
	h.Hz, h.Stop = 60, 300
	tb.draw(h, trace.Pen, 5)
	saves := tb.saves()
	if len(saves) != 1 || len(tb.m.Rehearsal().Past) != 1 {
		t.Fatalf("%d saves and %d listed, want 1 and 1", len(saves), len(tb.m.Rehearsal().Past))
	}
	rec, err := keep.Decode(saves[0].Doc)
	if err != nil || !strings.HasPrefix(rec.Motif, "route-orange-peel-") || rec.Name != "Orange peel, route" {
		t.Errorf("kept as %q, %q (%v)", rec.Motif, rec.Name, err)
	}

	tomorrow := newTable(t)
	sum, err := keep.DecodeSummary(saves[0].Summary)
	if err != nil {
		t.Fatal(err)
	}
	tomorrow.send(game.Listed{Past: []keep.Summary{sum}}, game.Control{Name: "motif", Value: rec.Motif})
	f, ok := tomorrow.effects[len(tomorrow.effects)-1].(game.Fetch)
	if !ok || f.ID != rec.ID {
		t.Fatalf("choosing the route asks for %+v", tomorrow.effects)
	}
	tomorrow.send(game.Fetched{ID: f.ID, Doc: saves[0].Doc})
	if tomorrow.m.Rehearsal().Motif.Name != "Orange peel, route" || len(tomorrow.m.Rehearsal().Past) != 1 {
		t.Errorf("the cloth shows %q with %d traces", tomorrow.m.Rehearsal().Motif.Name, len(tomorrow.m.Rehearsal().Past))
	}
	tomorrow.send(game.Control{Name: "again"})
	if d := tomorrow.m.Rehearsal().Line.Length() - want; d > 0.5 || d < -0.5 {
		t.Errorf("tracing again is along %.1f mm, want %.1f", tomorrow.m.Rehearsal().Line.Length(), want)
	}
}

func TestTheRoutePlays(t *testing.T) {
	tb := atDesk(t)
	tb.send(game.Frame{Now: 1}, game.Control{Name: "play"})
	for i := 1; i <= 60; i++ {
		tb.send(game.Frame{Now: 1 + float64(i)/60})
	}
	in := page.Of(tb.m)
	if got, err := strconv.ParseFloat(in.Replay.Scrub, 64); err != nil || got < 25 || got > 26 || !tb.m.Playing() {
		t.Errorf("after a second the needle is %s mm along, want an inch", in.Replay.Scrub)
	}
	tb.send(game.Control{Name: "scrub", Value: "100"}, game.Control{Name: "place", Value: "rehearse"})
	if tb.m.Playing() {
		t.Error("it plays on out of sight")
	}
}
