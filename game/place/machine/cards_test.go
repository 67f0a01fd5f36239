package machine_test

import (
	"slices"
	"testing"

	"unthreaded/game"
	"unthreaded/game/scene"
	"unthreaded/game/sewing"
	"unthreaded/game/work"
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
		m, effects = game.Update(m, game.Frame{Now: 1})
		return effects
	}
	if effects := asked(); len(effects) > 0 {
		t.Errorf("a proof is wanted of another topic than the card: %v", effects)
	}
	m, _ = worktest.Update(m, game.Control{Name: "machine.topic", Value: "card"})
	before, ok := asked()[0].(work.Ask)
	in, proof := before.In.(work.ProofIn)
	if !ok || !proof || in.What != sewing.RouteCard || in.Width > 400 || in.Width < 300 {
		t.Fatalf("wanted %+v", before)
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
	done := func(a work.Ask) { m, _ = game.Update(m, worktest.Answer(a)) }
	if done(before); seen() != 1 {
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
		if done(was); seen() != 0 {
			t.Errorf("after %+v a proof of what was before is taken", c)
		}
		effects := asked()
		if len(effects) != 1 {
			t.Fatalf("after %+v no proof is asked for", c)
		}
		was = effects[0].(work.Ask)
		if done(was); seen() != 1 {
			t.Errorf("after %+v the proof is not seen", c)
		}
	}
	m, _ = game.Update(m, game.Control{Name: "machine.paper", Value: "a4"})
	begun := asked()[0].(work.Ask)
	_, effects := game.Update(m, game.Control{Name: "place", Value: "rehearse"})
	if !slices.Contains(effects, game.Effect(work.Stop{N: begun.N})) {
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
