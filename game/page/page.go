// Package page says what the page round the cloth shows: every text, value and
// state of its controls, made from the model alone. The page's script puts them
// in place by name and decides nothing.
package page

import (
	"slices"

	"unthreaded/game"
	"unthreaded/game/control"
	"unthreaded/game/guard"
	"unthreaded/game/place"
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
	Fabric  string     `json:"fabric"`
	Tracing bool       `json:"tracing"`

	Sentence string   `json:"sentence"`
	Next     string   `json:"next"`
	HasTrace bool     `json:"hasTrace"`
	Figures  []Figure `json:"figures"`

	Notice     string `json:"notice"`
	HasNotice  bool   `json:"hasNotice"`
	CanUndo    bool   `json:"canUndo"`
	CanRedo    bool   `json:"canRedo"`
	CanSave    bool   `json:"canSave"`
	ClothLabel string `json:"clothLabel"`

	Replay Replay      `json:"replay"`
	Steps  place.Steps `json:"steps"`
	Jobs   Jobs        `json:"jobs"`

	// Focus is where the keyboard is led to, each time that its count grows.
	Focus Focus `json:"focus"`

	Place game.Place `json:"place"`
	// At tells which place is on the screen, Plays whether it has something to play.
	At    map[game.Place]bool `json:"at"`
	Plays bool                `json:"plays"`
	// Keys are those that the place takes while the cloth has the keyboard, Wheel tells
	// that it takes the wheel over the cloth too.
	Keys  []string `json:"keys"`
	Wheel bool     `json:"wheel"`

	Backup Backup `json:"backup"`
	Work   Work   `json:"work"`

	// Room is what the place on the screen shows; the page finds it under that
	// place's name.
	Room any `json:"room,omitempty"`
}

// Of returns the page of a model.
func Of(m game.Model) Page { return of(m, m.Front()) }

// of is Of with the room of the place in front.
func of(m game.Model, front place.Room) Page {
	s := m.Settings
	p := Page{
		Theme: s.Theme, Scheme: string(m.Scheme()), Fabric: string(s.Fabric), Hand: string(s.Hand), Units: string(s.Units),
		Tracing: m.Tracing(), Notice: m.Notice.In(m.Book()), HasNotice: !m.Notice.None(),
		CanUndo: m.Notice.Action == "undo", CanRedo: m.Notice.Action == "redo", CanSave: m.Notice.Action == "download",
		Place: m.Place,
		Focus: Focus{m.Focus.To, m.Focus.N},
		At:    map[game.Place]bool{m.Place: true},
		Lang:  m.Book().Lang, Langs: langs(m.Book()), LangSet: s.Lang,
	}
	jobs(&p, m)
	p.Work = workOf(m)
	if guard.Run("page", func() { p.inPlace(front) }) != nil {
		p.Notice, p.HasNotice = m.Book().Say("page.fault-page"), true // the other places can be gone to
	}
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

// inPlace fills in what the place on the screen shows.
func (p *Page) inPlace(r place.Room) {
	in := r.Page()
	p.Sentence, p.ClothLabel, p.Plays, p.Room = in.Sentence, in.Cloth, in.Plays, in.In
	p.HasTrace, p.Figures, p.Next = in.HasTrace, in.Figures, in.Next
	p.Steps = in.Steps
	p.Steps.Undo, p.Steps.Redo = in.Steps.Undo || p.CanUndo, in.Steps.Redo || p.CanRedo
	if in.Replay != nil {
		p.Replay = *in.Replay
	}
	p.Keys = r.Keys()
	p.Wheel = slices.ContainsFunc(r.Controls(), func(d control.Decl) bool { return d.Kind == control.Wheel })
}

// Focus is the name of a place on the page and how often the keyboard was led somewhere.
type Focus struct {
	To string `json:"to"`
	N  int    `json:"n"`
}
