package back

import (
	"cmp"
	"slices"
	"strings"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/words"
)

// SewnThing is the kind under which a piece that was sewn is kept; see place.IsPiece.
const SewnThing = place.SewnThing

// Sewing is what was noted of pieces sewn at the machine.
type Sewing struct {
	// Pieces are those noted, the newest first. Rev grows with each change of them.
	Pieces []weeks.Sewn
	Rev    int
	Draft  SewnDraft
	// Trouble says what the draft lacks once it was to be kept.
	Trouble SewnTrouble
	// Damaged counts the kept notes that could not be read and were left as they are.
	Damaged int

	// aside is the draft of a new piece while another is changed.
	aside SewnDraft
}

// change is something that can be taken back: a trace that was deleted, a note that was
// deleted, kept or changed, as it was before, or the settings.
type change struct {
	trace                  string
	deleted, kept, changed *weeks.Sewn
	settings               *place.Settings
}

// did notes what can be taken back.
func (r Room) did(c change) Room {
	r.past = append(slices.Clip(r.past), c)
	return r
}

// keepSewn keeps what stands in the fields, as a new note or in place of the one that is
// changed; anyway even where it is hard to believe.
func (r Room) keepSewn(anyway bool) (Room, []place.Effect) {
	s, trouble := r.drafted()
	if !trouble.None() && !(trouble.Ask && anyway) {
		r.Sewn.Trouble = trouble
		return r.led(fieldAt(trouble.At)), nil
	}
	doc, err := weeks.EncodeSewn(s)
	if err != nil {
		r.Sewn.Trouble = SewnTrouble{Said: words.Of("back.wrong.keep")}
		return r, nil
	}
	kept := []place.Effect{place.Keep{Thing: place.Thing{Kind: SewnThing, ID: s.ID, Doc: doc}}}
	r, before := r.withoutSewn(s.ID)
	r = r.withSewn(s)
	sw := &r.Sewn
	sw.Trouble = SewnTrouble{}
	if before != nil {
		r = r.did(change{changed: before})
		r.Notice = place.Say("back.note.changed").Offer("undo")
		return r.ledToPiece(s.ID), kept
	}
	sw.Draft.Stitches, sw.Draft.Note, sw.Draft.Photo, sw.Draft.Day = "", "", "", ""
	r = r.sewingReady() // the next piece is likely one of today
	r = r.did(change{kept: &s})
	r.Notice = place.Say("back.note.noted").Offer("undo")
	// What it says stands on top.
	return r.led("back-sewn"), kept
}

// changeSewn puts a note back into the fields; what stood there waits.
func (r Room) changeSewn(id string) Room {
	sw := &r.Sewn
	i := sw.at(id)
	if i < 0 {
		return r
	}
	if sw.Draft.ID == "" {
		sw.aside = sw.Draft
	}
	sw.Draft, sw.Trouble = draftOf(sw.Pieces[i], r.Inches()), SewnTrouble{}
	return r.led(fieldAt("stitches"))
}

// leftSewn gives the change of a note up.
func (r Room) leftSewn() Room {
	id := r.Sewn.Draft.ID
	return r.draftBack().ledToPiece(id)
}

// draftBack puts the draft of a new piece back, where a note is being changed.
func (r Room) draftBack() Room {
	sw := &r.Sewn
	if sw.Draft.ID != "" {
		sw.Draft, sw.aside, sw.Trouble = sw.aside, SewnDraft{}, SewnTrouble{}
	}
	return r
}

// ledToPiece leads the keyboard to a piece of the list.
func (r Room) ledToPiece(id string) Room {
	return r.ledToRow(r.Sewn.at(id))
}

// ledToRow leads the keyboard to the i-th piece of the list, or the last; to the form
// where there is none.
func (r Room) ledToRow(i int) Room {
	n := len(r.Sewn.Pieces)
	if n == 0 || i < 0 {
		return r.led(fieldAt("stitches"))
	}
	return r.led(pieceFocus(r.Sewn.Pieces[min(i, n-1)].ID))
}

// led leads the keyboard to a named place.
func (r Room) led(to control.Focus) Room {
	r.Shared = r.Lead(to)
	return r
}

// fieldAt names a field of the form, pieceFocus and traceFocus an entry of a list.
func fieldAt(name string) control.Focus  { return control.Focus("back-sewn-" + cmp.Or(name, "keep")) }
func pieceFocus(id string) control.Focus { return control.Focus("back-piece-" + id) }
func traceFocus(id string) control.Focus { return control.Focus("back-trace-" + id) }

// deleteSewn takes a note off the shelf.
func (r Room) deleteSewn(id string) (Room, []place.Effect) {
	row := r.Sewn.at(id)
	r, s := r.withoutSewn(id)
	if s == nil {
		return r, nil
	}
	r = r.did(change{deleted: s})
	r.Notice = place.Say("back.note.deleted", s.Name != "", s.Name, s.Stitches, when(*s, r.Weeks.Zone())).Offer("undo")
	return r.ledToRow(row), []place.Effect{place.Discard{Kind: SewnThing, ID: id}}
}

// at returns the place of a note in the list, -1 for none.
func (sw Sewing) at(id string) int {
	return slices.IndexFunc(sw.Pieces, func(s weeks.Sewn) bool { return s.ID == id })
}

// withoutSewn takes a note off the list and returns it; one that is being changed leaves
// the form.
func (r Room) withoutSewn(id string) (Room, *weeks.Sewn) {
	sw := &r.Sewn
	i := sw.at(id)
	if i < 0 {
		return r, nil
	}
	found := sw.Pieces[i]
	sw.Pieces = slices.Delete(slices.Clone(sw.Pieces), i, i+1)
	sw.Rev++
	if sw.Draft.ID == id {
		r = r.draftBack()
	}
	return r, &found
}

// withSewn puts a note on the list.
func (r Room) withSewn(s weeks.Sewn) Room {
	sw := &r.Sewn
	sw.Pieces = append(slices.Clone(sw.Pieces), s)
	slices.SortStableFunc(sw.Pieces, func(a, b weeks.Sewn) int {
		return cmp.Or(strings.Compare(b.Day, a.Day), strings.Compare(b.ID, a.ID))
	})
	sw.Rev++
	return r
}

// sewnKept takes a kept note at the beginning of the visit.
func (r Room) sewnKept(t place.Thing) Room {
	s, err := weeks.DecodeSewn(t.Doc)
	if err != nil {
		r.Sewn.Damaged++
		return r
	}
	if r.Sewn.at(s.ID) < 0 {
		r = r.withSewn(s)
	}
	return r
}
