package page

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"unthreaded/game"
	"unthreaded/game/words"
)

// AwayPart is about the whole top seen from some way off.
type AwayPart struct {
	Back bool `json:"back"`
	Near bool `json:"near"`
	// Text says how far off it is as large to the eye.
	Text string `json:"text"`
	Own  bool   `json:"own"`
	// Newest and Best tell which of her traces.
	Newest bool `json:"newest"`
	Best   bool `json:"best"`
	Plan   bool `json:"plan"`
	// Threads says whose traces are seen.
	Threads string `json:"threads"`
	Two     string `json:"two"`
}

func awayPart(m game.Model) AwayPart {
	d := m.Quilting
	p := AwayPart{Back: d.Back, Near: !d.Back, Own: d.Back && d.Own, Plan: d.Back && !d.Own, Two: "As from " + distance(m, game.AwayMM)}
	p.Text = fmt.Sprintf("Shown at %s of true size.", words.Percent(m.View.Zoom))
	if d.Back {
		p.Text = fmt.Sprintf("Shown at %s of true size: as large to the eye as the quilt from %s away, if the screen is %s from you.",
			words.Percent(m.View.Zoom), distance(m, game.AwayOf(m.View.Zoom)), distance(m, game.ArmMM))
	}
	if p.Own {
		p.Newest, p.Best = !d.Best, d.Best
		p.Threads = threadsText(m)
	}
	return p
}

// distance says how far off something is: in metres, or in feet to the half.
func distance(m game.Model, mm float64) string {
	if m.Settings.Units == game.Inches {
		return words.Fraction(mm/(12*game.MMPerInch), 2) + " ft"
	}
	return strings.TrimSuffix(fmt.Sprintf("%.1f", math.Round(mm/100)/10), ".0") + " m"
}

func awaySentence(m game.Model) string {
	if m.Quilting.Own && len(m.Quilting.Threads) > 0 {
		return "Your quilt with your own stitches in it, as from " + distance(m, game.AwayOf(m.View.Zoom)) + " away."
	}
	if m.Quilting.Own {
		return "None of these blocks has a trace of yours yet. Rehearse one, and see it here."
	}
	return "Your quilt as from " + distance(m, game.AwayOf(m.View.Zoom)) + " away. Is one place too dense or too thin?"
}

// threadsText says in which designs her own stitches are seen, and in which none
// are yet.
func threadsText(m game.Model) string {
	var with, without []string
	for _, id := range m.Quilting.Top.OwnDesigns() {
		if _, ok := m.Quilting.Threads[id]; ok {
			with = append(with, id)
		} else {
			without = append(without, id)
		}
	}
	var parts []string
	if len(with) > 0 {
		parts = append(parts, tracesText(m, with))
	}
	if len(without) > 0 {
		parts = append(parts, "No trace yet, so in chalk: "+list(m.NamesOf(without))+".")
	}
	if n := m.Quilting.Top.Refitted(); len(n) > 0 {
		parts = append(parts, "Fitted anew to another size, so in chalk: "+list(m.NamesOf(n))+".")
	}
	return strings.Join(parts, " ")
}

// tracesText says which traces are seen, of the most even ones how even.
func tracesText(m game.Model, with []string) string {
	if !m.Quilting.Best {
		return "Your newest traces: " + list(m.NamesOf(with)) + "."
	}
	var each []string
	for _, id := range with {
		name := list(m.NamesOf([]string{id}))
		if s, ok := m.OwnTrace(id); ok && s.StitchCV != nil {
			name += fmt.Sprintf(", whose stitches vary by %s", words.Percent(*s.StitchCV))
		}
		each = append(each, name)
	}
	return "Your most even traces: " + strings.Join(each, "; ") + "."
}

func list(names []string) string {
	names = slices.Clone(names)
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}
