package game_test

import (
	"testing"

	"unthreaded/game"
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/worktest"
	"unthreaded/path/quilt"
)

// lastSettings returns the settings that the effects keep last, as a visit later
// reads them.
func lastSettings(t *testing.T, effects []game.Effect) (game.Settings, bool) {
	t.Helper()
	var s game.Settings
	found := false
	for _, e := range effects {
		if k, ok := e.(game.SaveSettings); ok {
			s, found = game.DecodeSettings(k.Doc), true
		}
	}
	return s, found
}

// A first visit begins in the rehearsal; the next one where she was.
func TestThePlaceIsKept(t *testing.T) {
	m, _ := worktest.Update(game.New(game.DefaultSettings(), 1e12), game.Resized{W: 1000, H: 700, DPR: 1})
	m, _ = worktest.Update(m, game.Shelf{})
	if m.Place != game.Rehearse {
		t.Fatalf("the first visit begins in %q", m.Place)
	}
	m, effects := worktest.Update(m, game.Control{Name: "place", Value: "draw"})
	kept, ok := lastSettings(t, effects)
	if !ok || kept.Place != game.Draw {
		t.Fatalf("the place is not kept: %v", effects)
	}
	design := m.Designs[0]
	next, _ := worktest.Update(game.New(kept, 1e12), game.Resized{W: 1000, H: 700, DPR: 1})
	next, _ = worktest.Update(next, game.Frame{Now: 5})
	if late, _ := worktest.Update(next, game.Frame{Now: 16}); !next.Opening() || m.Opening() || late.Opening() {
		t.Error("the page is to wait for the kept place a while, and for no other")
	}
	doc, err := quilt.EncodeDesign(design)
	if err != nil {
		t.Fatal(err)
	}
	next, _ = worktest.Update(next, game.Shelf{Things: []game.Thing{{Kind: game.DesignThing, ID: design.ID, Doc: doc}}})
	if next.Opening() || next.Place != game.Draw || next.OnBoard != design.ID {
		t.Errorf("the next visit begins in %q with the block %q, want %q", next.Place, next.OnBoard, design.ID)
	}
	next, effects = worktest.Update(next, game.Control{Name: "place", Value: "rehearse"})
	if back, ok := lastSettings(t, effects); !ok || back.Place != game.Rehearse {
		t.Errorf("back in %q, kept %q", next.Place, back.Place)
	}
}

// A place chosen before the kept things have been read is not left again, and
// settings of a version without places, or with one that is unknown, begin in the
// rehearsal.
func TestNoPlaceIsForced(t *testing.T) {
	s := game.DefaultSettings()
	s.Place = game.Draw
	m, _ := worktest.Update(game.New(s, 1e12), game.Resized{W: 1000, H: 700, DPR: 1})
	m, _ = worktest.Update(m, game.Control{Name: "place", Value: "machine"})
	m, effects := worktest.Update(m, game.Shelf{})
	if kept, _ := lastSettings(t, effects); m.Place != game.Machine || kept.Place != game.Machine {
		t.Errorf("in %q, kept %q", m.Place, kept.Place)
	}
	for _, doc := range []string{`{"units":"mm"}`, `{"place":"attic"}`} {
		m, _ := worktest.Update(game.New(game.DecodeSettings([]byte(doc)), 1e12), game.Resized{W: 1000, H: 700, DPR: 1})
		m, _ = worktest.Update(m, game.StorageOff{Why: "none"})
		if m.Place != game.Rehearse {
			t.Errorf("%s begins in %q", doc, m.Place)
		}
	}
}

// A page that opens in Look back looks at the motif and with the filters that she left,
// though the traces come after the place.
func TestLookingBackOpensAsItWasLeft(t *testing.T) {
	s := game.DefaultSettings()
	s.Place, s.Alike = game.LookBack, game.Alike{Help: "none"}
	m := game.New(s, origin)
	m, _ = worktest.Update(m, game.Shelf{})
	if m.Place != game.LookBack {
		t.Fatalf("it opens in %s", m.Place)
	}
	m, _ = worktest.Update(m, game.Listed{Past: summaries(5, origin)})
	if ask := atBack(m).Weeks.Asked(); ask.Motif != "linked-swirls" || ask.By[weeks.Help] != "none" {
		t.Errorf("it looks at %+v", ask)
	}
}
