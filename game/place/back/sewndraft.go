package back

import (
	"cmp"
	"errors"
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
	At   string
	Said words.Msg
	Ask  bool
}

// None tells that nothing is wrong.
func (t SewnTrouble) None() bool { return t.Said.None() }

// draftOf returns a note as it stands in the fields.
func draftOf(s weeks.Sewn, inches bool) SewnDraft {
	return SewnDraft{
		ID: s.ID, Day: s.Day, Motif: s.Motif, Stitches: strconv.Itoa(s.Stitches), Note: s.Note, Photo: s.Photo,
		Length: cmp.Or(s.Typed, typedUnit(words.Typed(s.LengthMM, inches), inches)),
		SPM:    strconv.FormatFloat(s.SPM, 'f', -1, 64),
	}
}

// typedUnit returns a length as typed, with its unit where that was left out, so that it
// means the same in other units.
func typedUnit(text string, inches bool) string {
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
	if sw.Trouble.None() {
		return r
	}
	_, now := r.drafted()
	if now.At != sw.Trouble.At || now.Ask != sw.Trouble.Ask {
		now = SewnTrouble{}
	}
	sw.Trouble = now
	return r
}

// drafted reads the fields. The trouble says what to write, and where.
func (r Room) drafted() (s weeks.Sewn, trouble SewnTrouble) {
	d := r.Sewn.Draft
	s = weeks.Sewn{Schema: weeks.SewnSchema, ID: cmp.Or(d.ID, weeks.SewnID(r.nowS())), Day: d.Day, Note: strings.TrimSpace(d.Note), Photo: d.Photo}
	if r := []rune(s.Note); len(r) > weeks.MostNote {
		s.Note = string(r[:weeks.MostNote])
	}
	if d.Day == "" {
		return s, SewnTrouble{At: "day", Said: words.Of("back.wrong.day")}
	}
	s, trouble = r.counted(s)
	if !trouble.None() && !trouble.Ask {
		return s, trouble
	}
	var err error
	if s.SPM, err = strconv.ParseFloat(strings.TrimSpace(d.SPM), 64); err != nil || machine.NeedleSpeed.Check(s.SPM) != nil {
		return s, SewnTrouble{At: "spm", Said: words.Of("back.wrong.spm", machine.NeedleSpeed.Min, machine.NeedleSpeed.Max)}
	}
	s = r.sewnBeside(s)
	if err := s.Validate(); err != nil {
		return s, SewnTrouble{Said: words.Of("back.wrong.keep")}
	}
	return s, trouble
}

// counted reads the stitches that were counted and the length over which.
func (r Room) counted(s weeks.Sewn) (weeks.Sewn, SewnTrouble) {
	d, inches := r.Sewn.Draft, r.Inches()
	var err error
	if s.Stitches, err = strconv.Atoi(strings.TrimSpace(d.Stitches)); errors.Is(err, strconv.ErrRange) || s.Stitches > weeks.MostStitches {
		return s, SewnTrouble{At: "stitches", Said: words.Of("back.wrong.many")}
	}
	if err != nil || s.Stitches < 5 {
		return s, SewnTrouble{At: "stitches", Said: words.Of("back.wrong.few")}
	}
	if s.LengthMM, err = words.ParseLength(d.Length, inches); err != nil {
		return s, SewnTrouble{At: "length", Said: words.Of("back.wrong.length", words.Why(err))}
	}
	if s.LengthMM < 5 || s.LengthMM > weeks.MostLengthMM {
		return s, SewnTrouble{At: "length", Said: words.Of("back.wrong.length-range")}
	}
	if s.Typed = typedUnit(d.Length, inches); len([]rune(s.Typed)) > weeks.MostTyped {
		s.Typed = ""
	}
	if !s.Believed() {
		return s, SewnTrouble{At: "stitches", Ask: true, Said: words.Of("back.wrong.ask",
			s.Stitches, typedUnit(d.Length, inches), perInch(s.PerInch()), words.Decimal{Value: weeks.FewestPerInch}, words.Decimal{Value: weeks.MostPerInch})}
	}
	return s, SewnTrouble{}
}

// perInch is a number of stitches to an inch, the small ones to a tenth.
func perInch(n float64) words.Decimal {
	if n < 10 {
		return words.Decimal{Value: n, Digits: 1}
	}
	return words.Decimal{Value: n}
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
	for _, k := range r.looked() {
		if k.Motif == sw.Draft.Motif {
			s.Motif, s.Name = k.Motif, k.Name
			break
		}
	}
	if s.Motif != "" {
		if mm, spm, n := weeks.Rehearsed(r.looked(), s.Motif); n > 0 {
			s.RehearsedMM, s.RehearsedSPM, s.Traces = mm, spm, n
		}
	}
	return s
}
