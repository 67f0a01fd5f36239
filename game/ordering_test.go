package game_test

import (
	"strings"
	"testing"

	"unthreaded/game"
	quiltplace "unthreaded/game/place/quilt"
	"unthreaded/game/worktest"
)

// The stages are listed in the order sewn, changed by number and by buttons, ticked with
// the day, and each change is taken back and done again.
func TestTheOrderIsChangedAndTicked(t *testing.T) {
	m, _ := plans(twoRows())
	page := func() quiltplace.OrderPart { return m.Front().Page().In.(quiltplace.Page).Order }
	usual := page().Stages
	if len(usual) < 4 || usual[0].ID != "ditch-across" && usual[0].ID != "row-1" {
		t.Fatalf("the stages are %+v", usual)
	}
	last := usual[len(usual)-1]
	m, _ = plans(m, game.Control{Name: "quilt.stage-to", Item: last.ID, Value: "1"})
	if s := page().Stages; s[0].ID != last.ID || s[0].Name != last.Name || !page().Own {
		t.Errorf("the last stage was put first, %q is", s[0].Name)
	}
	m, _ = plans(m, game.Control{Name: "quilt.stage", Item: last.ID}, game.Control{Name: "quilt.stage-later"})
	if s := page().Stages; s[1].ID != last.ID || !s[1].Open || !page().Stage.Earlier {
		t.Errorf("moved on by one it is not the second: %+v", s)
	}
	m, _ = plans(m, game.Control{Name: "undo"}, game.Control{Name: "undo"})
	if s := page().Stages; s[0].ID != usual[0].ID || page().Own {
		t.Errorf("taken back, %q is first", s[0].Name)
	}
	before := page()
	m, effects := plans(m, game.Control{Name: "quilt.stage-sewn", Item: usual[0].ID, Value: "on"})
	after := page()
	if !after.Stages[0].Sewn || after.Stages[0].Day != "2001-09-09" || after.Left == before.Left || after.Next == before.Next {
		t.Errorf("ticked off: %+v, left %q, next %q", after.Stages[0], after.Left, after.Next)
	}
	if things, _ := shelve(nil, effects); len(ofKind(things, "sewn")) != 1 {
		t.Errorf("the tick is not kept: %v", effects)
	}
	if m, _ = plans(m, game.Control{Name: "undo"}); page().Stages[0].Sewn {
		t.Error("the tick is not taken back")
	}
}

// A place of a stage is ticked alone; the last of them ticks the stage, and taking one away
// from a stage that was ticked leaves the others.
func TestPlacesAreTicked(t *testing.T) {
	m, _ := plans(twoRows(), game.Control{Name: "quilt.stage", Item: "row-2"})
	stage := func() quiltplace.StagePart { return m.Front().Page().In.(quiltplace.Page).Order.Stage }
	for _, l := range stage().Legs {
		m, _ = plans(m, game.Control{Name: "quilt.leg-sewn", Item: l.ID, Value: "on"})
	}
	if n := len(m.Top.Plan.Sewn.Ticks); n != 1 {
		t.Errorf("all places ticked make %d ticks, want that of the stage", n)
	}
	m, _ = plans(m, game.Control{Name: "quilt.leg-sewn", Item: "0", Value: "off"})
	if s := stage(); s.Legs[0].Sewn || !s.Legs[1].Sewn || len(m.Top.Plan.Sewn.Ticks) != len(s.Legs)-1 {
		t.Errorf("one place taken away: %+v", s.Legs)
	}
}

// A row is sewn in a way by name, with what each takes beside it, and as the planner
// chooses again; the next thing to do is rehearsed on a button.
func TestARowIsSewnByName(t *testing.T) {
	m, _ := plans(twoRows(),
		game.Control{Name: "quilt.stage", Item: "row-1"}, game.Control{Name: "quilt.ways"})
	stage := func() quiltplace.StagePart { return m.Front().Page().In.(quiltplace.Page).Order.Stage }
	ways := stage().Ways
	if len(ways) < 3 || !ways[0].Picked || ways[1].Note == "" {
		t.Fatalf("the ways are %+v", ways)
	}
	m, _ = plans(m, game.Control{Name: "quilt.way", Value: "block-by-block out-and-back"})
	if i, _ := m.Top.Plan.StageOf(0); m.Top.Plan.Order.Stages[i].Passes != "out-and-back" {
		t.Error("the row is not sewn out and back")
	}
	if m, _ = plans(m, game.Control{Name: "quilt.way", Value: "planner"}); !stage().Ways[0].Picked {
		t.Error("the planner does not choose again")
	}
	m, _ = plans(m, game.Control{Name: "quilt.next-rehearse"})
	if m.Place != game.Rehearse || m.Rehearsal().Line.Length() == 0 {
		t.Errorf("the next thing to do is not rehearsed, but %s is open", m.Place)
	}
}

// Other ways through a row, asked for in Route, are compared in Quilt: its stage is open
// there, with each way and what it takes.
func TestOtherWaysAreComparedInQuilt(t *testing.T) {
	m, _ := plans(twoRows(), game.Control{Name: "quilt.stage", Item: "row-2"}, game.Control{Name: "quilt.stage-route"})
	if m.Place != "route" {
		t.Fatalf("the stage is explained in %s", m.Place)
	}
	m, _ = plans(m, game.Control{Name: "other-ways"})
	if m.Place != "quilt" {
		t.Fatalf("other ways are shown in %s", m.Place)
	}
	order := m.Front().Page().In.(quiltplace.Page).Order
	if !order.Stage.Open || order.Stage.Name != "Sashing strip 1" {
		t.Errorf("the stage that is open is %+v", order.Stage)
	}
	ways := order.Stage.Ways
	if len(ways) < 4 {
		t.Fatalf("the ways are %+v", ways)
	}
	for _, w := range ways[1:] {
		if !strings.Contains(w.Note, " s, ") && !strings.Contains(w.Note, " min, ") {
			t.Errorf("%s tells no time: %q", w.Name, w.Note)
		}
	}
}

// twoRows is a small top on the table, planned: the first quilt with two rows of two blocks.
func twoRows() game.Model {
	m, _ := visit(nil, nil)
	for _, c := range []game.Control{{Name: "place", Value: "quilt"}, {Name: "quilt.rows", Value: "2"}, {Name: "quilt.cols", Value: "2"}} {
		m, _ = game.Update(m, c)
	}
	// The order of the whole was asked for before; what is asked again is worked out.
	m, _ = worktest.Update(m, game.Control{Name: "work-stop"})
	m, _ = worktest.Update(m, game.Control{Name: "work-again"})
	m, _ = frames(m, m.Now()+1, 3)
	return m
}

// A stage asked for while its order is being worked out anew is shown when that is there; what
// was shown stays till then.
func TestAStageIsShownWhenItsOrderIsThere(t *testing.T) {
	m, _ := plans(twoRows(), game.Control{Name: "quilt.stage", Item: "row-2"})
	m, _ = game.Update(m, game.Control{Name: "quilt.far-end", Value: "on"})
	if m.Top.Plan.Current {
		t.Fatal("after a choice the order is still the old one")
	}
	m, effects := game.Update(m, game.Control{Name: "quilt.stage-route"})
	if m.Place != "route" || m.Desk.Drawing.ID == m.Top.Quilt.ID+"-row-2" {
		t.Errorf("in %s, %q is shown before its order is known", m.Place, m.Desk.Drawing.ID)
	}
	for _, a := range askedIn(effects) {
		m, _ = game.Update(m, worktest.Answer(a))
	}
	if m, _ = frames(m, m.Now()+1, 2); m.Desk.Drawing.ID != m.Top.Quilt.ID+"-row-2" || m.Desk.Given == nil {
		t.Errorf("with the order there, %q is shown", m.Desk.Drawing.ID)
	}
}
