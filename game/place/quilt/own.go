package quilt

import (
	"bytes"
	"slices"

	"unthreaded/game/place"
	"unthreaded/game/top"
	"unthreaded/game/words"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// drawCell asks for the design of the place chosen to be drawn on, or for a new one of its
// shape and size, which then lies there. Where changes are for one place only and the design
// lies in others too, a copy of it takes its place there.
func (r Room) drawCell() (Room, []place.Effect) {
	cell, ok := r.Top.Cell()
	if !ok {
		r.Notice = place.Say("quilt.choose-first")
		return r, nil
	}
	id := r.Top.Choice().Design
	d, known := r.Design(id)
	switch {
	case !known:
		d = place.NewDesign(cell.Shape, r.FreeName(r.Book().Say("quilt.my-block", top.KindName(cell.Kind))))
	case r.Top.Scope == top.OnlyThis && r.Top.Lies(id) > 1:
		d.Name = r.FreeName(d.Name)
	default:
		return r, []place.Effect{place.Edit{Design: id}}
	}
	r, id, effects := r.designAdded(d)
	r.Top = r.Top.Give(id)
	r = r.changed()
	return r, append(effects, place.Edit{Design: id})
}

// designAdded adds a design under an ID of its own.
func (r Room) designAdded(d quilt.Design) (Room, string, []place.Effect) {
	d.ID = r.FreshID("block")
	r.Library = r.WithDesign(d)
	r = r.repictured()
	r.Top = r.Top.WithDesigns(r.DesignsByID())
	return r, d.ID, place.KeepDesign(d)
}

// laidMotif lays a ready motif straight into the place chosen, or all of its kind, fitted to
// its shape and size. A design that is the same already is taken.
func (r Room) laidMotif(id string) (Room, []place.Effect) {
	cell, ok := r.Top.Cell()
	m, known := motif.Find(id)
	if !ok || !known {
		return r, nil
	}
	name, _ := r.Book().Motif(id)
	recipe := quilt.RecipeOf(m, cell.Shape)
	d := place.NewDesign(cell.Shape, "")
	d.Recipe = &recipe
	if _, err := m.Fit(cell.Shape, d.Margin, recipe.Values); err != nil {
		r.Notice = place.Say("quilt.motif-unfit", name, top.KindName(cell.Kind))
		return r, nil
	}
	var effects []place.Effect
	same := slices.IndexFunc(r.Designs, func(x quilt.Design) bool { return sameLines(x, d) })
	if same >= 0 {
		id = r.Designs[same].ID
	} else {
		d.Name = r.FreeName(words.Upper(r.Book().Say("quilt.motif-in", name, top.KindName(cell.Kind))))
		r, id, effects = r.designAdded(d)
	}
	r.Top = r.Top.Give(id)
	return r.laid().changed(), effects
}

// sameLines tells whether two designs are the same but for ID and name.
func sameLines(a, b quilt.Design) bool {
	a.ID, a.Name, a.Photo = "same", "same", nil
	b.ID, b.Name, b.Photo = "same", "same", nil
	x, errX := quilt.EncodeDesign(a)
	y, errY := quilt.EncodeDesign(b)
	return errX == nil && errY == nil && bytes.Equal(x, y)
}

// ownDesigns gives a quilt copies of its designs, so that a change in it changes no other.
func (r Room) ownDesigns(q quilt.Quilt) (Room, quilt.Quilt, []place.Effect) {
	ids := map[string]string{}
	var effects []place.Effect
	for _, id := range q.DesignIDs() {
		d, known := r.Design(id)
		if !known {
			continue
		}
		d.ID, d.Name = r.FreshID("block"), r.FreeName(d.Name)
		ids[id] = d.ID
		r.Library = r.WithDesign(d)
		effects = append(effects, place.KeepDesign(d)...)
	}
	return r, top.Renamed(q, ids), effects
}
