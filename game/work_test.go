package game_test

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/page"
	"unthreaded/game/place"
	"unthreaded/game/plan"
	"unthreaded/game/words"
	"unthreaded/game/work"
	"unthreaded/game/worktest"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// lattice is a drawing of 2n lines that cross.
func lattice(n int) plan.Drawing {
	return plan.DrawingOf("lattice", "Lattice", words.Msg{}, func() []motif.Piece {
		var out []motif.Piece
		for i := range n {
			at, end := float64(5*i), float64(5*n)
			out = append(out, motif.Piece{Name: fmt.Sprintf("a%d", i), Path: geom.Polyline{geom.Pt(-5, at), geom.Pt(end, at)}},
				motif.Piece{Name: fmt.Sprintf("b%d", i), Path: geom.Polyline{geom.Pt(at, -5), geom.Pt(at, end)}})
		}
		return out
	})
}

func askedIn(effects []game.Effect) []work.Ask {
	var out []work.Ask
	for _, e := range effects {
		if a, ok := e.(work.Ask); ok {
			out = append(out, a)
		}
	}
	return out
}

// A large drawing is planned beside the page: until the answer comes that is said and what was
// there stays; it is the plan that is made at once natively; stopped, it is not begun again by
// itself, but on a word; a small one is planned at once.
func TestALargeDrawingIsPlannedBeside(t *testing.T) {
	m, _ := visit(nil, nil)
	m, _ = game.Update(m, game.Control{Name: "place", Value: "route"})
	small := m.Desk.Choices
	if len(small) == 0 {
		t.Fatal("a small drawing is not planned at once")
	}
	d := lattice(41)
	m, _ = game.Update(m, place.Plan{Drawing: d})
	m, effects := game.Update(m, game.Frame{Now: 10})
	asked := askedIn(effects)
	if len(asked) != 1 || asked[0].Kind != work.Route || !m.Desk.Waits {
		t.Fatalf("asked for %v, waiting: %t", asked, m.Desk.Waits)
	}
	if _, more := game.Update(m, game.Frame{Now: 10.05}); len(askedIn(more)) > 0 {
		t.Error("it is asked for twice")
	}
	m, _ = game.Update(m, game.Frame{Now: 10.2})
	if p := page.Of(m); !p.Work.Has || !p.Work.Stop || !strings.Contains(p.Sentence, "worked out") {
		t.Errorf("the page says %q, %+v", p.Sentence, p.Work)
	}
	m, _ = game.Update(m, work.Told{N: asked[0].N, Share: 0.25})
	if said := page.Of(m).Work.Said; !strings.Contains(said, "25") {
		t.Errorf("a quarter is done, the page says %q", said)
	}
	m, _ = game.Update(m, worktest.Answer(asked[0]))
	want := plan.Open(d)
	if m.Desk.Waits || page.Of(m).Work.Has || !reflect.DeepEqual(m.Desk.Choices, want.Choices) || !reflect.DeepEqual(m.Desk.Graph, want.Graph) {
		t.Fatalf("%d choices came, natively there are %d", len(m.Desk.Choices), len(want.Choices))
	}

	m, _ = game.Update(m, game.Control{Name: "route.rule", Value: "closed"})
	m, effects = game.Update(m, game.Frame{Now: 11})
	if n := len(askedIn(effects)); n != 1 || len(m.Desk.Choices) != len(want.Choices) {
		t.Fatalf("after a change of the rules: %d asked for, %d choices shown", n, len(m.Desk.Choices))
	}
	m, effects = game.Update(m, game.Control{Name: "work-stop"})
	if !slices.ContainsFunc(effects, func(e game.Effect) bool { _, ok := e.(work.Stop); return ok }) {
		t.Error("nothing is stopped")
	}
	if m, effects = game.Update(m, game.Frame{Now: 12}); len(askedIn(effects)) > 0 || !page.Of(m).Work.Again {
		t.Error("what was stopped is begun again")
	}
	m, _ = game.Update(m, game.Control{Name: "work-again"})
	m, effects = game.Update(m, game.Frame{Now: 13})
	asked = askedIn(effects)
	if len(asked) != 1 {
		t.Fatal("it cannot be asked for again")
	}
	m, _ = game.Update(m, work.Done{N: asked[0].N, Lost: true})
	if p := page.Of(m); !p.Work.Again || !strings.Contains(p.Notice, "Nothing of yours was lost") || len(m.Desk.Choices) != len(want.Choices) {
		t.Errorf("lost, the page says %q", p.Notice)
	}
}
