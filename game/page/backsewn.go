package page

import (
	"fmt"
	"time"

	"unthreaded/game"
	"unthreaded/game/weeks"
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

	Trouble    string `json:"trouble"`
	HasTrouble bool   `json:"hasTrouble"`

	Pieces    []PieceRow `json:"pieces"`
	NoPieces  bool       `json:"noPieces"`
	Sure      string     `json:"sure"`
	Proposed  bool       `json:"proposed"`
	Needle    string     `json:"needle"`
	UseNeedle string     `json:"useNeedle"`
	CanNeedle bool       `json:"canNeedle"`
	Hand      string     `json:"hand"`
	UseHand   string     `json:"useHand"`
	CanHand   bool       `json:"canHand"`
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
}

// onSewn fills in what the machine said.
func onSewn(p *Page, m game.Model) {
	r, s := &p.Back.Machine, m.Back.Sewn
	inches := m.Settings.Units == game.Inches
	d := s.Draft
	r.Day, r.Motif, r.Stitches, r.Length, r.SPM, r.Note, r.Photo = d.Day, d.Motif, d.Stitches, d.Length, d.SPM, d.Note, d.Photo
	r.HasPhoto = d.Photo != ""
	r.LengthIn = "mm"
	if inches {
		r.LengthIn = "inches"
	}
	r.Motifs = []Option{{"", "nothing in particular"}}
	f := m.Back.Book.Found()
	for _, o := range f.Motifs {
		r.Motifs = append(r.Motifs, Option{o.Value, motifName(o.Value, f.Names)})
	}
	r.Trouble, r.HasTrouble = s.Trouble, s.Trouble != ""
	for _, k := range s.Pieces {
		r.Pieces = append(r.Pieces, pieceRow(k, inches))
	}
	r.NoPieces = len(r.Pieces) == 0
	p.Sentence = "Sew a practice sandwich, count its stitches, and note here what the machine said."
	p.ClothLabel = "What you sewed against what you rehearsed. The list beside it holds the same."
	proposed(p, m, inches)
}

func pieceRow(k weeks.Sewn, inches bool) PieceRow {
	day := k.Day
	if t, err := time.Parse("2006-01-02", k.Day); err == nil {
		day = t.Format("2 January 2006")
	}
	text := fmt.Sprintf("%d stitches in %s: %s, at %.0f a minute", k.Stitches, words.Length(k.LengthMM, inches), stitchWords(k.StitchMM(), inches), k.SPM)
	of := "planned"
	if k.Traces > 0 {
		of = fmt.Sprintf("rehearsed in %s", counted(k.Traces, "trace"))
	}
	text += fmt.Sprintf("; %s: %s at %.0f", of, stitchWords(k.RehearsedMM, inches), k.RehearsedSPM)
	if k.Name != "" {
		text = k.Name + ": " + text
	}
	return PieceRow{ID: k.ID, Day: day, Text: text + ".", Note: k.Note, HasNote: k.Note != "", Photo: k.Photo, HasPhoto: k.Photo != ""}
}

// proposed says what follows from the pieces for the speeds.
func proposed(p *Page, m game.Model, inches bool) {
	r := &p.Back.Machine
	o, ok := m.Proposed()
	r.Proposed = ok
	if !ok {
		return
	}
	f := o.Factor
	how := fmt.Sprintf("faster: %.2f times the speed", f.Ratio)
	if f.Ratio < 1 {
		how = fmt.Sprintf("slower: %.2f times the speed", f.Ratio)
	}
	p.Sentence = "At the machine your hands go " + how + " you rehearsed."
	if !f.Clear() {
		p.Sentence = "At the machine your hands go as fast as you rehearsed, as far as these pieces can tell."
	}
	r.Sure = fmt.Sprintf("%.2f to %.2f times in 95 of 100 cases, from %s. A count may be one stitch off either way.", f.Low, f.High, counted(f.Pieces, "piece"))
	switch {
	case f.Pieces < 3:
		r.Sure += " How much you differ from piece to piece is not known before three; note some more before you trust it."
	case f.Spread > 0.02:
		r.Sure += fmt.Sprintf(" From piece to piece your hands differ by about %.0f %%.", 100*f.Spread)
	}
	plan := stitchWords(m.Settings.StitchMM, inches)
	r.Needle = fmt.Sprintf("Leave your hands as they are, and set the machine to about %.0f stitches a minute: that makes %s.", o.NeedleSPM, plan)
	r.UseNeedle = fmt.Sprintf("Use this needle speed: %.0f", o.NeedleSPM)
	r.CanNeedle = game.CanUse(o.NeedleSPM) && o.NeedleSPM != m.Settings.SPM
	r.Hand = fmt.Sprintf("Or leave the machine at %.0f and rehearse at %s a second, so that your hands end up right when they do the same again.", o.MachineSPM, words.Length(o.HandMMS, inches))
	r.UseHand = fmt.Sprintf("Use this hand speed: %s a second", words.Length(o.HandMMS, inches))
	r.CanHand = game.CanUse(o.RehearseSPM) && o.RehearseSPM != m.Settings.SPM
}
