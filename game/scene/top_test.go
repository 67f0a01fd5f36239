package scene_test

import (
	"testing"

	"unthreaded/game"
	"unthreaded/game/place/quilt"
	"unthreaded/game/synth"
	"unthreaded/game/worktest"
	"unthreaded/scoring/trace"
)

func init() {
	pictures["top-straight"] = func(*testing.T) game.Model {
		return measured(tops(game.Control{Name: "quilt.choose", Item: "block-3-2"}))
	}
	pictures["top-on-point"] = func(*testing.T) game.Model {
		return measured(tops(onPoint...))
	}
	pictures["top-order"] = func(*testing.T) game.Model {
		m := tops(game.Control{Name: "quilt.gaps-seen", Value: "off"})
		m, _ = worktest.Update(m, game.Frame{Now: 1})
		m, _ = worktest.Update(m, game.Frame{Now: 2})
		m, _ = worktest.Update(m, game.Control{Name: "quilt.stage", Item: "row-3"})
		m, _ = worktest.Update(m, game.Control{Name: "quilt.stage-sewn", Item: "ditch-across", Value: "on"})
		return m
	}
	pictures["top-stepped-back"] = steppedBack
}

// onPoint lays out a top on point with sashing, whose corners are left empty: the
// gaps there are wider than the batting allows.
var onPoint = []game.Control{
	{Name: "quilt.new"}, {Name: "quilt.setting", Value: "on-point"},
	{Name: "quilt.rows", Value: "3"}, {Name: "quilt.block", Value: "8"},
	{Name: "quilt.sashing", Value: "1"}, {Name: "quilt.stones", Value: "on"}, {Name: "quilt.border-add"},
	{Name: "quilt.choose", Item: "block-1-1"}, {Name: "quilt.design", Value: "demo-lily"},
	{Name: "quilt.choose", Item: "side-upper-1"}, {Name: "quilt.design", Value: "demo-stones"},
	{Name: "quilt.choose", Item: "border-1-left"}, {Name: "quilt.design", Value: "demo-bank"},
	{Name: "quilt.gap", Value: "5 in"}, {Name: "cancel"},
}

// tops returns the place Quilt after some controls were used.
func tops(controls ...game.Control) game.Model {
	screen := laptop
	screen.Strip = 0
	m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), screen)
	m, _ = worktest.Update(m, game.Control{Name: "place", Value: "quilt"})
	for _, c := range controls {
		m, _ = worktest.Update(m, c)
	}
	return m
}

// measured lets the top rest until its gaps are measured.
func measured(m game.Model) game.Model {
	for _, now := range []float64{10, 11, 12} {
		m, _ = worktest.Update(m, game.Frame{Now: now})
	}
	return m
}

// steppedBack is the top with her own trace of one of its designs in every place of
// it, by a hand that wobbles.
func steppedBack(t *testing.T) game.Model {
	m := tops(game.Control{Name: "place", Value: "draw"}, game.Control{Name: "draw.design", Value: "demo-lily"},
		game.Control{Name: "draw.rehearse"})
	h := synth.Hand{Hz: 120, Speed: synth.Steady(30), Beside: func(s float64) float64 { return 3 * wobble(s) }}
	samples := h.Samples(m.Rehearsal().Line)
	var doc []byte
	for i, s := range samples {
		p := m.Sight().ToScreen(s.P)
		msg := game.Pointer{Kind: game.Move, ID: 1, Device: trace.Pen, T: 1 + s.T, X: p.X, Y: p.Y}
		switch i {
		case 0:
			msg.Kind = game.Down
		case len(samples) - 1:
			msg.Kind = game.Up
		}
		var effects []game.Effect
		m, effects = worktest.Update(m, msg)
		for _, e := range effects {
			if save, ok := e.(game.Save); ok {
				doc = save.Doc
			}
		}
	}
	if doc == nil {
		t.Fatal("the trace was not kept")
	}
	for _, c := range []game.Control{{Name: "place", Value: "quilt"}, {Name: "quilt.back", Value: "on"}, {Name: "quilt.threads", Value: "own"}} {
		m, _ = worktest.Update(m, c)
	}
	m, _ = worktest.Update(m, game.Fetched{Top: true, Doc: doc})
	if len(onTable(m).Away.Threads) != 1 {
		t.Fatalf("%d designs have a trace of hers, want 1", len(onTable(m).Away.Threads))
	}
	return m
}

// onTable returns the room on the screen, which is Quilt.
func onTable(m game.Model) quilt.Room { return m.Front().(quilt.Room) }
