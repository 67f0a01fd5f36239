package quilt

import (
	"slices"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/plan"
	"unthreaded/game/top"
	"unthreaded/path/plane"
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

// drawCell asks for the design of the place chosen to be drawn on, or for a new one of its
// shape and size, which then lies there.
func (r Room) drawCell() (Room, []place.Effect) {
	cell, ok := r.Top.Cell()
	if !ok {
		r.Notice = place.Say("quilt.choose-first")
		return r, nil
	}
	var effects []place.Effect
	id := r.Top.Choice().Design
	if _, known := r.Design(id); !known {
		d := place.NewDesign(cell.Shape, r.FreeName(r.Book().Say("quilt.my-block", top.KindName(cell.Kind))))
		d.ID = r.FreshID("block")
		id = d.ID
		r.Library, effects = r.WithDesign(d), place.KeepDesign(d)
		r = r.repictured()
		r.Top = r.Top.WithDesigns(r.DesignsByID()).Give(id)
		r = r.changed()
	}
	return r, append(effects, place.Edit{Design: id})
}

// routeRow asks for a way along the row of the place chosen. Where its lines do not hang
// together a stop is allowed between them.
func (r Room) routeRow() (Room, []place.Effect) {
	if r.Top.Chosen == top.None {
		r.Notice = place.Say("quilt.choose-in-row")
		return r, nil
	}
	row := r.Top.Row()
	d, ok := r.Top.RowDrawing(row, r.Book().Say("quilt.row-drawing", r.Top.Quilt.Name, r.Top.RowSaid(row)))
	switch {
	case !ok:
		r.Notice = place.Say("quilt.no-row")
		return r, nil
	case !sews(d):
		r.Notice = place.Say("quilt.nothing-in-row")
		return r, nil
	}
	return r, []place.Effect{place.Plan{Drawing: d, Apart: place.Say("quilt.row-apart")}}
}

// sews tells whether a drawing has lines to sew.
func sews(d plan.Drawing) bool {
	return slices.ContainsFunc(d.Strokes(), func(s plane.Stroke) bool { return s.Kind.Must() })
}

// ditch tells whether the seams count as stitched, for which the gaps are measured anew.
func ditch(r Room, e control.Event) (Room, []place.Effect) {
	r.Settings.Ditch = e.On
	r.Top.Measures, r.rest.since, r.Gap = top.Measures{}, r.Now(), -1
	r.Top.Rev++
	return r.laid(), []place.Effect{place.SaveSettings{Doc: r.Settings.Encode()}}
}
