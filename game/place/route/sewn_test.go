package route

import (
	"math"
	"testing"

	"unthreaded/game/place"
	"unthreaded/game/screen"
	"unthreaded/game/top"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
	moves "unthreaded/path/route/steps"
)

// onTable returns the place with the quilt of the first visit on the table, two rows of it.
func onTable(t *testing.T, set quilt.Setting) Room {
	t.Helper()
	q, designs := quilt.Demo()
	q.Rows, q.Cols, q.Setting = 2, 2, set
	s := place.Shared{Settings: place.DefaultSettings(), Screen: screen.Cloth{W: 1000, H: 700, DPR: 1, PxPerMM: 96 / 25.4}}
	for _, d := range designs {
		s.Designs = append(s.Designs, d)
	}
	s.Top = top.Open(q, s.DesignsByID()).Planned()
	return New().With(s).(Room).ready()
}

// Every stage of the order is shown as it is sewn: the lengths, the stops and the moves that
// the order has, in every setting.
func TestStagesAreThoseOfTheOrder(t *testing.T) {
	for _, set := range []quilt.Setting{quilt.Straight, quilt.OnPoint} {
		r := onTable(t, set)
		o := r.Top.Plan.Order
		if r.Desk.Drawing.ID != r.Top.StageID(o.Stages[0]) {
			t.Errorf("%s: %q is opened first", set, r.Desk.Drawing.ID)
		}
		for i, s := range o.Stages {
			r = sent(t, r, "drawing", r.Top.StageID(s), "")
			got, work := r.Desk.Route(), s.Work
			if math.Abs(got.SewnMM-work.SewnMM) > 0.5 || math.Abs(got.RetraceMM-work.AgainMM) > 0.5 || math.Abs(got.SeamMM-work.DitchMM) > 0.5 {
				t.Errorf("%s, %s: %.1f mm sewn, %.1f again, %.1f in the ditch; the order has %.1f, %.1f, %.1f",
					set, s.ID, got.SewnMM, got.RetraceMM, got.SeamMM, work.SewnMM, work.AgainMM, work.DitchMM)
			}
			want := o.Moves(i)
			if want[0].Kind == moves.StopMove {
				want = want[1:] // it leads from the stage before
			}
			if len(r.Desk.Moves()) != len(want) {
				t.Errorf("%s, %s: %d moves, the order has %d", set, s.ID, len(r.Desk.Moves()), len(want))
			}
			if all := r.Desk.Length(); math.Abs(all-got.SewnMM-got.RetraceMM-got.SeamMM) > 0.01*all {
				t.Errorf("%s, %s: the thread is %.1f mm long, lines and ways %.1f", set, s.ID, all, got.SewnMM+got.RetraceMM+got.SeamMM)
			}
			stays := r.Desk.Stays()
			if len(s.Legs) > 1 && len(stays) != len(s.Legs) {
				t.Errorf("%s, %s: %d places are numbered of %d", set, s.ID, len(stays), len(s.Legs))
			}
			for i, st := range stays[1:] {
				if r.Desk.Moves()[st.First].Kind == moves.StopMove {
					t.Errorf("%s, %s: stay %d begins with a stop", set, s.ID, i+2)
				}
			}
			if in := r.Page().In.(Shown); in.HasEnds || len(in.Choices) != 1 || in.Reason == "" || len(in.Order)+len(in.Stays) == 0 {
				t.Errorf("%s, %s: %+v", set, s.ID, in)
			}
		}
	}
}

// A block that lies in the quilt is shown as it is sewn there before other ways; a stage is
// laid anew when the order has changed.
func TestBlocksAreSewnAsInTheQuilt(t *testing.T) {
	r := onTable(t, quilt.Straight)
	r = sent(t, r, "drawing", "demo-lily", "")
	first := r.Page().In.(Shown).Choices[0]
	if !r.Desk.Choices[0].Whole || !first.Picked || first.Name != "As in your quilt" || len(r.Desk.Choices) < 2 {
		t.Errorf("the first of %d ways is %+v", len(r.Desk.Choices), first)
	}
	if r = sent(t, r, "pick", "", "1"); r.Desk.Choices[1].Whole && len(r.Desk.Reasons.Bands) > 0 {
		t.Error("the reasons of one way stand beside another")
	}
	r = sent(t, r, "drawing", r.Top.StageID(r.Top.Plan.Order.Stages[0]), "")
	r.Top = r.Top.Decide(order.Choices{NoDitch: true}).Planned()
	if r = r.ready(); r.Desk.Drawing.ID != r.Top.StageID(r.Top.Plan.Order.Stages[0]) {
		t.Errorf("without the ditch %q is on the desk", r.Desk.Drawing.ID)
	}
}
