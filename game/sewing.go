package game

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"unthreaded/game/weeks"
	"unthreaded/game/words"
)

// SewnThing is the kind under which a piece that was sewn is kept.
const SewnThing = "sewn"

// Sewing is what was noted of pieces sewn at the machine.
type Sewing struct {
	// Pieces are those noted, the newest first.
	Pieces []weeks.Sewn
	Draft  SewnDraft
	// Trouble says what the draft lacks once it was to be kept.
	Trouble string
	// Damaged counts the kept notes that could not be read and were left as they are.
	Damaged int
}

// SewnDraft is what stands in the fields, as typed.
type SewnDraft struct {
	Day, Motif, Stitches, Length, SPM, Note string
	// Photo is the ID of the photo that was chosen.
	Photo string
}

// backChange is something that can be taken back: a note that was deleted or kept, or the
// settings.
type backChange struct {
	deleted, kept *weeks.Sewn
	settings      *Settings
}

// sewingReady fills the fields that are empty with what is likely.
func (m Model) sewingReady() Model {
	d := &m.Back.Sewn.Draft
	d.Day = cmp.Or(d.Day, m.Back.Book.Zone().Date(m.NowS()).Format("2006-01-02"))
	d.SPM = cmp.Or(d.SPM, strconv.FormatFloat(m.Settings.SPM, 'f', -1, 64))
	if d.Length == "" {
		d.Length = words.Typed(4*MMPerInch, m.Settings.Units == Inches)
	}
	if d.Motif == "" && len(m.Past) > 0 {
		d.Motif = m.Motif.ID
	}
	return m
}

// sewnControl does what a control of the notes asks for.
func (m Model) sewnControl(c Control) (Model, []Effect) {
	d := &m.Back.Sewn.Draft
	switch c.Name {
	case "sewn-day":
		d.Day = c.Value
	case "sewn-motif":
		d.Motif = c.Value
	case "sewn-stitches":
		d.Stitches = c.Value
	case "sewn-length":
		d.Length = c.Value
	case "sewn-spm":
		d.SPM = c.Value
	case "sewn-note":
		d.Note = c.Value
	case "sewn-no-photo":
		d.Photo = ""
	case "sewn-keep":
		return m.keepSewn()
	case "sewn-delete":
		return m.deleteSewn(c.Item)
	case "use-hand", "use-needle":
		return m.useFactor(c.Name == "use-needle")
	}
	return m, nil
}

// keepSewn keeps what stands in the fields.
func (m Model) keepSewn() (Model, []Effect) {
	s, err := m.drafted()
	if err != nil {
		m.Back.Sewn.Trouble = err.Error()
		return m, nil
	}
	doc, err := weeks.EncodeSewn(s)
	if err != nil {
		m.Back.Sewn.Trouble = "This cannot be kept: " + err.Error() + "."
		return m, nil
	}
	sw := &m.Back.Sewn
	sw.Pieces = sortedSewn(append([]weeks.Sewn{s}, sw.Pieces...))
	sw.Trouble = ""
	sw.Draft.Stitches, sw.Draft.Note, sw.Draft.Photo = "", "", ""
	m.Back.past = append(m.Back.past, backChange{kept: &s})
	m.Notice = Notice{Text: "Noted.", Action: "undo"}
	return m, []Effect{Keep{Thing{SewnThing, s.ID, doc}}}
}

// drafted reads the fields. An error is a sentence that says what to write.
func (m Model) drafted() (weeks.Sewn, error) {
	d := m.Back.Sewn.Draft
	s := weeks.Sewn{Schema: weeks.SewnSchema, ID: fmt.Sprintf("%013.0f", m.NowS()*10000), Day: d.Day, Note: strings.TrimSpace(d.Note), Photo: d.Photo}
	if r := []rune(s.Note); len(r) > weeks.MostNote {
		s.Note = string(r[:weeks.MostNote])
	}
	var err error
	if s.Stitches, err = strconv.Atoi(strings.TrimSpace(d.Stitches)); err != nil || s.Stitches < 5 || s.Stitches > weeks.MostStitches {
		return s, fmt.Errorf("Write how many stitches you counted, 5 or more: the more, the surer.")
	}
	if s.LengthMM, err = words.ParseLength(d.Length, m.Settings.Units == Inches); err != nil {
		return s, fmt.Errorf("Over what length? %v.", err)
	}
	if s.LengthMM < 5 || s.LengthMM > weeks.MostLengthMM {
		return s, fmt.Errorf("Write over what length you counted them, such as 4 in.")
	}
	if s.SPM, err = strconv.ParseFloat(strings.TrimSpace(d.SPM), 64); err != nil || !(s.SPM >= MinSPM && s.SPM <= MaxSPM) {
		return s, fmt.Errorf("Write the needle speed in stitches a minute, %.0f to %.0f.", MinSPM, MaxSPM)
	}
	s.RehearsedMM, s.RehearsedSPM = m.Settings.StitchMM, m.Settings.SPM
	for _, k := range m.all {
		if k.Motif == d.Motif {
			s.Motif, s.Name = d.Motif, k.Name
			break
		}
	}
	if s.Motif != "" {
		if mm, spm, n := weeks.Rehearsed(m.all, s.Motif); n > 0 {
			s.RehearsedMM, s.RehearsedSPM, s.Traces = mm, spm, n
		}
	}
	if err := s.Validate(); err != nil {
		return s, fmt.Errorf("This cannot be kept: %v.", err)
	}
	return s, nil
}

// deleteSewn takes a note off the shelf.
func (m Model) deleteSewn(id string) (Model, []Effect) {
	m, s := m.withoutSewn(id)
	if s == nil {
		return m, nil
	}
	m.Back.past = append(m.Back.past, backChange{deleted: s})
	m.Notice = Notice{Text: "The note was deleted.", Action: "undo"}
	return m, []Effect{Discard{SewnThing, id}}
}

func (m Model) withoutSewn(id string) (Model, *weeks.Sewn) {
	var rest []weeks.Sewn
	var found *weeks.Sewn
	for _, s := range m.Back.Sewn.Pieces {
		if s.ID == id {
			found = &s
			continue
		}
		rest = append(rest, s)
	}
	m.Back.Sewn.Pieces = rest
	return m, found
}

func sortedSewn(pieces []weeks.Sewn) []weeks.Sewn {
	out := slices.Clone(pieces)
	slices.SortStableFunc(out, func(a, b weeks.Sewn) int {
		return cmp.Or(strings.Compare(b.Day, a.Day), strings.Compare(b.ID, a.ID))
	})
	return out
}

// sewnKept takes a kept note at the beginning of the visit.
func (m Model) sewnKept(t Thing) Model {
	s, err := weeks.DecodeSewn(t.Doc)
	if err != nil {
		m.Back.Sewn.Damaged++
		return m
	}
	if !slices.ContainsFunc(m.Back.Sewn.Pieces, func(p weeks.Sewn) bool { return p.ID == s.ID }) {
		m.Back.Sewn.Pieces = sortedSewn(append(m.Back.Sewn.Pieces, s))
	}
	return m
}

// backPhoto takes the photo that was chosen for a note.
func (m Model) backPhoto(p Photo) Model {
	m.Back.Sewn.Draft.Photo = p.ID
	return m
}
