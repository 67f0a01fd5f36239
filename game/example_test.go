package game_test

import (
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/place/back"
	"unthreaded/game/worktest"
)

// Before there is a trace of her own, an example fills every view of Look back. It changes
// nothing that is kept, what would is refused and said, and her first trace takes its place.
func TestAnExampleFillsLookBack(t *testing.T) {
	m, _ := worked(nil, nil)
	m, _ = worktest.Update(m, game.Listed{})
	var asked []game.Effect
	send := func(msg game.Msg) {
		var effects []game.Effect
		m, effects = worktest.Update(m, msg)
		asked = append(asked, effects...)
	}
	frames := func() {
		for i := 0; i == 0 || m.Front().Playing(); i++ {
			if send(game.Frame{Now: m.Now() + 0.016}); i > 2000 {
				t.Fatal("it never rests")
			}
		}
	}
	press := func(name, value, item string) {
		send(game.Control{Name: name, Value: value, Item: item})
		frames()
	}
	page := func() back.Shown { return shown(m) }
	press("place", "back", "")
	kept := m.Settings
	if p := page(); !p.Empty || !p.CanExample || p.Example {
		t.Fatalf("at first: empty %t, example offered %t, shown %t", p.Empty, p.CanExample, p.Example)
	}
	press("back.example", "", "")
	p := page()
	if !p.Example || p.Own || p.Empty || !p.Some || !p.Judgeable || len(p.Traces) == 0 || len(p.Table) < 5 || len(m.Records) != 0 {
		t.Fatalf("the example: %+v", p)
	}
	if said := m.Front().Page().Sentence; !strings.HasPrefix(said, "Example.") {
		t.Errorf("it says %q", said)
	}
	first := p.Traces[0].ID
	press("back.delete", "", first)
	if len(page().Traces) != len(p.Traces) || !strings.Contains(m.Notice.In(m.Book()), "example") {
		t.Errorf("deleting a trace of the example is answered with %q", m.Notice.In(m.Book()))
	}
	press("back.choose", "", first)
	press("back.choose", "", p.Traces[1].ID)
	if got := atBack(m).View; got != back.TwoTraces || !page().HasPair {
		t.Errorf("two traces chosen, %q is shown", got)
	}
	press("back.view", "sewn", "")
	if got := page().Machine.Pieces; len(got) != 1 {
		t.Errorf("%d pieces were sewn", len(got))
	}
	press("back.example-away", "", "")
	if p := page(); !p.Empty || p.Example || len(p.Machine.Pieces) != 0 {
		t.Errorf("put away: empty %t, shown %t, %d pieces", p.Empty, p.Example, len(p.Machine.Pieces))
	}
	for _, e := range asked {
		switch e.(type) {
		case game.Delete, game.Save, place.Keep, place.Discard, back.PutSummary, game.Fetch:
			t.Errorf("the example has asked for %T", e)
		}
	}
	if m.Settings != kept {
		t.Error("the example has changed her settings")
	}

	press("back.example", "", "")
	m.Records = []keep.Summary{{ID: "own", Motif: "wave", Name: "Wave", Started: 1}}
	send(game.Frame{Now: m.Now() + 1})
	if p := page(); p.Example || p.CanExample {
		t.Error("with a trace of her own the example is still there")
	}
}
