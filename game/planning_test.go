package game_test

import (
	"slices"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/place"
	"unthreaded/game/place/rehearse"
	"unthreaded/game/worktest"
	"unthreaded/path/geom"
	"unthreaded/path/quilt/order"
)

// ofKind returns the kept things of a kind.
func ofKind(things []game.Thing, kind string) (out []game.Thing) {
	for _, t := range things {
		if t.Kind == kind {
			out = append(out, t)
		}
	}
	return out
}

// opened is a visit in which the quilt was looked at, with what it kept.
func opened() (m game.Model, things []game.Thing, settings []byte) {
	m, effects := worked(nil, nil)
	m, more := plans(m, game.Control{Name: "place", Value: "quilt"}, game.Control{Name: "place", Value: "rehearse"})
	things, settings = shelve(nil, append(effects, more...))
	return m, things, settings
}

// plans sends controls to the table, each followed by a rest in which the order is planned.
func plans(m game.Model, controls ...game.Control) (game.Model, []game.Effect) {
	var all []game.Effect
	for _, c := range controls {
		var effects []game.Effect
		m, effects = worktest.Update(m, c)
		all = append(all, effects...)
		m, effects = frames(m, m.Now()+1, 3)
		all = append(all, effects...)
	}
	return m, all
}

// frames lets the page rest for so many frames.
func frames(m game.Model, from float64, n int) (game.Model, []game.Effect) {
	var all []game.Effect
	for i := range n {
		var effects []game.Effect
		m, effects = worktest.Update(m, game.Frame{Now: from + float64(i)})
		all = append(all, effects...)
	}
	return m, all
}

// After a reload the quilt lies on the table in every place, with the order that was kept:
// a quilt that was kept before there were orders has the usual one.
func TestThePlanIsThereAfterAReload(t *testing.T) {
	m, things, settings := opened()
	if len(ofKind(things, place.ChoicesThing))+len(ofKind(things, place.SewnThing)) != 0 {
		t.Error("the usual order is kept")
	}
	m, _ = frames(m, 200, 60)
	if m.Place != game.Rehearse || !m.Top.Plan.Any() {
		t.Fatalf("in %s there is no plan of the quilt kept from before", m.Place)
	}
	usual := m.Top.Plan.Order.Stages[0].ID
	kept := keptWith(t, things, m, order.Choices{NoDitch: true}, "row-3")
	again, effects := worked(settings, kept)
	if len(effects) != 0 {
		t.Errorf("a second visit asks for %v", effects)
	}
	again, _ = frames(again, 200, 60)
	if p := again.Top.Plan; !p.Any() || p.Order.Stages[0].ID == usual || len(p.Sewn.Ticks) != 1 {
		t.Errorf("after the reload the order begins with %s, with %d ticks", p.Order.Stages[0].ID, len(p.Sewn.Ticks))
	}
}

// keptWith returns the things with choices and a tick kept beside the quilt on the table.
func keptWith(t *testing.T, things []game.Thing, m game.Model, c order.Choices, stage string) []game.Thing {
	t.Helper()
	_, effects := m.KeepPlan(m.Top.Quilt.ID, c, order.Sewn{}.With(order.Tick{Kind: order.StageTick, Stage: stage, Day: "2026-02-03"}))
	things, _ = shelve(things, effects)
	if len(ofKind(things, place.ChoicesThing)) != 1 || len(ofKind(things, place.SewnThing)) != 1 {
		t.Fatalf("kept: %v", effects)
	}
	return things
}

// Choices and ticks that cannot be read are said to be so and stay as they are: what is
// decided from then on is kept beside them, and read again.
func TestADamagedPlanStays(t *testing.T) {
	_, things, settings := opened()
	bad := game.Thing{Kind: place.ChoicesThing, ID: "demo-cot-quilt", Doc: []byte(`{"schema":1,"rows":"upwards"}`)}
	things = append(things, bad)
	m, _ := worked(settings, things)
	if !strings.Contains(m.Notice.In(m.Book()), "could not be read") {
		t.Errorf("of a damaged order is said: %q", m.Notice.In(m.Book()))
	}
	things = keptPast(t, things, m)
	if !slices.ContainsFunc(things, func(x game.Thing) bool {
		return x.Kind == bad.Kind && x.ID == bad.ID && string(x.Doc) == string(bad.Doc)
	}) {
		t.Error("the damaged order was written over")
	}
	if again, _ := worked(settings, things); !again.Top.Plan.Choices.NoDitch {
		t.Error("what was kept beside it is not read")
	}
}

func keptPast(t *testing.T, things []game.Thing, m game.Model) []game.Thing {
	t.Helper()
	_, effects := m.KeepPlan(m.Top.Quilt.ID, order.Choices{NoDitch: true}, order.Sewn{})
	things, _ = shelve(things, effects)
	if len(ofKind(things, place.ChoicesThing)) != 2 {
		t.Fatalf("kept: %v", effects)
	}
	return things
}

// Where another tab ticked too, the ticks of both stay.
func TestTicksOfTwoTabs(t *testing.T) {
	m, things, settings := opened()
	things = keptWith(t, things, m, order.Choices{NoDitch: true}, "row-3")
	m, _ = worked(settings, things)
	other := order.Sewn{Schema: order.Schema, Quilt: m.Top.Quilt.ID}.With(order.Tick{Kind: order.StageTick, Stage: "row-5", Day: "2026-02-04"})
	doc, err := other.Encode()
	if err != nil {
		t.Fatal(err)
	}
	m, effects := worktest.Update(m, game.Clashed{Kind: place.SewnThing, ID: m.Top.Quilt.ID, Theirs: doc})
	if n := len(m.Top.Plan.Sewn.Ticks); n != 2 {
		t.Errorf("%d ticks on the table, want those of both tabs", n)
	}
	things, _ = shelve(things, effects)
	if back, err := order.DecodeSewn(ofKind(things, place.SewnThing)[0].Doc); err != nil || len(back.Ticks) != 2 {
		t.Errorf("%d ticks are kept (%v)", len(back.Ticks), err)
	}
}

// Rehearse offers the different blocks of the quilt in the order sewn, after a reload too;
// each is laid whole on the cloth.
func TestTheQuiltIsOfferedToRehearse(t *testing.T) {
	_, things, settings := opened()
	m, _ := worked(settings, things)
	m, _ = frames(m, 200, 3)
	p, o := m.Front().Page().In.(rehearse.Page), m.Top.Plan.Order
	lines := map[string]bool{}
	for i, pr := range o.Programs {
		for _, l := range m.Shared.Rehearsals(i) {
			lines[l.ID] = pr.Work.SewnMM > 0 || lines[l.ID]
		}
	}
	n := 0
	for _, sewn := range lines {
		if sewn {
			n++
		}
	}
	if n < 5 || len(p.Motifs) < n || !strings.HasPrefix(p.Motifs[0].Name, "Sashing strip 3: ") {
		t.Fatalf("%d lines of the quilt, offered first is %q", n, p.Motifs[0].Name)
	}
	for _, offered := range p.Motifs[:n] {
		if !lines[offered.ID] {
			t.Errorf("%q is offered before the quilt's", offered.Name)
		}
		m, _ = worktest.Update(m, game.Control{Name: "motif", Value: offered.ID})
		r := m.Rehearsal()
		if lo, hi := r.Line.Path().Bounds(); r.Motif.ID != offered.ID || !seen(m, lo) || !seen(m, hi) {
			t.Errorf("%q lies on the cloth from %v to %v, not whole", offered.Name, lo, hi)
		}
	}
}

// seen tells whether a place on the cloth is on the screen.
func seen(m game.Model, p geom.Point) bool {
	q := m.Sight().ToScreen(p)
	return q.X >= 0 && q.Y >= 0 && q.X <= m.Screen.W && q.Y <= m.Screen.H
}
