package page

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/words"
	"unthreaded/path/motif"
)

// motifs lists the ready motifs, then the other lines that were rehearsed, such as
// planned routes.
func motifs(m game.Model) []Option {
	var out []Option
	seen := map[string]bool{}
	for _, mo := range motif.ToRehearse() {
		name, _ := words.Motif(mo.ID)
		out = append(out, Option{ID: mo.ID, Name: name})
		seen[mo.ID] = true
	}
	if !seen[m.Motif.ID] {
		out = append(out, Option{ID: m.Motif.ID, Name: m.Motif.Name})
		seen[m.Motif.ID] = true
	}
	for _, s := range m.Kept() {
		if !seen[s.Motif] && !strings.HasPrefix(s.Motif, motif.ExercisePrefix) {
			out = append(out, Option{ID: s.Motif, Name: s.Name})
			seen[s.Motif] = true
		}
	}
	return out
}

// repeats lists how many repeats the row can have.
func repeats(m game.Model) []Option {
	out := []Option{{ID: "0", Name: fmt.Sprintf("as many as fit, up to %d", m.Motif.Usual)}}
	for n := 1; n <= m.Motif.Max; n++ {
		out = append(out, Option{ID: strconv.Itoa(n), Name: strconv.Itoa(n)})
	}
	return out
}

// repeatCount is the choice in that list; a lesson chooses what is laid.
func repeatCount(m game.Model) string {
	if m.Leading() {
		return strconv.Itoa(m.Repeats)
	}
	return strconv.Itoa(m.Settings.Repeats)
}

// past lists the kept traces of the motif on the cloth, those apart that are not
// like the one on the cloth or the next, and how they are kept.
func past(p *Page, m game.Model) {
	p.PastTitle = "Past traces of this motif"
	if n := len(m.Past); n > 0 {
		p.PastTitle = fmt.Sprintf("Past traces of this motif (%d)", n)
	}
	p.PastEmpty = len(m.Past) == 0
	shown := m.Past[:min(len(m.Past), m.Shown)]
	if n := len(m.Past) - len(shown); n > 0 {
		p.PastMore = fmt.Sprintf("Show more (%d older)", n)
	}
	now := m.Setup()
	for _, s := range shown {
		row := pastRow(m, s, now)
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
	case m.StorageWhy != "":
		p.Storage = "Nothing is kept: " + m.StorageWhy + " Save a trace as a file to keep it."
	case len(m.Past) > 0 && !m.Persisted:
		p.Storage = "Kept in this browser on this device. The browser has not promised to keep it for good; save what matters as a file."
	default:
		p.Storage = "Kept in this browser on this device. Nothing is sent anywhere."
	}
}

func pastRow(m game.Model, s, now keep.Summary) PastRow {
	row := PastRow{ID: s.ID, Started: s.Started, OverText: "Compare"}
	row.Text = fmt.Sprintf("%d %s, %s", s.Repeats, words.MotifUnit(m.Motif.ID), s.Device)
	if how := howMade(s, now, m.Ruled()); how != "" {
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
	row.Open = m.Open != nil && m.Open.Rec.ID == s.ID
	row.Over = m.Over != nil && m.Over.Rec.ID == s.ID
	row.CanOver = m.Open != nil && !row.Open
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
func compared(m game.Model) string {
	if m.Over == nil || m.Open == nil || m.Live != nil {
		return ""
	}
	a, b := m.Open.Report.Evenness.SpacingCV, m.Over.Report.Evenness.SpacingCV
	text := "The green thread is the other trace, with a dot at every stitch and a knot at every tenth."
	if a.Defined && b.Defined {
		text += fmt.Sprintf(" Its stitches vary by %s, these by %s.", words.Percent(b.Value), words.Percent(a.Value))
	}
	var differ []string
	for _, name := range keep.Unlike(keep.Summarise(m.Open.Rec), keep.Summarise(m.Over.Rec)) {
		differ = append(differ, unlikeWords[name])
	}
	if len(differ) > 0 {
		text += " Not like with like. Different: " + strings.Join(differ, ", ") + "."
	}
	return text
}
