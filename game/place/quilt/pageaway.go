package quilt

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"unthreaded/game/place"
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

func awayPart(r Room) AwayPart {
	p := AwayPart{Back: r.Away.Back, Near: !r.Away.Back, Own: r.Away.Back && r.Away.Own, Plan: r.Away.Back && !r.Away.Own, Two: "As from " + distance(r, AwayMM)}
	p.Text = fmt.Sprintf("Shown at %s of true size.", words.Percent(r.View.Zoom))
	if r.Away.Back {
		p.Text = fmt.Sprintf("Shown at %s of true size: as large to the eye as the quilt from %s away, if the screen is %s from you.",
			words.Percent(r.View.Zoom), distance(r, AwayOf(r.View.Zoom)), distance(r, ArmMM))
	}
	if p.Own {
		p.Newest, p.Best = !r.Away.Best, r.Away.Best
		p.Threads = threadsText(r)
	}
	return p
}

// distance says how far off something is: in metres, or in feet to the half.
func distance(r Room, mm float64) string {
	if r.Inches() {
		return words.Fraction(mm/(12*place.MMPerInch), 2) + " ft"
	}
	return strings.TrimSuffix(fmt.Sprintf("%.1f", math.Round(mm/100)/10), ".0") + " m"
}

func awaySentence(r Room) string {
	if r.Away.Own && len(r.Away.Threads) > 0 {
		return "Your quilt with your own stitches in it, as from " + distance(r, AwayOf(r.View.Zoom)) + " away."
	}
	if r.Away.Own {
		return "None of these blocks has a trace of yours yet. Rehearse one, and see it here."
	}
	return "Your quilt as from " + distance(r, AwayOf(r.View.Zoom)) + " away. Is one place too dense or too thin?"
}

// threadsText says in which designs her own stitches are seen, and in which none
// are yet.
func threadsText(r Room) string {
	var with, without []string
	for _, id := range r.Top.OwnDesigns() {
		if _, ok := r.Away.Threads[id]; ok {
			with = append(with, id)
		} else {
			without = append(without, id)
		}
	}
	var parts []string
	if len(with) > 0 {
		parts = append(parts, tracesText(r, with))
	}
	if len(without) > 0 {
		parts = append(parts, "No trace yet, so in chalk: "+list(r.NamesOf(without))+".")
	}
	if n := r.Top.Refitted(); len(n) > 0 {
		parts = append(parts, "Fitted anew to another size, so in chalk: "+list(r.NamesOf(n))+".")
	}
	return strings.Join(parts, " ")
}

// tracesText says which traces are seen, of the most even ones how even.
func tracesText(r Room, with []string) string {
	if !r.Away.Best {
		return "Your newest traces: " + list(r.NamesOf(with)) + "."
	}
	var each []string
	for _, id := range with {
		name := list(r.NamesOf([]string{id}))
		if s, ok := r.OwnTrace(id); ok && s.StitchCV != nil {
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
