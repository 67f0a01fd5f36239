package machine_test

import (
	"slices"
	"testing"

	"unthreaded/game"
	"unthreaded/game/card"
	"unthreaded/game/place/machine"
	"unthreaded/game/scene"
	"unthreaded/game/worktest"
)

// The proof on the cloth is that of the plan as it is: one that was begun before a
// change is not taken, and a change asks for another.
func TestAProofFollowsThePlan(t *testing.T) {
	m := atMachine("orange-peel")
	m, _ = worktest.Update(m, game.Resized{W: 1026, H: 712, DPR: 1})
	// asked is what is asked for at the next frame.
	asked := func() []game.Effect {
		var effects []game.Effect
		m, effects = worktest.Update(m, game.Frame{Now: 1})
		return effects
	}
	if effects := asked(); len(effects) > 0 {
		t.Errorf("a proof is wanted of another topic than the card: %v", effects)
	}
	m, _ = worktest.Update(m, game.Control{Name: "machine.topic", Value: "card"})
	before, ok := asked()[0].(machine.MakeProof)
	if !ok || before.Of.What != card.RouteCard || before.Of.Width > 400 || before.Of.Width < 300 {
		t.Fatalf("wanted %+v", before.Of)
	}
	if again := asked(); len(again) > 0 {
		t.Errorf("the same proof is asked for twice")
	}
	seen := func() int {
		n := 0
		for _, l := range front(m).Scene(new(scene.Layers)).Layers {
			for _, it := range l.Items {
				if it.Shape == scene.Picture {
					n++
				}
			}
		}
		return n
	}
	proof := func(e machine.MakeProof) {
		p, err := card.NewProof(e.Job, e.Of.What, e.Of.Width)
		if err != nil {
			t.Fatal(err)
		}
		for p.Step() {
		}
		m, _ = worktest.Update(m, machine.Proofed{Of: e.Of, Image: p.Image()})
	}
	if proof(before); seen() != 1 {
		t.Error("the proof is not seen")
	}
	was := before
	for _, c := range []game.Control{{Name: "machine.paper", Value: "letter"}, {Name: "machine.look", Item: "template"}, {Name: "units", Value: "mm"}, {Name: "spm", Value: "700"}} {
		if c.Name == "spm" { // it is set where lines are rehearsed
			m, _ = worktest.Update(m, game.Control{Name: "place", Value: "rehearse"})
		}
		m, _ = worktest.Update(m, c)
		m, _ = worktest.Update(m, game.Control{Name: "place", Value: "machine"})
		if seen() != 0 {
			t.Errorf("after %+v the old proof is still seen", c)
		}
		if proof(was); seen() != 0 {
			t.Errorf("after %+v a proof of what was before is taken", c)
		}
		effects := asked()
		if len(effects) != 1 {
			t.Fatalf("after %+v no proof is asked for", c)
		}
		was = effects[0].(machine.MakeProof)
		if proof(was); seen() != 1 {
			t.Errorf("after %+v the proof is not seen", c)
		}
	}
	m, effects := worktest.Update(m, game.Control{Name: "place", Value: "rehearse"})
	if !slices.Contains(effects, game.Effect(machine.StopProof{})) {
		t.Error("the place is left and goes on making a proof")
	}
}

// What belongs to no place is no mistake of the place in front.
func TestCommonControlsAtTheMachine(t *testing.T) {
	m := atMachine("orange-peel")
	for _, c := range []game.Control{{Name: "units", Value: "mm"}, {Name: "theme", Value: "dark"}, {Name: "wheel", Value: "0 10", Item: "5 5"}} {
		if m, _ = worktest.Update(m, c); !m.Notice.None() {
			t.Errorf("%+v is answered with %+v", c, m.Notice)
		}
	}
}
