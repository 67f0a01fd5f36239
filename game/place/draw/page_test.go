package draw_test

import (
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/place/draw"
	"unthreaded/game/worktest"
)

// drawPage returns the page of the place Draw on a new block of 6 in, after controls.
func drawPage(controls ...game.Control) draw.Page {
	m, _ := worktest.Update(game.New(game.DefaultSettings(), 1e12), game.Resized{W: 1000, H: 700, DPR: 1})
	all := append([]game.Control{{Name: "place", Value: "draw"}, {Name: "draw.new"}, {Name: "draw.shape", Value: "square"}, {Name: "draw.width", Value: "6"}}, controls...)
	for _, c := range all {
		m, _ = worktest.Update(m, c)
	}
	for range 100 {
		m, _ = worktest.Update(m, game.Frame{Now: 1})
	}
	return in(m).Page().In.(draw.Page)
}

// What is wrong with a field is said at that field, and gone with the next control.
func TestWrongAtItsField(t *testing.T) {
	at := map[string]func(draw.WrongAt) string{
		"width": func(w draw.WrongAt) string { return w.Size }, "margin": func(w draw.WrongAt) string { return w.Margin },
		"foot": func(w draw.WrongAt) string { return w.Foot }, "pitch": func(w draw.WrongAt) string { return w.Pitch },
	}
	for field, text := range at {
		w := drawPage(game.Control{Name: "draw." + field, Value: "wide"}).Wrong
		if text(w) == "" {
			t.Errorf("nothing is said at %s", field)
		}
		for other, text := range at {
			if other != field && text(w) != "" {
				t.Errorf("the fault of %s is said at %s", field, other)
			}
		}
		if w := drawPage(game.Control{Name: "draw." + field, Value: "wide"}, game.Control{Name: "draw.pick"}).Wrong; w != (draw.WrongAt{}) {
			t.Errorf("%s: it is said for ever", field)
		}
	}
}

// Six inches hold all motifs but those that need more; in a block of 1 in each grey
// one says why, and their number is said.
func TestGreyMotifsSayWhy(t *testing.T) {
	d := drawPage(game.Control{Name: "draw.width", Value: "1"})
	grey := 0
	for _, row := range d.Motifs {
		if !row.Fits {
			grey++
		}
		if row.Fits != (row.Why == "") {
			t.Errorf("%s fits: %v, and says %q", row.Name, row.Fits, row.Why)
		}
	}
	if grey == 0 || len(d.Greyed) != grey || d.GreyedText == "" {
		t.Errorf("%d are grey, %d say why, and the page says %q", grey, len(d.Greyed), d.GreyedText)
	}
}

// The marking list is in the unit of the settings; what is nothing has no sign.
func TestMarkingListInHerUnit(t *testing.T) {
	for unit, other := range map[string]string{"in": " mm", "mm": " in"} {
		d := drawPage(game.Control{Name: "units", Value: unit}, game.Control{Name: "draw.mark-count", Value: "7"}).Dots
		if len(d.List) != 7 || !strings.Contains(d.Graduations[0].Name, map[string]string{"in": "inch", "mm": "mm"}[unit]) {
			t.Fatalf("%s: %d dots, marks of %q first", unit, len(d.List), d.Graduations[0].Name)
		}
		text := d.Text + d.Error
		for _, row := range d.List {
			text += row.Exact + row.Marked + row.Out
		}
		if strings.Contains(text, other) || strings.Contains(text, "-0.0") {
			t.Errorf("%s: %s", unit, text)
		}
	}
}

// Each ready motif in the chooser says how hard it is, the chosen one what makes it so: what
// touches itself is commonly taught last, waves early (common practice, from memory).
func TestMotifsSayHowHard(t *testing.T) {
	facts := map[string]string{}
	for _, row := range drawPage().Motifs {
		facts[row.ID] = row.Facts
	}
	for id, want := range map[string]string{"pebbles": "very hard, ", "square-spiral": "easy, "} {
		if !strings.HasPrefix(facts[id], want) {
			t.Errorf("%s: %q, want %q first", id, facts[id], want)
		}
	}
	if said := drawPage(game.Control{Name: "draw.pattern", Value: "pebbles"}).MotifFigure; !strings.HasSuffix(said, "As usually set, at your speed: very hard, with lines that touch, left and right in quick change and many turns.") {
		t.Errorf("pebbles: %q", said)
	}
}
