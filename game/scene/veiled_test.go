package scene_test

import (
	"reflect"
	"testing"

	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/game/synth"
	"unthreaded/game/worktest"
	"unthreaded/scoring/trace"
)

// Before she has said how even a trace was, the cloth shows it as plain ink: nothing in
// the colours of short and long stitches, no worst places, no speeds. A slow and a fast
// hand on the same way look the same. Afterwards they do not.
func TestTheVeilHidesEvenness(t *testing.T) {
	var veiled, shown [2][]scene.Item
	for k, speed := range []func(float64) float64{synth.Steady(25), func(s float64) float64 { return 15 + s/8 }} {
		m := game.New(game.DefaultSettings(), 0)
		send := func(msg game.Msg) { m, _ = worktest.Update(m, msg) }
		send(game.Resized{W: 1026, H: 656, Strip: 112, DPR: 1})
		send(game.Control{Name: "motif", Value: "waves"})
		send(game.Control{Name: "rehearse.learn"})
		for m.Rehearsal().Guide().Marks == "line" {
			send(game.Control{Name: "rehearse.skip"})
		}
		samples := synth.Hand{Hz: 60, Speed: speed}.Samples(m.Rehearsal().Line)
		for i, s := range samples {
			p := m.Sight().ToScreen(s.P)
			msg := game.Pointer{Kind: game.Move, ID: 1, Device: trace.Pen, T: s.T, X: p.X, Y: p.Y}
			switch i {
			case 0:
				msg.Kind = game.Down
			case len(samples) - 1:
				msg.Kind = game.Up
			}
			send(msg)
		}
		if !m.Rehearsal().Guessing() {
			t.Fatal("she is not asked")
		}
		veiled[k] = items(m)
		send(game.Control{Name: "rehearse.guess", Value: "even"})
		shown[k] = items(m)
	}
	pal := look.Of(look.Light)
	for k := range veiled {
		for _, it := range veiled[k] {
			if it.Colour == pal.Long || it.Colour == pal.Short || it.Colour == pal.Over {
				t.Errorf("hand %d: an item in %v", k, it.Colour)
			}
		}
	}
	if a, b := shapes(veiled[0]), shapes(veiled[1]); !reflect.DeepEqual(a, b) {
		t.Errorf("veiled, the two hands have %d and %d items that differ", len(a), len(b))
	}
	if reflect.DeepEqual(shapes(shown[0]), shapes(shown[1])) {
		t.Error("unveiled, the two hands look the same")
	}
}

func items(m game.Model) []scene.Item {
	var st stage
	var out []scene.Item
	list := st.Of(m)
	for _, l := range list.Layers {
		out = append(out, l.Items...)
	}
	return append(out, list.Moving...)
}

// shapes are the items without their points, which differ with the samples.
func shapes(items []scene.Item) []scene.Item {
	out := make([]scene.Item, len(items))
	for i, it := range items {
		it.Points = nil
		out[i] = it
	}
	return out
}
