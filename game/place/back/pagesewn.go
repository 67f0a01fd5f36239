package back

import (
	"fmt"
	"slices"

	"unthreaded/game/place/back/weeks"
	"unthreaded/game/words"
)

// SewnPlace is what is noted of pieces sewn at the machine.
type SewnPlace struct {
	Day      string   `json:"day"`
	Motif    string   `json:"motif"`
	Motifs   []Option `json:"motifs"`
	Stitches string   `json:"stitches"`
	Length   string   `json:"length"`
	LengthIn string   `json:"lengthIn"`
	SPM      string   `json:"spm"`
	Note     string   `json:"note"`
	Photo    string   `json:"photo"`
	HasPhoto bool     `json:"hasPhoto"`

	// Title and Keep tell whether a new piece is noted or one is changed.
	Title    string `json:"title"`
	Keep     string `json:"keep"`
	Changing bool   `json:"changing"`
	// Trouble is what a field lacks, Bad says "true" of it; Ask tells that it may be right
	// all the same.
	Trouble PerField `json:"trouble"`
	Bad     PerField `json:"bad"`
	Ask     bool     `json:"ask"`

	Pieces   []PieceRow `json:"pieces"`
	NoPieces bool       `json:"noPieces"`
	// Told tells that the pieces say something, Next what may follow; Sure is how that is
	// known.
	Told      bool   `json:"told"`
	Next      string `json:"next"`
	HasNext   bool   `json:"hasNext"`
	Sure      []Row  `json:"sure"`
	Advised   bool   `json:"advised"`
	Needle    string `json:"needle"`
	UseNeedle string `json:"useNeedle"`
	CanNeedle bool   `json:"canNeedle"`
	HasHand   bool   `json:"hasHand"`
	Hand      string `json:"hand"`
	UseHand   string `json:"useHand"`
	CanHand   bool   `json:"canHand"`
}

// PerField is something said of the fields of the form, Keep of none of them.
type PerField struct {
	Day      string `json:"day"`
	Stitches string `json:"stitches"`
	Length   string `json:"length"`
	SPM      string `json:"spm"`
	Keep     string `json:"keep"`
}

// atField returns text said of the field of a name, and nothing of the others.
func atField(field, text string) (f PerField) {
	switch field {
	case "day":
		f.Day = text
	case "stitches":
		f.Stitches = text
	case "length":
		f.Length = text
	case "spm":
		f.SPM = text
	default:
		f.Keep = text
	}
	return f
}

// PieceRow is one piece that was sewn.
type PieceRow struct {
	ID       string `json:"id"`
	Day      string `json:"day"`
	Text     string `json:"text"`
	Note     string `json:"note"`
	HasNote  bool   `json:"hasNote"`
	Photo    string `json:"photo"`
	HasPhoto bool   `json:"hasPhoto"`
	Changing bool   `json:"changing"`
	// Focus is the name under which the keyboard is led to it.
	Focus string `json:"focus"`
}

// onSewn fills in what the machine said.
func onSewn(p *pageOf, m Room) {
	r, s := &p.in.Machine, m.Sewn
	inches := m.Inches()
	onSewnForm(r, m, inches)
	for _, k := range s.Pieces {
		row := pieceRow(k, m.Weeks.Zone(), inches)
		row.Changing = k.ID == s.Draft.ID
		r.Pieces = append(r.Pieces, row)
	}
	r.NoPieces = len(r.Pieces) == 0
	p.Sentence = "Sew a practice sandwich, count its stitches, and note here what the machine said."
	if !r.NoPieces {
		p.Sentence = "Nothing can be told from these pieces: their counts are beyond what machines sew."
	}
	p.Cloth = "What you sewed against what you rehearsed. The list beside it holds the same."
	proposed(p, m, inches)
}

// onSewnForm fills in the fields and what is wrong with them.
func onSewnForm(r *SewnPlace, m Room, inches bool) {
	d, f := m.Sewn.Draft, m.Weeks.Found()
	r.Day, r.Motif, r.Stitches, r.Length, r.SPM, r.Note, r.Photo = d.Day, d.Motif, d.Stitches, d.Length, d.SPM, d.Note, d.Photo
	r.HasPhoto = d.Photo != ""
	r.LengthIn = "mm"
	if inches {
		r.LengthIn = "inches"
	}
	r.Motifs = []Option{{ID: "", Name: "nothing in particular"}}
	for _, o := range f.Motifs {
		r.Motifs = append(r.Motifs, Option{ID: o.Value, Name: motifName(o.Value, f.Names)})
	}
	if !slices.ContainsFunc(r.Motifs, func(o Option) bool { return o.ID == d.Motif }) {
		r.Motifs = append(r.Motifs, Option{ID: d.Motif, Name: motifName(d.Motif, f.Names)})
	}
	r.Title, r.Keep = "A piece you sewed", "Keep this note"
	if r.Changing = d.ID != ""; r.Changing {
		r.Title, r.Keep = "Change this piece", "Keep the change"
	}
	if t := m.Sewn.Trouble; t.Text != "" {
		r.Ask, r.Trouble, r.Bad = t.Ask, atField(t.At, t.Text), atField(t.At, "true")
	}
}

func pieceRow(k weeks.Sewn, z weeks.Zone, inches bool) PieceRow {
	length := k.Typed
	if length == "" {
		length = words.Length(k.LengthMM, inches)
	}
	text := fmt.Sprintf("%d stitches in %s: %s, at %.0f a minute", k.Stitches, length, words.StitchWithCount(k.StitchMM(), inches), k.SPM)
	of := "planned"
	if k.Traces > 0 {
		of = fmt.Sprintf("rehearsed in %s", counted(k.Traces, "trace"))
	}
	text += fmt.Sprintf("; %s: %s at %.0f", of, words.StitchWithCount(k.RehearsedMM, inches), k.RehearsedSPM)
	if k.Name != "" {
		text = k.Name + ": " + text
	}
	text += "."
	if !k.Believed() {
		text += fmt.Sprintf(" Left out of what is said above: machines sew about %.0f to %.0f to the inch.", weeks.FewestPerInch, weeks.MostPerInch)
	}
	return PieceRow{ID: k.ID, Focus: string(pieceFocus(k.ID)), Day: k.When(z), Text: text, Note: k.Note, HasNote: k.Note != "", Photo: k.Photo, HasPhoto: k.Photo != ""}
}

// stitchWords gives a stitch length in mm, in inches with the count that quilters use
// before it.
func stitchWords(mm float64, inches bool) string {
	if inches {
		return words.Stitch(mm, true) + " (" + words.Stitch(mm, false) + ")"
	}
	return words.Stitch(mm, false)
}
