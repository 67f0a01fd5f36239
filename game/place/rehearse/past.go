package rehearse

import (
	"math"
	"strconv"
	"strings"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/words"
	"unthreaded/path/motif"
)

// motifs lists what is sewn in the quilt on the table, in the order sewn, then the ready
// motifs and the other lines that were rehearsed.
func (r Room) motifs() []place.Option {
	var out []place.Option
	seen := map[string]bool{}
	for _, o := range r.offered.list {
		out = append(out, place.Option{ID: o.line.ID, Name: o.name})
		seen[o.line.ID] = true
	}
	for _, mo := range motif.ToRehearse() {
		name, _ := r.Book().Motif(mo.ID)
		out = append(out, place.Option{ID: mo.ID, Name: name})
		seen[mo.ID] = true
	}
	if !seen[r.Motif.ID] {
		out = append(out, place.Option{ID: r.Motif.ID, Name: r.Motif.Name})
		seen[r.Motif.ID] = true
	}
	for _, s := range r.Records {
		if !seen[s.Motif] && !strings.HasPrefix(s.Motif, motif.ExercisePrefix) {
			out = append(out, place.Option{ID: s.Motif, Name: s.Name})
			seen[s.Motif] = true
		}
	}
	return out
}

// repeats lists how many repeats the row can have.
func (r Room) repeats() []place.Option {
	out := []place.Option{{ID: "0", Name: r.Book().Say("rehearse.as-many", r.Motif.Usual)}}
	for n := 1; n <= r.Motif.Max; n++ {
		out = append(out, place.Option{ID: strconv.Itoa(n), Name: strconv.Itoa(n)})
	}
	return out
}

// repeatCount is the choice in that list; a lesson chooses what is laid.
func (r Room) repeatCount() string {
	if r.Leading() {
		return strconv.Itoa(r.Repeats)
	}
	return strconv.Itoa(r.Settings.Repeats)
}

// Traces are the kept traces of the line, and how they are kept.
type Traces struct {
	Past []PastRow `json:"past"`
	// PastOther are those that are not like the trace on the cloth or the next one.
	PastOther []PastRow `json:"pastOther"`
	NoneAlike bool      `json:"noneAlike"`
	Other     string    `json:"other"`
	PastEmpty bool      `json:"pastEmpty"`
	PastTitle string    `json:"pastTitle"`
	PastMore  string    `json:"pastMore"`
	Storage   string    `json:"storage"`
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

// traces lists the kept traces of the motif on the cloth, those apart that are not like
// the one on the cloth or the next.
func (r Room) traces() Traces {
	b := r.Book()
	p := Traces{PastTitle: b.Say("rehearse.past", len(r.Past)), PastEmpty: len(r.Past) == 0}
	shown := r.Past[:min(len(r.Past), r.Shown)]
	if n := len(r.Past) - len(shown); n > 0 {
		p.PastMore = b.Say("rehearse.past-more", n)
	}
	now := r.Setup()
	for _, s := range shown {
		row := r.pastRow(s, now)
		if len(keep.Unlike(s, now)) == 0 && !s.WarmUp || row.Over {
			p.Past = append(p.Past, row)
		} else {
			p.PastOther = append(p.PastOther, row)
		}
	}
	if n := len(p.PastOther); n > 0 {
		p.Other, p.NoneAlike = b.Say("rehearse.other", n), len(p.Past) == 0
	}
	switch {
	case r.StorageWhy != "":
		p.Storage = b.Say("rehearse.storage.off", r.StorageWhy.Said())
	case len(r.Past) > 0 && !r.Persisted:
		p.Storage = b.Say("rehearse.storage.unsure")
	default:
		p.Storage = b.Say("rehearse.storage.kept")
	}
	return p
}

func (r Room) pastRow(s, now keep.Summary) PastRow {
	b := r.Book()
	row := PastRow{ID: s.ID, Started: s.Started, OverText: b.Say("rehearse.compare")}
	row.Open = r.Open != nil && r.Open.Rec.ID == s.ID
	row.Over = r.Over != nil && r.Over.Rec.ID == s.ID
	row.CanOver = r.Open != nil && !row.Open
	if row.Over {
		row.OverText = b.Say("rehearse.stop-comparing")
	}
	if row.Open && r.Guessing() {
		row.Text = b.Say("rehearse.row.veiled") // until she has said how even it was
		return row
	}
	device := string(s.Device)
	if !words.Has("rehearse.device." + device) {
		device = "other"
	}
	parts := words.List{b.Say("rehearse.row", s.Repeats, b.MotifUnit(r.Motif.ID), b.Say("rehearse.device."+device))}
	parts = append(parts, r.howMade(s, now)...)
	if s.StitchCV != nil {
		parts = append(parts, b.Say("rehearse.row.varies", words.Share(*s.StitchCV)))
	}
	if s.P95MM != nil {
		parts = append(parts, b.Say("rehearse.row.within", words.SmallMM(*s.P95MM)))
	}
	if s.Coverage != nil && *s.Coverage < 0.9 {
		parts = append(parts, b.Say("rehearse.row.covered", words.Share(*s.Coverage)))
	}
	row.Text = b.Amount(parts)
	return row
}

// howMade tells what is not usual in how a trace was made.
func (r Room) howMade(s, now keep.Summary) words.List {
	b := r.Book()
	var parts words.List
	if s.WarmUp {
		parts = append(parts, b.Say("rehearse.made.warm-up"))
	}
	if s.Way == keep.Cloth {
		parts = append(parts, b.Say("rehearse.made.cloth"))
	}
	if g := s.Guide; g != nil {
		if text := r.guideWords(*g); text != r.guideWords(keep.UsualGuide()) {
			parts = append(parts, text)
		}
		if g.Ticks {
			parts = append(parts, b.Say("rehearse.made.ticks"))
		}
	}
	switch {
	case s.Zoom == 0:
		parts = append(parts, b.Say("rehearse.made.unknown-size"))
	case now.SizeKnown && !s.SizeKnown:
		parts = append(parts, b.Say("rehearse.made.guessed-size"))
	case math.Abs(s.Zoom-now.Zoom) > 0.01:
		parts = append(parts, b.Say("rehearse.made.at-size", words.Share(s.Zoom)))
	}
	return parts
}

// compared says how the trace laid over differs from the one on the cloth.
func (r Room) compared() string {
	if r.Over == nil || r.Open == nil || r.Live != nil {
		return ""
	}
	b := r.Book()
	text := b.Say("rehearse.compared")
	if here, there := r.Open.Report.Evenness.SpacingCV, r.Over.Report.Evenness.SpacingCV; here.Defined && there.Defined {
		text += " " + b.Say("rehearse.compared-cv", words.Share(there.Value), words.Share(here.Value))
	}
	var differ words.List
	for _, name := range keep.Unlike(keep.Summarise(r.Open.Rec), keep.Summarise(r.Over.Rec)) {
		differ = append(differ, b.Say("rehearse.unlike."+name))
	}
	if len(differ) > 0 {
		text += " " + b.Say("rehearse.compared-unlike", differ)
	}
	return text
}
