package back

import (
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
	r, s, b := &p.in.Machine, m.Sewn, m.Book()
	onSewnForm(r, m, b)
	for _, k := range s.Pieces {
		row := pieceRow(k, m.Weeks.Zone(), b)
		row.Changing = k.ID == s.Draft.ID
		r.Pieces = append(r.Pieces, row)
	}
	r.NoPieces = len(r.Pieces) == 0
	p.Sentence = b.Say("back.sewn.begin")
	if !r.NoPieces {
		p.Sentence = b.Say("back.sewn.beyond")
	}
	p.Cloth = b.Say("back.cloth.sewn")
	proposed(p, m, b)
}

// onSewnForm fills in the fields and what is wrong with them.
func onSewnForm(r *SewnPlace, m Room, b words.Book) {
	d, f := m.Sewn.Draft, m.Weeks.Found()
	r.Day, r.Motif, r.Stitches, r.Length, r.SPM, r.Note, r.Photo = d.Day, d.Motif, d.Stitches, d.Length, d.SPM, d.Note, d.Photo
	r.HasPhoto = d.Photo != ""
	r.LengthIn = b.Say("draw.unit", b.Inches)
	r.Motifs = []Option{{ID: "", Name: b.Say("back.sewn.nothing")}}
	for _, o := range f.Motifs {
		r.Motifs = append(r.Motifs, Option{ID: o.Value, Name: motifName(o.Value, f.Names, b)})
	}
	if !slices.ContainsFunc(r.Motifs, func(o Option) bool { return o.ID == d.Motif }) {
		r.Motifs = append(r.Motifs, Option{ID: d.Motif, Name: motifName(d.Motif, f.Names, b)})
	}
	r.Changing = d.ID != ""
	r.Title, r.Keep = b.Say("back.sewn.title", r.Changing), b.Say("back.sewn.keep", r.Changing)
	if t := m.Sewn.Trouble; !t.None() {
		r.Ask, r.Trouble, r.Bad = t.Ask, atField(t.At, b.Write(t.Said)), atField(t.At, "true")
	}
}

func pieceRow(k weeks.Sewn, z weeks.Zone, b words.Book) PieceRow {
	length := any(words.LengthMM(k.LengthMM))
	if k.Typed != "" {
		length = k.Typed
	}
	sewn := words.Of("back.sewn.piece", k.Stitches, length, words.StitchCountMM(k.StitchMM()), words.Decimal{Value: k.SPM})
	against := words.Of("back.sewn.against", k.Traces, words.StitchCountMM(k.RehearsedMM), words.Decimal{Value: k.RehearsedSPM})
	text := b.Say("back.sewn.row", k.Name != "", k.Name, sewn, against)
	if !k.Believed() {
		text += " " + b.Say("back.sewn.not-believed", words.Decimal{Value: weeks.FewestPerInch}, words.Decimal{Value: weeks.MostPerInch})
	}
	return PieceRow{ID: k.ID, Focus: string(pieceFocus(k.ID)), Day: b.Write(when(k, z)), Text: text, Note: k.Note, HasNote: k.Note != "", Photo: k.Photo, HasPhoto: k.Photo != ""}
}

// when tells the day of sewing, and the time at which it was noted, since there may be
// several of a day; of another day than that of sewing with its date.
func when(s weeks.Sewn, z weeks.Zone) words.Msg {
	day, noted, as := s.Days(z)
	if day.IsZero() {
		return words.Of("back.bare", s.Day)
	}
	return words.Of("back.sewn.when", words.Date(day), string(as), noted.Format("15:04"), words.Date(noted))
}
