package weeks

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"time"

	"unthreaded/game/keep"
)

// SewnSchema is the version of the form in which a piece that was sewn is kept.
const SewnSchema = 1

// Sewn is what she noted of a piece sewn at the machine: a practice sandwich.
type Sewn struct {
	Schema int    `json:"schema"`
	ID     string `json:"id"`
	// Day is the date of sewing, as 2006-01-02.
	Day string `json:"day"`
	// Motif is what was sewn, empty for none in particular; Name is what a person calls
	// it.
	Motif string `json:"motif,omitempty"`
	Name  string `json:"name,omitempty"`
	// Stitches were counted over a LengthMM in mm, at SPM stitches a minute.
	Stitches int     `json:"stitches"`
	LengthMM float64 `json:"length_mm"`
	SPM      float64 `json:"spm"`
	// Typed is the length as a person wrote it, with its unit; empty where that is not
	// known.
	Typed string `json:"typed,omitempty"`
	// RehearsedMM and RehearsedSPM are the mean stitch length in mm and the needle speed
	// of the newest Traces of that motif when it was noted; with 0 traces those planned.
	RehearsedMM  float64 `json:"rehearsed_mm"`
	RehearsedSPM float64 `json:"rehearsed_spm"`
	Traces       int     `json:"traces"`
	Note         string  `json:"note,omitempty"`
	// Photo is the ID of a kept photo, empty for none.
	Photo string `json:"photo,omitempty"`
}

// The bounds of what can be noted.
const (
	MostStitches = 10000
	MostLengthMM = 10000.0
	MostNote     = 500
	MostTyped    = 40
)

// The stitches to an inch between which a count is believed: what domestic machines and
// free hands sew lies well within (common practice). Beyond it a figure is mistyped, or
// tells nothing about the speed of the hands.
const (
	FewestPerInch = 3.0
	MostPerInch   = 30.0
	mmPerInch     = 25.4
)

// Day is how dates are written.
const dayForm = "2006-01-02"

// StitchMM returns the stitch length that was sewn, in mm.
func (s Sewn) StitchMM() float64 { return s.LengthMM / float64(s.Stitches) }

// PerInch returns how many stitches there were to an inch.
func (s Sewn) PerInch() float64 { return mmPerInch / s.StitchMM() }

// Believed tells that the stitches are such as machines sew.
func (s Sewn) Believed() bool {
	const rounding = 1e-9 // of lengths that are no whole inches in mm
	n := s.PerInch()
	return n >= FewestPerInch*(1-rounding) && n <= MostPerInch*(1+rounding)
}

// SewnID returns the ID of a note made at a time in s since 1970: that time to a tenth of a
// ms.
func SewnID(at float64) string { return fmt.Sprintf("%013.0f", at*1e4) }

// NotedS returns the time in s since 1970 at which it was noted, false where its ID, which
// may come from elsewhere, does not tell.
func (s Sewn) NotedS() (at float64, ok bool) {
	v, err := strconv.ParseUint(s.ID, 10, 50)
	return float64(v) / 1e4, err == nil && v >= 1e12
}

// NotedOn tells on which day a note was written.
type NotedOn string

// NotedNever is a time that the ID does not tell, NotedThen the day of sewing, NotedLater
// another.
const (
	NotedNever NotedOn = "never"
	NotedThen  NotedOn = "then"
	NotedLater NotedOn = "later"
)

// Days returns the day of sewing, zero where it is no date, and when it was noted, where
// the person lives.
func (s Sewn) Days(z Zone) (day, noted time.Time, on NotedOn) {
	day, _ = time.Parse(dayForm, s.Day)
	at, ok := s.NotedS()
	switch noted = z.Date(at); {
	case !ok:
		return day, noted, NotedNever
	case noted.Format(dayForm) == s.Day:
		return day, noted, NotedThen
	}
	return day, noted, NotedLater
}

// SewnAt is a piece at noon of the day on which it was sewn, in s since 1970.
type SewnAt struct {
	At    float64
	Piece Sewn
}

// SewnOf returns those of the pieces that belong to what was found: of its motif, or of any
// where all are looked at, and such as machines sew.
func SewnOf(f Found, pieces []Sewn) []Sewn {
	if len(f.Marks) == 0 {
		return nil
	}
	var out []Sewn
	for _, s := range pieces {
		if s.Believed() && (f.Motif == "" || s.Motif == f.Motif) {
			out = append(out, s)
		}
	}
	return out
}

// noon returns the noon of the day of sewing in s since 1970; not ok where it is no date.
func (s Sewn) noon(z Zone) (at float64, ok bool) {
	day, err := time.Parse(dayForm, s.Day)
	at = float64(day.Unix()) + 12*3600
	return at - z.ahead(at), err == nil
}

// HandMMS returns the speed of the hands at the machine in mm/s: length x spm / 60.
func (s Sewn) HandMMS() float64 { return s.StitchMM() * s.SPM / 60 }

// RehearsedMMS returns the speed of the hand in rehearsal in mm/s.
func (s Sewn) RehearsedMMS() float64 { return s.RehearsedMM * s.RehearsedSPM / 60 }

// Validate names the first thing that is wrong.
func (s Sewn) Validate() error {
	positive := func(v, most float64) bool { return v > 0 && v <= most }
	_, err := time.Parse(dayForm, s.Day)
	switch {
	case s.Schema > SewnSchema:
		return fmt.Errorf("it was written by a newer version of this program (form %d, this one reads up to %d)", s.Schema, SewnSchema)
	case s.Schema < 1:
		return fmt.Errorf("it names no form (schema %d)", s.Schema)
	case s.ID == "":
		return fmt.Errorf("it has no id")
	case err != nil:
		return fmt.Errorf("%q is no date", s.Day)
	case s.Stitches < 1 || s.Stitches > MostStitches:
		return fmt.Errorf("%d stitches, there must be 1 to %d", s.Stitches, MostStitches)
	case !positive(s.LengthMM, MostLengthMM):
		return fmt.Errorf("a length of %v mm", s.LengthMM)
	case !positive(s.SPM, 5000) || !positive(s.RehearsedSPM, 5000):
		return fmt.Errorf("needle speeds of %v and %v stitches a minute", s.SPM, s.RehearsedSPM)
	case !positive(s.RehearsedMM, 1000):
		return fmt.Errorf("rehearsed stitches of %v mm", s.RehearsedMM)
	case len(s.Typed) > 4*MostTyped:
		return fmt.Errorf("a length of %d bytes", len(s.Typed))
	case len(s.Note) > 4*MostNote:
		return fmt.Errorf("a note of %d bytes", len(s.Note))
	}
	return nil
}

// EncodeSewn returns it as a document.
func EncodeSewn(s Sewn) ([]byte, error) {
	s.Schema = SewnSchema
	if err := s.Validate(); err != nil {
		return nil, fmt.Errorf("sewn %q: %w", s.ID, err)
	}
	return json.Marshal(s)
}

// DecodeSewn reads a document and checks it whole.
func DecodeSewn(doc []byte) (Sewn, error) {
	var s Sewn
	if err := json.Unmarshal(doc, &s); err != nil {
		return Sewn{}, fmt.Errorf("no note of something sewn: %w", err)
	}
	if err := s.Validate(); err != nil {
		return Sewn{}, fmt.Errorf("sewn %q: %w", s.ID, err)
	}
	return s, nil
}

// Rehearsed returns the mean stitch length in mm and the needle speed of the newest traces
// of a motif, up to five with enough stitches; n tells how many there were.
func Rehearsed(kept []keep.Summary, motif string) (stitchMM, spm float64, n int) {
	var lengths []float64
	for _, s := range kept {
		if n == 5 {
			break
		}
		m, err := s.ReadMeasured()
		if s.Motif != motif || err != nil || m.StitchMM == 0 || (n > 0 && m.SPM != spm) {
			continue
		}
		n++
		spm = m.SPM
		lengths = append(lengths, m.StitchMM)
	}
	if n == 0 {
		return 0, 0, 0
	}
	slices.Sort(lengths)
	return (lengths[(n-1)/2] + lengths[n/2]) / 2, spm, n
}
