package quilt

import (
	"slices"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/top"
	"unthreaded/path/quilt"
)

// chooseCell chooses a place by its ID.
func (r Room) chooseCell(id string) Room {
	i := slices.IndexFunc(r.Top.Laying.Cells, func(c quilt.Cell) bool { return c.ID == id })
	if i >= 0 {
		r.Top = r.Top.Choose(i)
		r.pane.Around = r.Top.Middle(i)
	}
	return r
}

// chooseDesign leads to the designs for the place that is chosen; without one it chooses
// the first.
func (r Room) chooseDesign() Room {
	if r.Top.Chosen == top.None {
		r.Top = r.Top.Choose(0)
	}
	if r.Top.Chosen != top.None {
		r.Shared = r.Lead(DesignsFocus)
	}
	return r
}

// routeRow asks for the row of the place chosen to be explained, as it is sewn.
func (r Room) routeRow() (Room, []place.Effect) {
	if r.Top.Chosen == top.None {
		r.Notice = place.Say("quilt.choose-in-row")
		return r, nil
	}
	if !r.Top.Plan.Current {
		r.Notice = place.Say("order.planning")
		return r, nil
	}
	i, ok := r.Top.Plan.StageOf(r.Top.Row())
	if !ok || !r.Top.Plan.Any() {
		r.Notice = place.Say("quilt.nothing-in-row")
		return r, nil
	}
	return r, []place.Effect{place.PlanStage{Stage: r.Top.Plan.Order.Stages[i].ID}}
}

// ditch tells whether the seams count as stitched, for which the gaps are measured anew.
func ditch(r Room, e control.Event) (Room, []place.Effect) {
	r.Settings.Ditch = e.On
	r.Top.Measures, r.rested, r.Gap = top.Measures{}, r.Now(), -1
	r.Top.Rev++
	return r.laid(), []place.Effect{place.SaveSettings{Doc: r.Settings.Encode()}}
}
