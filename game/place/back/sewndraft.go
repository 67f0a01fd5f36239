package back

import (
	"cmp"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"unthreaded/game/place/back/weeks"
	"unthreaded/game/words"
	"unthreaded/path/machine"
)

// SewnDraft is what stands in the fields, as typed.
type SewnDraft struct {
	// ID is that of the note that is changed, empty for a new one.
	ID                                      string
	Day, Motif, Stitches, Length, SPM, Note string
	// Photo is the ID of the photo that was chosen.
	Photo string
}

// SewnTrouble says what is wrong with a draft; At names the field, empty for none of
// them. Ask tells that it may be right all the same.
type SewnTrouble struct {
	At, Text string
	Ask      bool
}

// draftOf returns a note as it stands in the fields.
func draftOf(s weeks.Sewn, inches bool) SewnDraft {
	return SewnDraft{
		ID: s.ID, Day: s.Day, Motif: s.Motif, Stitches: strconv.Itoa(s.Stitches), Note: s.Note, Photo: s.Photo,
		Length: cmp.Or(s.Typed, withUnit(words.Typed(s.LengthMM, inches), inches)),
		SPM:    strconv.FormatFloat(s.SPM, 'f', -1, 64),
	}
}

// withUnit returns a length as typed, with its unit where that was left out, so that it
// means the same in other units.
func withUnit(text string, inches bool) string {
	text = strings.TrimSpace(text)
	switch {
	case text == "" || !strings.ContainsAny(text[len(text)-1:], "0123456789/.¼½¾⅛⅜⅝⅞"):
		return text
	case inches:
		return text + " in"
	}
	return text + " mm"
}

// sewingReady fills the fields that are empty with what is likely.
func (r Room) sewingReady() Room {
	d := &r.Sewn.Draft
	d.Day = cmp.Or(d.Day, r.Weeks.Zone().Date(r.nowS()).Format("2006-01-02"))
	d.SPM = cmp.Or(d.SPM, strconv.FormatFloat(r.Settings.SPM, 'f', -1, 64))
	if d.Length == "" {
		d.Length = "100 mm"
		if r.Inches() {
			d.Length = "4 in"
		}
	}
	if d.Motif == "" && r.tracedHere() {
		d.Motif = r.OnCloth
	}
	return r
}

// rechecked drops a trouble that is mended; it never finds another, not to interrupt her
// while she types.
func (r Room) rechecked() Room {
	sw := &r.Sewn
	if sw.Trouble.Text == "" {
		return r
	}
	_, now := r.drafted()
	if now.At != sw.Trouble.At || now.Ask != sw.Trouble.Ask {
		now = SewnTrouble{}
	}
	sw.Trouble = now
	return r
}

// drafted reads the fields. Trouble is a sentence that says what to write, and where.
func (r Room) drafted() (s weeks.Sewn, trouble SewnTrouble) {
	d := r.Sewn.Draft
	s = weeks.Sewn{Schema: weeks.SewnSchema, ID: cmp.Or(d.ID, weeks.SewnID(r.nowS())), Day: d.Day, Note: strings.TrimSpace(d.Note), Photo: d.Photo}
	if r := []rune(s.Note); len(r) > weeks.MostNote {
		s.Note = string(r[:weeks.MostNote])
	}
	if d.Day == "" {
		return s, SewnTrouble{At: "day", Text: "Choose the day on which you sewed it."}
	}
	s, trouble = r.counted(s)
	if trouble.Text != "" && !trouble.Ask {
		return s, trouble
	}
	var err error
	if s.SPM, err = strconv.ParseFloat(strings.TrimSpace(d.SPM), 64); err != nil || machine.NeedleSpeed.Check(s.SPM) != nil {
		return s, SewnTrouble{At: "spm", Text: fmt.Sprintf("Write the needle speed in stitches a minute, %.0f to %.0f.", machine.NeedleSpeed.Min, machine.NeedleSpeed.Max)}
	}
	s = r.sewnBeside(s)
	if err := s.Validate(); err != nil {
		return s, SewnTrouble{Text: fmt.Sprintf("This cannot be kept: %v.", err)}
	}
	return s, trouble
}

// counted reads the stitches that were counted and the length over which.
func (r Room) counted(s weeks.Sewn) (weeks.Sewn, SewnTrouble) {
	d, inches := r.Sewn.Draft, r.Inches()
	var err error
	if s.Stitches, err = strconv.Atoi(strings.TrimSpace(d.Stitches)); errors.Is(err, strconv.ErrRange) || s.Stitches > weeks.MostStitches {
		return s, SewnTrouble{At: "stitches", Text: "So many stitches cannot have been counted. Is a figure mistyped?"}
	}
	if err != nil || s.Stitches < 5 {
		return s, SewnTrouble{At: "stitches", Text: "Write how many stitches you counted, 5 or more: the more, the surer."}
	}
	if s.LengthMM, err = words.ParseLength(d.Length, inches); err != nil {
		return s, SewnTrouble{At: "length", Text: fmt.Sprintf("Over what length? %v.", err)}
	}
	if s.LengthMM < 5 || s.LengthMM > weeks.MostLengthMM {
		return s, SewnTrouble{At: "length", Text: "Write over what length you counted them, such as 4 in."}
	}
	if s.Typed = withUnit(d.Length, inches); len([]rune(s.Typed)) > weeks.MostTyped {
		s.Typed = ""
	}
	if !s.Believed() {
		return s, SewnTrouble{At: "stitches", Ask: true, Text: fmt.Sprintf(
			"%d stitches in %s would be %s to the inch; machines sew about %.0f to %.0f. Is a figure mistyped?",
			s.Stitches, withUnit(d.Length, inches), perInchText(s.PerInch()), weeks.FewestPerInch, weeks.MostPerInch)}
	}
	return s, SewnTrouble{}
}

// perInchText writes a number of stitches to an inch, the small ones to a tenth.
func perInchText(n float64) string {
	if n < 10 {
		return strconv.FormatFloat(n, 'f', 1, 64)
	}
	return strconv.FormatFloat(n, 'f', 0, 64)
}

// sewnBeside adds what was sewn and what had been rehearsed of it. A changed note keeps
// what it was compared with, unless it is of another motif now.
func (r Room) sewnBeside(s weeks.Sewn) weeks.Sewn {
	sw := r.Sewn
	if i := sw.at(s.ID); i >= 0 && sw.Pieces[i].Motif == sw.Draft.Motif {
		old := sw.Pieces[i]
		s.Motif, s.Name = old.Motif, old.Name
		s.RehearsedMM, s.RehearsedSPM, s.Traces = old.RehearsedMM, old.RehearsedSPM, old.Traces
		return s
	}
	s.RehearsedMM, s.RehearsedSPM = r.Settings.StitchMM, r.Settings.SPM
	for _, k := range r.Records {
		if k.Motif == sw.Draft.Motif {
			s.Motif, s.Name = k.Motif, k.Name
			break
		}
	}
	if s.Motif != "" {
		if mm, spm, n := weeks.Rehearsed(r.Records, s.Motif); n > 0 {
			s.RehearsedMM, s.RehearsedSPM, s.Traces = mm, spm, n
		}
	}
	return s
}
