package game

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"unthreaded/game/weeks"
)

// SewnThing is the kind under which a piece that was sewn is kept.
const SewnThing = "sewn"

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

// backChange is something that can be taken back: a note that was deleted, kept or
// changed, as it was before, or the settings.
type backChange struct {
	deleted, kept, changed *weeks.Sewn
	settings               *Settings
}

// sewnControl does what a control of the notes asks for.
func (m Model) sewnControl(c Control) (Model, []Effect) {
	switch c.Name {
	case "sewn-keep", "sewn-anyway":
		return m.keepSewn(c.Name == "sewn-anyway")
	case "sewn-change":
		return m.changeSewn(c.Item), nil
	case "sewn-leave":
		return m.leftSewn(), nil
	case "sewn-delete":
		return m.deleteSewn(c.Item)
	case "use-hand", "use-needle":
		return m.useFactor(c.Name == "use-needle")
	}
	m.Back.Sewn.Draft = m.Back.Sewn.Draft.typed(c)
	return m.rechecked(), nil
}

// keepSewn keeps what stands in the fields, as a new note or in place of the one that is
// changed; anyway even where it is hard to believe.
func (m Model) keepSewn(anyway bool) (Model, []Effect) {
	s, trouble := m.drafted()
	if trouble.Text != "" && !(trouble.Ask && anyway) {
		m.Back.Sewn.Trouble = trouble
		return m.focusOn(fieldAt(trouble.At)), nil
	}
	doc, err := weeks.EncodeSewn(s)
	if err != nil {
		m.Back.Sewn.Trouble = SewnTrouble{Text: "This cannot be kept: " + err.Error() + "."}
		return m, nil
	}
	keep := []Effect{Keep{Thing: Thing{Kind: SewnThing, ID: s.ID, Doc: doc}}}
	m, before := m.withoutSewn(s.ID)
	m = m.withSewn(s)
	sw := &m.Back.Sewn
	sw.Trouble = SewnTrouble{}
	if before != nil {
		m.Back.past = append(m.Back.past, backChange{changed: before})
		m.Notice = Notice{Text: "The note was changed.", Action: "undo"}
		return m.ledToPiece(s.ID), keep
	}
	sw.Draft.Stitches, sw.Draft.Note, sw.Draft.Photo, sw.Draft.Day = "", "", "", ""
	m = m.sewingReady() // the next piece is likely one of today
	m.Back.past = append(m.Back.past, backChange{kept: &s})
	m.Notice = Notice{Text: "Noted.", Action: "undo"}
	// What it says stands on top.
	return m.focusOn(`[data-send="back.view"][value=sewn]`), keep
}

// changeSewn puts a note back into the fields; what stood there waits.
func (m Model) changeSewn(id string) Model {
	sw := &m.Back.Sewn
	i := sw.at(id)
	if i < 0 {
		return m
	}
	if sw.Draft.ID == "" {
		sw.aside = sw.Draft
	}
	sw.Draft, sw.Trouble = draftOf(sw.Pieces[i], m.Settings.Units == Inches), SewnTrouble{}
	return m.focusOn(fieldAt("stitches"))
}

// leftSewn gives the change of a note up.
func (m Model) leftSewn() Model {
	id := m.Back.Sewn.Draft.ID
	return m.draftBack().ledToPiece(id)
}

// draftBack puts the draft of a new piece back, where a note is being changed.
func (m Model) draftBack() Model {
	sw := &m.Back.Sewn
	if sw.Draft.ID != "" {
		sw.Draft, sw.aside, sw.Trouble = sw.aside, SewnDraft{}, SewnTrouble{}
	}
	return m
}

// ledToPiece leads the keyboard to a piece of the list.
func (m Model) ledToPiece(id string) Model {
	return m.ledToRow(m.Back.Sewn.at(id))
}

// ledToRow leads the keyboard to the i-th piece of the list, or the last; to the form
// where there is none.
func (m Model) ledToRow(i int) Model {
	n := len(m.Back.Sewn.Pieces)
	if n == 0 || i < 0 {
		return m.focusOn(fieldAt("stitches"))
	}
	return m.focusOn(fmt.Sprintf(`[data-list="back.machine.pieces"] > li:nth-of-type(%d) [data-send="back.sewn-change"]`, min(i, n-1)+1))
}

// fieldAt is the selector of a field of the form.
func fieldAt(name string) string { return `[data-send="back.sewn-` + cmp.Or(name, "keep") + `"]` }

// deleteSewn takes a note off the shelf.
func (m Model) deleteSewn(id string) (Model, []Effect) {
	row := m.Back.Sewn.at(id)
	m, s := m.withoutSewn(id)
	if s == nil {
		return m, nil
	}
	m.Back.past = append(m.Back.past, backChange{deleted: s})
	name := "a piece"
	if s.Name != "" {
		name = s.Name
	}
	m.Notice = Notice{Text: fmt.Sprintf("Deleted: %s, %d stitches, of %s.", name, s.Stitches, s.When(m.Back.Book.Zone())), Action: "undo"}
	return m.ledToRow(row), []Effect{Discard{Kind: SewnThing, ID: id}}
}

// at returns the place of a note in the list, -1 for none.
func (sw Sewing) at(id string) int {
	return slices.IndexFunc(sw.Pieces, func(s weeks.Sewn) bool { return s.ID == id })
}

// withoutSewn takes a note off the list and returns it; one that is being changed leaves
// the form.
func (m Model) withoutSewn(id string) (Model, *weeks.Sewn) {
	sw := &m.Back.Sewn
	i := sw.at(id)
	if i < 0 {
		return m, nil
	}
	found := sw.Pieces[i]
	sw.Pieces = slices.Delete(slices.Clone(sw.Pieces), i, i+1)
	sw.Rev++
	if sw.Draft.ID == id {
		m = m.draftBack()
	}
	return m, &found
}

// withSewn puts a note on the list.
func (m Model) withSewn(s weeks.Sewn) Model {
	sw := &m.Back.Sewn
	sw.Pieces = append(slices.Clone(sw.Pieces), s)
	slices.SortStableFunc(sw.Pieces, func(a, b weeks.Sewn) int {
		return cmp.Or(strings.Compare(b.Day, a.Day), strings.Compare(b.ID, a.ID))
	})
	sw.Rev++
	return m
}

// sewnKept takes a kept note at the beginning of the visit.
func (m Model) sewnKept(t Thing) Model {
	s, err := weeks.DecodeSewn(t.Doc)
	if err != nil {
		m.Back.Sewn.Damaged++
		return m
	}
	if m.Back.Sewn.at(s.ID) < 0 {
		m = m.withSewn(s)
	}
	return m
}

// backPhoto takes the photo that was chosen for a note.
func (m Model) backPhoto(p Photo) Model {
	m.Back.Sewn.Draft.Photo = p.ID
	return m
}
