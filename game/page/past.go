package page

import (
	"fmt"

	"unthreaded/game"
	"unthreaded/game/words"
	"unthreaded/path/motif"
)

// motifs lists the ready motifs, then the other lines that were rehearsed, such as
// planned routes.
func motifs(m game.Model) []Option {
	var out []Option
	seen := map[string]bool{}
	for _, mo := range motif.Ready() {
		out = append(out, Option{mo.ID, mo.Name})
		seen[mo.ID] = true
	}
	if !seen[m.Motif.ID] {
		out = append(out, Option{m.Motif.ID, m.Motif.Name})
		seen[m.Motif.ID] = true
	}
	for _, s := range m.Kept() {
		if !seen[s.Motif] {
			out = append(out, Option{s.Motif, s.Name})
			seen[s.Motif] = true
		}
	}
	return out
}

// past lists the kept traces of the motif on the cloth, and how they are kept.
func past(p *Page, m game.Model) {
	p.PastTitle = "Past traces of this motif"
	if n := len(m.Past); n > 0 {
		p.PastTitle = fmt.Sprintf("Past traces of this motif (%d)", n)
	}
	p.PastEmpty = len(m.Past) == 0
	for _, s := range m.Past {
		row := PastRow{ID: s.ID, Started: s.Started, OverText: "Compare"}
		row.Text = fmt.Sprintf("%d %s, %s", s.Repeats, m.Motif.Unit, s.Device)
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
		p.Past = append(p.Past, row)
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
	return text
}
