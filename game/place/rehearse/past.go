package rehearse

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/words"
	"unthreaded/path/motif"
)

// motifs lists the ready motifs, then the other lines that were rehearsed, such as
// planned routes.
func (r Room) motifs() []place.Option {
	var out []place.Option
	seen := map[string]bool{}
	for _, mo := range motif.ToRehearse() {
		name, _ := words.Motif(mo.ID)
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
	out := []place.Option{{ID: "0", Name: fmt.Sprintf("as many as fit, up to %d", r.Motif.Usual)}}
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
	p := Traces{PastTitle: "Past traces of this motif", PastEmpty: len(r.Past) == 0}
	if n := len(r.Past); n > 0 {
		p.PastTitle = fmt.Sprintf("Past traces of this motif (%d)", n)
	}
	shown := r.Past[:min(len(r.Past), r.Shown)]
	if n := len(r.Past) - len(shown); n > 0 {
		p.PastMore = fmt.Sprintf("Show more (%d older)", n)
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
		p.Other, p.NoneAlike = fmt.Sprintf("Made another way (%d)", n), len(p.Past) == 0
	}
	switch {
	case r.StorageWhy != "":
		p.Storage = "Nothing is kept: " + r.StorageWhy + " Save a trace as a file to keep it."
	case len(r.Past) > 0 && !r.Persisted:
		p.Storage = "Kept in this browser on this device. The browser has not promised to keep it for good; save what matters as a file."
	default:
		p.Storage = "Kept in this browser on this device. Nothing is sent anywhere."
	}
	return p
}

func (r Room) pastRow(s, now keep.Summary) PastRow {
	row := PastRow{ID: s.ID, Started: s.Started, OverText: "Compare"}
	row.Text = fmt.Sprintf("%d %s, %s", s.Repeats, words.MotifUnit(r.Motif.ID), s.Device)
	if how := howMade(s, now, r.Ruled()); how != "" {
		row.Text += ", " + how
	}
	if s.StitchCV != nil {
		row.Text += ", stitches vary by " + words.Percent(*s.StitchCV)
	}
	if s.P95MM != nil {
		row.Text += ", 95 % within " + words.Small(*s.P95MM)
	}
	if s.Coverage != nil && *s.Coverage < 0.9 {
		row.Text += ", " + words.Percent(*s.Coverage) + " of the line"
	}
	row.Open = r.Open != nil && r.Open.Rec.ID == s.ID
	row.Over = r.Over != nil && r.Over.Rec.ID == s.ID
	row.CanOver = r.Open != nil && !row.Open
	if row.Open && r.Guessing() {
		row.Text = "the trace on the cloth" // until she has said how even it was
	}
	if row.Over {
		row.OverText = "Stop comparing"
	}
	return row
}

// howMade tells what is not usual in how a trace was made.
func howMade(s, now keep.Summary, dots bool) string {
	var parts []string
	if s.WarmUp {
		parts = append(parts, "warm-up")
	}
	if s.Way == keep.Cloth {
		parts = append(parts, "cloth moved")
	}
	if g := s.Guide; g != nil {
		if text := guideWords(*g, dots); text != guideWords(keep.UsualGuide(), dots) {
			parts = append(parts, text)
		}
		if g.Ticks {
			parts = append(parts, "with ticks")
		}
	}
	switch {
	case s.Zoom == 0:
		parts = append(parts, "size not noted")
	case now.SizeKnown && !s.SizeKnown:
		parts = append(parts, "size a guess then")
	case math.Abs(s.Zoom-now.Zoom) > 0.01:
		parts = append(parts, "at "+words.Percent(s.Zoom)+" of true size")
	}
	return strings.Join(parts, ", ")
}

// unlikeWords name what differs between traces that are compared.
var unlikeWords = map[string]string{
	"line": "the line", "way": "the way of moving", "device": "the pointer", "size": "the size", "guide": "the guide",
}

// compared says how the trace laid over differs from the one on the cloth.
func (r Room) compared() string {
	if r.Over == nil || r.Open == nil || r.Live != nil {
		return ""
	}
	a, b := r.Open.Report.Evenness.SpacingCV, r.Over.Report.Evenness.SpacingCV
	text := "The green thread is the other trace, with a dot at every stitch and a knot at every tenth."
	if a.Defined && b.Defined {
		text += fmt.Sprintf(" Its stitches vary by %s, these by %s.", words.Percent(b.Value), words.Percent(a.Value))
	}
	var differ []string
	for _, name := range keep.Unlike(keep.Summarise(r.Open.Rec), keep.Summarise(r.Over.Rec)) {
		differ = append(differ, unlikeWords[name])
	}
	if len(differ) > 0 {
		text += " Not like with like. Different: " + strings.Join(differ, ", ") + "."
	}
	return text
}
