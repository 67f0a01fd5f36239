package quilt

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"unthreaded/game/place"
	"unthreaded/game/top"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

// open lays a kept quilt on the table.
func (r Room) open(id string) (Room, []place.Effect) {
	i := slices.IndexFunc(r.Quilts, func(q quilt.Quilt) bool { return q.ID == id })
	if i < 0 || id == r.Top.Quilt.ID {
		return r, nil
	}
	r, effects := r.keep()
	r, more := r.onTable(r.Quilts[i]).ownThreads()
	return r, append(effects, more...)
}

// newQuilt adds a top of three by four blocks of 12 in, a usual size, with nothing in them.
func (r Room) newQuilt() (Room, []place.Effect) {
	r.Shared = r.Lead(LayoutFocus) // its size comes first
	return r.added(quilt.Quilt{
		Schema: quilt.Schema, Name: r.freeName(r.Book().Say("quilt.my-quilt")), Setting: quilt.Straight,
		Rows: 4, Cols: 3, BlockMM: 12 * place.MMPerInch,
	})
}

// copied adds a copy of the quilt on the table, with designs of its own.
func (r Room) copied() (Room, []place.Effect) {
	q := r.Top.Quilt
	if q.ID == "" {
		return r, nil
	}
	q.Name = r.freeName(r.Book().Say("quilt.copy-of", strings.TrimSpace(q.Name)))
	plan := r.Top.Plan
	r, q, effects := r.ownDesigns(q)
	r, more := r.added(q)
	r.Top = r.Top.WithPlan(plan.Choices, order.Sewn{})
	r, last := r.keepPlan()
	return r, slices.Concat(effects, more, last)
}

// freeName returns a name that no quilt has.
func (r Room) freeName(name string) string {
	free := name
	for n := 2; slices.ContainsFunc(r.Quilts, func(q quilt.Quilt) bool { return q.Name == free }); n++ {
		free = fmt.Sprintf("%s %d", name, n)
	}
	return free
}

// added puts a new quilt on the shelf and on the table.
func (r Room) added(q quilt.Quilt) (Room, []place.Effect) {
	r, effects := r.keep()
	q.ID = r.FreshID("quilt")
	r.Quilts = append([]quilt.Quilt{q}, r.Quilts...)
	r, more := r.onTable(q).ownThreads()
	return r, append(append(effects, more...), place.KeepQuilt(q)...)
}

// deleted takes the quilt off the shelf; the notice offers to take that back. Its designs
// stay.
func (r Room) deleted() (Room, []place.Effect) {
	q := r.Top.Quilt
	if q.ID == "" {
		return r, nil
	}
	r.Quilts = slices.DeleteFunc(slices.Clone(r.Quilts), func(x quilt.Quilt) bool { return x.ID == q.ID })
	r.BinnedQuilts = append(r.BinnedQuilts[:len(r.BinnedQuilts):len(r.BinnedQuilts)], q)
	r.saving.since = 0
	if len(r.Quilts) > 0 {
		r = r.onTable(r.Quilts[0])
	} else {
		r = r.onTable(q) // puts it aside with its steps
		r.Top = top.Top{Rev: r.Top.Rev + 1, Chosen: top.None}
		r = r.laid()
	}
	r.Notice = place.Say("quilt.deleted", q.Name).Offer("undo")
	r, effects := r.ownThreads()
	effects = append(effects, place.Discard{Kind: place.QuiltThing, ID: q.ID})
	l, more := r.DiscardPlan(q.ID)
	r.Library = l
	return r, append(effects, more...)
}

// saved hands out the quilt with its designs as a document.
func (r Room) saved() (Room, []place.Effect) {
	if r.Top.Quilt.ID == "" {
		return r, nil
	}
	doc, err := r.Top.Encode()
	if err != nil {
		r.Notice = place.Say("quilt.not-saved")
		return r, nil
	}
	name := place.FileName(r.Top.Quilt.Name, "quilt") + ".json"
	return r, []place.Effect{place.Download{Name: name, Type: "application/json", Data: doc}}
}

// imported adds a quilt from a document, with those of its designs that are not there
// already. A design that was changed since comes in beside the changed one.
func (r Room) imported(doc string) (Room, []place.Effect) {
	saved, err := top.Decode([]byte(doc))
	switch {
	case errors.Is(err, quilt.ErrNewer):
		r.Notice = place.Say("quilt.newer-file")
		return r, nil
	case err != nil:
		r.Notice = place.Say("quilt.no-quilt-file")
		return r, nil
	}
	var effects []place.Effect
	ids := map[string]string{}
	own := r.DesignsByID()
	for _, d := range saved.Designs {
		there, known := own[d.ID]
		if known && sameDesign(there, d) {
			continue
		}
		old := d.ID
		if known {
			d.ID, d.Name = r.FreshID("block"), r.FreeName(d.Name)
		}
		ids[old] = d.ID
		r.Library = r.WithDesign(d)
		effects = append(effects, place.KeepDesign(d)...)
	}
	q := top.Renamed(saved.Quilt, ids)
	q.Name = r.freeName(q.Name)
	r, more := r.added(q)
	r.Top = r.Top.WithPlan(saved.Choices, saved.Sewn)
	r, kept := r.keepPlan()
	more = append(more, kept...)
	r.Notice = place.Say("quilt.opened", q.Name, len(ids))
	return r, append(effects, more...)
}

// clashed keeps both quilts where another tab has changed one too: what this tab made goes
// on as a copy, with all its steps, and what the other tab made keeps its name.
func (r Room) clashed(c place.Clashed) (Room, []place.Effect) {
	i := slices.IndexFunc(r.Quilts, func(q quilt.Quilt) bool { return q.ID == c.ID })
	theirs, err := quilt.DecodeQuilt(c.Theirs)
	if err != nil || i < 0 {
		return r, nil // it was deleted here, or what stands there is damaged and stays
	}
	mine := r.Quilts[i]
	onTable := r.Top.Quilt.ID == c.ID
	if onTable {
		mine = r.Top.Quilt
	}
	mine.ID, mine.Name = r.FreshID("quilt"), r.freeName(r.Book().Say("quilt.this-tab", strings.TrimSpace(mine.Name)))
	r.Library = r.WithQuilt(theirs)
	r.Quilts = append([]quilt.Quilt{mine}, r.Quilts...)
	if onTable {
		r.Top = r.Top.Renamed(mine.ID, mine.Name)
		r.Settings.Quilt = mine.ID
	}
	if t, aside := r.tops[c.ID]; aside {
		r.tops = maps.Clone(r.tops)
		delete(r.tops, c.ID)
		r.tops[mine.ID] = t.Renamed(mine.ID, mine.Name)
	}
	r.Notice = place.Say("quilt.clashed", theirs.Name, mine.Name)
	plan := r.Plans[c.ID]
	var more []place.Effect
	r.Library, more = r.KeepPlan(mine.ID, plan.Choices, plan.Sewn)
	return r, append(place.KeepQuilt(mine), more...)
}

// planClashed takes the ticks of another tab beside those of this one; of choices those that
// were made last stay.
func (r Room) planClashed(c place.Clashed) (Room, []place.Effect) {
	id, _, _ := strings.Cut(c.ID, ".")
	mine := r.Plans[id]
	onTable := r.Top.Quilt.ID == id
	if onTable {
		mine.Choices, mine.Sewn = r.Top.Plan.Choices, r.Top.Plan.Sewn
	}
	sewn := mine.Sewn
	switch c.Kind {
	case place.SewnThing:
		theirs, err := order.DecodeSewn(c.Theirs)
		if err != nil {
			return r, nil // what stands there is damaged and stays
		}
		for _, t := range theirs.Ticks {
			if sewn.Ticked(t) == "" {
				sewn = sewn.With(t)
			}
		}
		r.Library, _ = r.KeepPlan(id, mine.Choices, theirs)
	default:
		theirs, err := order.DecodeChoices(c.Theirs)
		if err != nil {
			return r, nil
		}
		r.Library, _ = r.KeepPlan(id, theirs, mine.Sewn)
	}
	if onTable {
		r.Top = r.Top.Tick(sewn)
		r.saving.changes = r.Top.Changes
	}
	var effects []place.Effect
	r.Library, effects = r.KeepPlan(id, mine.Choices, sewn)
	return r, effects
}

// sameDesign tells whether two designs are the same but for their photos, which do
// not travel with a document.
func sameDesign(a, b quilt.Design) bool {
	a.Photo, b.Photo = nil, nil
	x, errX := quilt.EncodeDesign(a)
	y, errY := quilt.EncodeDesign(b)
	return errX == nil && errY == nil && bytes.Equal(x, y)
}
