package back

import (
	"slices"
	"strconv"
	"strings"

	"unthreaded/game/place"
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/replay"
	"unthreaded/game/words"
)

// Shown is what the page shows where traces are looked back on.
type Shown struct {
	// Empty tells that nothing is kept yet and this has to be said, Some that there are
	// traces.
	Empty bool `json:"empty"`
	Some  bool `json:"some"`
	// Example tells that what is shown is an example, Own that it is not, CanExample that one
	// is offered.
	Example    bool `json:"example"`
	Own        bool `json:"own"`
	CanExample bool `json:"canExample"`
	// Weeks, Pair, Days and Sewn tell which view is on the cloth.
	Weeks bool `json:"weeks"`
	Pair  bool `json:"pair"`
	Days  bool `json:"days"`
	Sewn  bool `json:"sewn"`
	// News is about older traces that are being measured, or cannot be.
	News    string `json:"news"`
	HasNews bool   `json:"hasNews"`

	Motifs   []Option    `json:"motifs"`
	Motif    string      `json:"motif"`
	Measures []Option    `json:"measures"`
	Measure  string      `json:"measure"`
	Like     string      `json:"like"`
	Filters  []FilterRow `json:"filters"`
	Narrow   bool        `json:"narrow"`

	Figures   []Figure `json:"figures"`
	Curve     string   `json:"curve"`
	Moves     []Row    `json:"moves"`
	HasMoves  bool     `json:"hasMoves"`
	MovesNote string   `json:"movesNote"`
	Method    []Row    `json:"method"`
	Guided    string   `json:"guided"`
	HasGuided bool     `json:"hasGuided"`
	// Better names traces that can be judged where those looked at cannot.
	Better    string `json:"better"`
	HasBetter bool   `json:"hasBetter"`
	// Told says which session she picked, for those who hear it.
	Told string `json:"told"`

	// Judgeable tells that there are sessions, TraceList that the traces of one are listed.
	Judgeable bool       `json:"judgeable"`
	TraceList bool       `json:"traceList"`
	Sessions  []Option   `json:"sessions"`
	Session   string     `json:"session"`
	HasOlder  bool       `json:"hasOlder"`
	HasNewer  bool       `json:"hasNewer"`
	Traces    []TraceRow `json:"traces"`
	PairText  string     `json:"pairText"`
	PairTable []PairRow  `json:"pairTable"`
	HasPair   bool       `json:"hasPair"`
	// Few tells that there is nothing yet to choose two traces from.
	Few       bool       `json:"few"`
	FewAct    string     `json:"fewAct"`
	Table     []ScoreRow `json:"table"`
	TableNote string     `json:"tableNote"`

	DaysText string    `json:"daysText"`
	DayTable []Row     `json:"dayTable"`
	Earlier  bool      `json:"earlier"`
	Later    bool      `json:"later"`
	Machine  SewnPlace `json:"machine"`
}

// FilterRow is something that has to be the same, with the values to choose from.
type FilterRow struct {
	ID      string   `json:"id"`
	Name    string   `json:"name"`
	Options []Option `json:"options"`
	Value   string   `json:"value"`
}

// TraceRow is one trace of the session that is picked.
type TraceRow struct {
	ID     string `json:"id"`
	At     int64  `json:"at"` // ms since 1970
	Text   string `json:"text"`
	Choose string `json:"choose"`
	Chosen bool   `json:"chosen"`
	// Closes tells that choosing it makes two, which are then to be seen.
	Closes bool `json:"closes"`
	// Focus is the name under which the keyboard is led to it.
	Focus string `json:"focus"`
}

type (
	Row    = place.Row
	Option = place.Option
	Figure = place.Figure
)

// pageOf is the page of the place while it is filled in.
type pageOf struct {
	place.Page
	in Shown
}

// Page is as place.Room has it.
func (r Room) Page() place.Page {
	p := &pageOf{}
	in := &p.in
	in.Weeks, in.Pair = r.View == OverWeeks, r.View == TwoTraces
	in.Example, in.Own = r.example.on(), !r.example.on()
	in.CanExample = len(r.Records) == 0 && !in.Example
	in.Empty, in.Some = r.Weeks.Empty() && in.Weeks, !r.Weeks.Empty()
	in.Days, in.Sewn = r.View == Calendar, r.View == AtMachine
	in.News = r.news()
	in.HasNews = in.News != ""
	f := r.Weeks.Found()
	chooser(in, r, f)
	switch {
	case in.Empty:
		p.Sentence, p.Cloth = r.Book().Say("back.empty"), r.Book().Say("back.cloth.empty")
	case in.Weeks:
		onChart(p, r, f)
	case in.Pair:
		onPair(p, r)
	case in.Days:
		onDays(p, r, f)
	case in.Sewn:
		onSewn(p, r)
	}
	if in.Example {
		p.Sentence = r.Book().Say("back.in-example", p.Sentence)
	}
	in.TraceList = in.Weeks || in.Pair
	sessionRows(in, r, f)
	p.In = p.in
	return p.Page
}

// news says what goes on with older traces.
func (r Room) news() string {
	b := r.Book()
	var news []string
	if done, left := r.Measuring(); left > 0 {
		news = append(news, b.Say("back.news.measuring", done, done+left))
	}
	if n := r.Unreadable(); n > 0 {
		news = append(news, b.Say("back.news.unreadable", n))
	}
	if n := r.Sewn.Damaged; n > 0 {
		news = append(news, b.Say("back.news.notes", n))
	}
	return strings.Join(news, " ")
}

// chooser fills in what can be looked at.
func chooser(r *Shown, m Room, f weeks.Found) {
	ask, b := m.Weeks.Asked(), m.Book()
	options, names := f.Motifs, f.Names
	r.Motifs = []Option{{ID: "all", Name: b.Say("back.all-motifs")}}
	for _, o := range options {
		r.Motifs = append(r.Motifs, Option{ID: o.Value, Name: b.Say("back.option", motifName(o.Value, names, b), o.Count)})
	}
	if r.Motif = ask.Motif; r.Motif == "" {
		r.Motif = "all"
	} else if !slices.ContainsFunc(r.Motifs, func(o Option) bool { return o.ID == r.Motif }) {
		r.Motifs = append(r.Motifs, Option{ID: r.Motif, Name: motifName(r.Motif, names, b)})
	}
	for _, x := range weeks.Measures {
		r.Measures = append(r.Measures, Option{ID: string(x), Name: b.Say("back.measure." + string(x))})
	}
	r.Measure = string(ask.Measure)
	r.Like = b.Write(like(f))
	for _, k := range weeks.Filters {
		if len(f.Options[k]) < 2 {
			continue
		}
		row := FilterRow{ID: string(k), Name: b.Say("back.filter." + string(k)), Value: f.By[k]}
		for _, o := range f.Options[k] {
			row.Options = append(row.Options, Option{ID: o.Value, Name: b.Say("back.option", valueName(k, o.Value), o.Count)})
		}
		r.Filters = append(r.Filters, row)
	}
	r.Narrow = len(r.Filters) > 0
	r.Guided = b.Write(guided(f))
	r.HasGuided = r.Guided != ""
}

// motifName returns the name of a motif: that of the ready one, or the one kept with its
// traces.
func motifName(id string, names map[string]string, b words.Book) string {
	if name, _ := b.Motif(id); name != "" {
		return name
	}
	if names[id] != "" {
		return names[id]
	}
	return id
}

// sessionRows lists the sessions, and the traces of the one picked.
func sessionRows(r *Shown, m Room, f weeks.Found) {
	n, b := len(f.Scores), m.Book()
	zone := m.Weeks.Zone()
	for i := range n {
		s := f.Scores[n-1-i]
		r.Sessions = append(r.Sessions, Option{ID: strconv.Itoa(i), Name: b.Amount(words.Moment(zone.Date(s.At)))})
	}
	r.Session = strconv.Itoa(m.Session)
	r.HasOlder, r.HasNewer = m.Session < n-1, m.Session > 0 && n > 0
	picked, ok := m.Picked()
	r.Judgeable = ok
	if !ok {
		return
	}
	for _, k := range f.InSession(picked.Session) {
		row := TraceRow{ID: k.ID, At: int64(k.At * 1000), Text: b.Say("back.trace", score(k.Value, f), k.Counts), Choose: b.Say("back.choose"), Focus: string(traceFocus(k.ID))}
		switch k.ID {
		case idOf(m.Pair.First):
			row.Choose, row.Chosen = b.Say("back.first-of-two"), true
		case idOf(m.Pair.Second):
			row.Choose, row.Chosen = b.Say("back.second-of-two"), true
		default:
			row.Closes = m.Pair.First != nil
		}
		r.Traces = append(r.Traces, row)
	}
}

func idOf(sh *replay.Sheet) string {
	if sh == nil {
		return ""
	}
	return sh.Rec.ID
}
