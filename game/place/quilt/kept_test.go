package quilt_test

import (
	"fmt"
	"slices"
	"testing"

	"unthreaded/game"
	"unthreaded/game/control/checkhtml"
	"unthreaded/game/place/quilt"
	"unthreaded/game/worktest"
)

// laidOut returns the place Quilt with the quilt of the first visit on the table, after
// some controls were used.
func laidOut(controls ...game.Control) game.Model {
	m, _ := worktest.Update(game.New(game.DefaultSettings(), 1e12), game.Resized{W: 1000, H: 700, DPR: 1})
	m, _ = worktest.Update(m, game.Shelf{})
	m, _ = worktest.Update(m, game.Control{Name: "place", Value: "quilt"})
	for _, c := range controls {
		m, _ = worktest.Update(m, c)
	}
	return m
}

// The quilt is kept when the page goes out of sight, when another place is opened, and once
// it has rested; nothing is kept twice.
func TestTheQuiltIsKept(t *testing.T) {
	for name, rest := range map[string]game.Msg{
		"out of sight": game.Interrupt{}, "left": game.Control{Name: "place", Value: "rehearse"}, "rested": game.Frame{Now: 6},
	} {
		m := laidOut()
		m, _ = worktest.Update(m, game.Frame{Now: 5})
		m, _ = worktest.Update(m, game.Control{Name: "quilt.cols", Value: "7"})
		m, soon := worktest.Update(m, game.Frame{Now: 5.1})
		m, effects := worktest.Update(m, rest)
		_, again := worktest.Update(m, rest)
		if len(quiltsKept(soon)) != 0 || len(quiltsKept(effects)) != 1 || len(quiltsKept(again)) != 0 {
			t.Errorf("%s: kept %d times before, %d times then and %d times after", name, len(quiltsKept(soon)), len(quiltsKept(effects)), len(quiltsKept(again)))
		}
	}
}

func quiltsKept(effects []game.Effect) (kept []game.Keep) {
	for _, e := range effects {
		if k, ok := e.(game.Keep); ok && k.Thing.Kind == game.QuiltThing {
			kept = append(kept, k)
		}
	}
	return kept
}

// Each entry of a list has an id of its own, also where two designs have one name: the page
// keeps a row by it.
func TestNoRowIsThereTwice(t *testing.T) {
	m := laidOut(game.Control{Name: "quilt.border-add"}, game.Control{Name: "quilt.border-add"})
	// Two blocks of one kind have designs of one name.
	for i, d := range m.Designs[:2] {
		m, _ = worktest.Update(m, game.Control{Name: "quilt.choose", Item: fmt.Sprintf("block-1-%d", i+1)})
		m, _ = worktest.Update(m, game.Control{Name: "quilt.scope", Value: "one"})
		m, _ = worktest.Update(m, game.Control{Name: "quilt.design", Value: d.ID})
	}
	named := slices.Clone(m.Designs)
	for i := range named {
		named[i].Name = "Leaves"
	}
	m.Designs = named
	m.Top = m.Top.WithDesigns(m.DesignsByID())
	for now := 1.0; now < 60 && !m.Top.Measures.Done; now++ {
		m, _ = worktest.Update(m, game.Frame{Now: now})
	}
	r := m.Front().(quilt.Room)
	if !m.Top.Measures.Done || len(r.Page().In.(quilt.Page).Gaps.Kinds) < 2 {
		t.Fatal("nothing is measured")
	}
	for _, twice := range checkhtml.Twice(r.Page().In) {
		t.Error(twice)
	}
}
