package card

import (
	"bytes"
	"image/png"
	"testing"

	"unthreaded/game"
	"unthreaded/game/bench"
	"unthreaded/game/softdraw"
)

// A proof drawn in steps is the first page of the document that is printed, as that is
// drawn at once, and as wide as asked for.
func TestAProofIsTheFirstPage(t *testing.T) {
	m := outAndBack(t, string(bench.Letter))
	for _, what := range []game.CardKind{game.RouteCard, game.PassesCard, game.TemplateCard} {
		pages, err := layOut(m, what, game.PDF)
		if err != nil {
			t.Fatal(err)
		}
		p, err := NewProof(m, what, 400)
		if err != nil {
			t.Fatalf("%s: %v", what, err)
		}
		steps := 1
		for p.Step() {
			steps++
		}
		want := softdraw.Draw(pages[0].List, 400/pages[0].List.W)
		if got := p.Image(); got.Bounds() != want.Bounds() || got.Bounds().Dx() != 400 || !bytes.Equal(got.Pix, want.Pix) {
			t.Errorf("%s: the proof of %v in %d steps is not the page of %v", what, got.Bounds(), steps, want.Bounds())
		}
	}
	m.Bench.Trouble = "none"
	if _, err := NewProof(m, game.RouteCard, 400); err == nil {
		t.Error("without a route there is a proof")
	}
}

// The proof on the cloth is that of the plan as it is: one that was begun before a
// change is not taken, and a change asks for another.
func TestAProofFollowsThePlan(t *testing.T) {
	m := atMachine(t, "orange-peel", string(bench.A4), game.Control{Name: "place", Value: "route"})
	m, _ = game.Update(m, game.Resized{W: 1026, H: 712, DPR: 1})
	if _, wanted := m.ProofWanted(); wanted {
		t.Error("a proof is wanted of another topic than the card")
	}
	m, _ = game.Update(m, game.Control{Name: "machine.topic", Value: "card"})
	before, wanted := m.ProofWanted()
	if !wanted || before.What != game.RouteCard || before.Width > 400 || before.Width < 300 {
		t.Fatalf("wanted %v: %+v", wanted, before)
	}
	proof := func(key game.ProofKey) {
		p, err := NewProof(m, key.What, key.Width)
		if err != nil {
			t.Fatal(err)
		}
		m, _ = game.Update(m, game.Proofed{Of: key, Image: p.Image()})
	}
	if proof(before); m.ProofSeen() == nil {
		t.Error("the proof is not seen")
	}
	for _, c := range []game.Control{{Name: "machine.paper", Value: "letter"}, {Name: "machine.look", Item: "template"}, {Name: "units", Value: "mm"}, {Name: "spm", Value: "700"}} {
		was, _ := m.ProofWanted()
		m, _ = game.Update(m, c)
		if now, _ := m.ProofWanted(); now == was || m.ProofSeen() != nil {
			t.Errorf("after %+v the old proof is still seen", c)
		}
		if proof(was); m.ProofSeen() != nil {
			t.Errorf("after %+v a proof of what was before is taken", c)
		}
		now, _ := m.ProofWanted()
		proof(now)
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m.ProofSeen()); err != nil || b.Len() == 0 {
		t.Errorf("the last proof is no picture: %v", err)
	}
}
