package top

import (
	"errors"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

// The order that is planned in steps is that of the package below; it follows the quilt,
// the choices and the designs, and comes back by undo.
func TestTheOrderFollowsTheTop(t *testing.T) {
	q, designs := quilt.Demo()
	q.Rows, q.Cols = 2, 2
	top := Open(q, designs).Planned()
	want, err := order.Plan(q, designs, order.Choices{})
	if err != nil || !top.Plan.Any() || !reflect.DeepEqual(top.Plan.Order, want) {
		t.Fatalf("the order is not that of the quilt (%v)", err)
	}
	moved := top.Decide(top.Plan.Choices.Moved(top.Plan.Order, "row-1", 0))
	if moved.Plan.Any() {
		t.Error("after a choice the old order is current")
	}
	if moved = moved.Planned(); moved.Plan.Order.Stages[0].ID != "row-1" {
		t.Errorf("row 1 was put first, %s is", moved.Plan.Order.Stages[0].ID)
	}
	ticked := moved.Tick(moved.Plan.Sewn.With(order.Tick{Kind: order.StageTick, Stage: "row-1", Day: "2026-02-03"}))
	if !ticked.Plan.Any() {
		t.Error("a tick makes the order stale")
	}
	if back := ticked.Undo(); len(back.Plan.Sewn.Ticks) != 0 || !back.Plan.Any() || len(back.Redo().Plan.Sewn.Ticks) != 1 {
		t.Error("a tick is not taken back and done again")
	}
	if back := ticked.Undo().Undo().Planned(); !reflect.DeepEqual(back.Plan.Order, want) || back.Redo().Planned().Plan.Order.Stages[0].ID != "row-1" {
		t.Error("a choice is not taken back and done again")
	}
	wider, err := top.SetRows(2, 3)
	if wider = wider.Planned(); err != nil || wider.Plan.Order.Fingerprint == want.Fingerprint || wider.Undo().Planned().Plan.Order.Fingerprint != want.Fingerprint {
		t.Errorf("the order does not follow the layout (%v)", err)
	}
	lily := designs["demo-lily"]
	lily.Margin++
	other := quilt.Designs{}
	for id, d := range designs {
		other[id] = d
	}
	other[lily.ID] = lily
	if again := top.WithDesigns(other); again.Plan.Any() || again.Planned().Plan.Order.Fingerprint == want.Fingerprint {
		t.Error("the order does not follow a design")
	}
	empty := Open(quilt.Quilt{Schema: quilt.Schema, ID: "e", Name: "e", Setting: quilt.Straight, Rows: 1, Cols: 1, BlockMM: 100}, nil).Planned()
	if empty.Plan.Any() || !empty.Plan.Current || !errors.Is(empty.Plan.Trouble, order.ErrNothing) {
		t.Errorf("an empty top: %+v", empty.Plan)
	}
}

// Undo and redo are exact inverses over layout, choices and ticks.
func TestUndoOverQuiltChoicesAndTicks(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		q, _ := quilt.Demo()
		top := Open(q, nil)
		type seen struct {
			q quilt.Quilt
			c order.Choices
			s order.Sewn
		}
		look := func(t Top) seen { return seen{t.Quilt, t.Plan.Choices, t.Plan.Sewn} }
		states := []seen{look(top)}
		for range rapid.IntRange(1, 8).Draw(rt, "changes") {
			before := len(top.past)
			switch rapid.IntRange(0, 3).Draw(rt, "change") {
			case 0:
				top = top.SetName(rapid.StringMatching("[a-z]{1,5}").Draw(rt, "name"))
				top.lastKey = ""
			case 1:
				c := top.Plan.Choices
				c.NoDitch = !c.NoDitch
				top = top.Decide(c)
			case 2:
				id := rapid.SampledFrom([]string{"row-1", "row-2"}).Draw(rt, "tick")
				top = top.Tick(top.Plan.Sewn.With(order.Tick{Kind: order.StageTick, Stage: id, Day: "2026-02-03"}))
			default:
				if next, err := top.AddBorder(); err == nil {
					top = next
				}
			}
			if len(top.past) > before {
				states = append(states, look(top))
			}
		}
		for i := len(states) - 1; i >= 0; i-- {
			if !reflect.DeepEqual(look(top), states[i]) {
				rt.Fatalf("state %d is not what it was", i)
			}
			top = top.Undo()
		}
		for i := 1; i < len(states); i++ {
			if top = top.Redo(); !reflect.DeepEqual(look(top), states[i]) {
				rt.Fatalf("done again, state %d is not what it was", i)
			}
		}
	})
}
