// Package page says what the page round the cloth shows: every text, value and
// state of its controls, made from the model alone. The page's script puts them
// in place by name and decides nothing.
package page

import (
	"fmt"
	"math"
	"strconv"

	"unthreaded/game"
	"unthreaded/game/place"
	"unthreaded/game/replay"
	"unthreaded/game/words"
)

// What places and page show alike.
type (
	Figure = place.Figure
	Row    = place.Row
	Option = place.Option
	Replay = place.Replay
)

// Page holds what the page shows, under the names that the page's elements bind
// to.
type Page struct {
	// Lang is the language in which all is said, Langs what can be chosen and LangSet what is.
	Lang    words.Lang `json:"lang"`
	Langs   []Option   `json:"langs"`
	LangSet words.Lang `json:"langSet"`
	Theme   string     `json:"theme"`
	Hand    string     `json:"hand"`
	Units   string     `json:"units"`
	Scheme  string     `json:"scheme"`
	Tracing bool       `json:"tracing"`

	Sentence string   `json:"sentence"`
	Compared string   `json:"compared"`
	HasTrace bool     `json:"hasTrace"`
	Figures  []Figure `json:"figures"`
	More     []Row    `json:"more"`
	HasMore  bool     `json:"hasMore"`
	// Advice is about the worst places, which the cloth shows by number.
	Advice    []AdviceRow `json:"advice"`
	HasAdvice bool        `json:"hasAdvice"`

	Motifs      []Option `json:"motifs"`
	Motif       string   `json:"motif"`
	MotifNote   string   `json:"motifNote"`
	Repeats     []Option `json:"repeats"`
	RepeatCount string   `json:"repeatCount"`
	RepeatUnit  string   `json:"repeatUnit"`
	HasRepeats  bool     `json:"hasRepeats"`
	SizeNote    string   `json:"sizeNote"`

	SPM        string `json:"spm"`
	SPMText    string `json:"spmText"`
	Stitch     string `json:"stitch"`
	StitchText string `json:"stitchText"`
	HandText   string `json:"handText"`

	Past []PastRow `json:"past"`
	// PastOther are those that are not like the trace on the cloth or the next one.
	PastOther []PastRow `json:"pastOther"`
	NoneAlike bool      `json:"noneAlike"`
	Other     string    `json:"other"`
	PastEmpty bool      `json:"pastEmpty"`
	PastTitle string    `json:"pastTitle"`
	PastMore  string    `json:"pastMore"`
	Storage   string    `json:"storage"`

	Notice     string `json:"notice"`
	HasNotice  bool   `json:"hasNotice"`
	CanUndo    bool   `json:"canUndo"`
	CanRedo    bool   `json:"canRedo"`
	CanSave    bool   `json:"canSave"`
	ClothLabel string `json:"clothLabel"`

	Replay Replay `json:"replay"`
	Jobs   Jobs   `json:"jobs"`

	// Focus is where the keyboard is led to, each time that its count grows.
	Focus Focus `json:"focus"`

	Place game.Place `json:"place"`
	// At tells which place is on the screen, Plays whether it has something to play.
	At    At   `json:"at"`
	Plays bool `json:"plays"`

	Quilt    Quilt    `json:"quilt"`
	Rehearse Rehearse `json:"rehearse"`
	Back     Back     `json:"back"`
	Backup   Backup   `json:"backup"`

	// Room is what the place on the screen shows; the page finds it under that
	// place's name.
	Room any `json:"room,omitempty"`
}

// AdviceRow is a word on one place, which lies At mm along the line.
type AdviceRow struct {
	ID   string `json:"id"`
	Text string `json:"text"`
	At   string `json:"at"`
}

// PastRow is one kept trace in the list.
type PastRow struct {
	ID string `json:"id"`
	// Started is in ms since 1970; the page writes it as the person's own date.
	Started  int64  `json:"started"`
	Text     string `json:"text"`
	Open     bool   `json:"open"`
	Over     bool   `json:"over"`
	CanOver  bool   `json:"canOver"`
	OverText string `json:"overText"`
}

// Of returns the page of a model.
func Of(m game.Model) Page {
	s := m.Settings
	inches := s.Units == game.Inches
	p := Page{
		Theme: s.Theme, Scheme: string(m.Theme()), Hand: string(s.Hand), Units: string(s.Units),
		Tracing: m.Tracing(), HasTrace: m.Open != nil,
		Motif: m.Motif.ID, MotifNote: m.Motif.Note, RepeatUnit: words.MotifUnit(m.Motif.ID),
		RepeatCount: repeatCount(m),
		SPM:         number(s.SPM), SPMText: number(math.Round(s.SPM)) + " a minute",
		Stitch: number(s.StitchMM), StitchText: stitchText(s),
		HandText: "Move your hand " + words.Length(m.HandSpeed(), inches) + " a second.",
		SizeNote: sizeNote(m), Notice: m.Notice.In(m.Book()), HasNotice: !m.Notice.None(),
		CanUndo: m.Notice.Action == "undo", CanRedo: m.Notice.Action == "redo", CanSave: m.Notice.Action == "download",
		Replay: replayOf(m),
		Place:  m.Place,
		Focus:  Focus{m.Focus.To, m.Focus.N},
		At:     at(m.Place),
		Plays:  m.Place == game.Rehearse || m.Place == game.RoutePlan,
	}
	p.Lang, p.Langs, p.LangSet = m.Book().Lang, langs(m.Book()), s.Lang
	p.Motifs, p.HasRepeats, p.Repeats = motifs(m), m.Motif.Max > 1, repeats(m)
	p.Sentence, p.Compared = sentence(m), compared(m)
	p.Figures, p.More = figures(m)
	p.Advice = advice(m)
	p.HasMore, p.HasAdvice = len(p.More) > 0, len(p.Advice) > 0
	if m.Place == game.Rehearse {
		past(&p, m)
	}
	jobs(&p, m)
	p.ClothLabel = clothLabel(m)
	inPlace(&p, m)
	return p
}

// langs are the languages to choose from, each under its own name; the first entry leaves
// the choice to the browser.
func langs(b words.Book) []Option {
	out := []Option{{Name: b.Say("page.lang-of-browser")}}
	for _, l := range words.Languages() {
		out = append(out, Option{ID: string(l), Name: l.Name()})
	}
	return out
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func stitchText(s game.Settings) string {
	if s.Units == game.Inches {
		return words.Stitch(s.StitchMM, true) + " (" + words.Stitch(s.StitchMM, false) + ")"
	}
	return words.Stitch(s.StitchMM, false) + " (" + words.Stitch(s.StitchMM, true) + ")"
}

func clothLabel(m game.Model) string {
	length := words.Length(m.Line.Length(), m.Settings.Units == game.Inches)
	if m.Open != nil {
		return fmt.Sprintf("Your trace as stitches along %d %s. The measures are beside it as text.", m.Repeats, words.MotifUnit(m.Motif.ID))
	}
	return fmt.Sprintf("Cloth with a chalk line to trace: %s, %d %s, %s long.", m.Motif.Name, m.Repeats, words.MotifUnit(m.Motif.ID), length)
}

func rates() []Option {
	var out []Option
	for _, v := range replay.Rates {
		out = append(out, Option{ID: number(v), Name: number(v) + "x"})
	}
	return out
}

func replayOf(m game.Model) Replay {
	r := Replay{Play: "Watch it again", Playing: m.Replay.Playing, Rate: number(m.Replay.Rate), Max: "1", Scrub: "0"}
	r.Rates = rates()
	r.Waiting = m.Open == nil
	if m.Open == nil {
		return r
	}
	r.Enabled = len(m.Open.Place) > 0 && m.Live == nil
	if m.Replay.Playing {
		r.Play = "Pause"
	}
	place := m.PlaceNow()
	r.Max = fmt.Sprintf("%.1f", m.Line.Length())
	r.Scrub = fmt.Sprintf("%.1f", place)
	r.Time = words.Clock(m.Replay.T) + " of " + words.Clock(m.Replay.Length)
	inches := m.Settings.Units == game.Inches
	r.Spoken = fmt.Sprintf("%s along the line, %s", words.Length(place, inches), words.Clock(m.Replay.T))
	return r
}
