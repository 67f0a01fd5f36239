package game_test

import (
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/keep"
	"unthreaded/game/place/rehearse"
	"unthreaded/game/worktest"
)

// choosing leads from Quilt, if asked for, to the choice of a warm-up's length, with
// traces kept of the named lines.
func choosing(t *testing.T, quilt bool, traced ...string) game.Model {
	t.Helper()
	tb := newTable(t)
	var past []keep.Summary
	for i, id := range traced {
		past = append(past, keep.Summary{ID: string(rune('a' + i)), Motif: id, Name: id})
	}
	tb.send(game.Shelf{}, game.Listed{Past: past})
	if quilt {
		tb.send(game.Control{Name: "place", Value: "quilt"}, game.Control{Name: "place", Value: "rehearse"})
	}
	tb.send(game.Control{Name: "rehearse.warm-up"})
	return tb.m
}

// A warm-up ends with the block of the quilt laid out that was traced least, in the
// order sewn: of the cot quilt first a strip of reeds below the middle, then lilies and
// ripples; the border comes last, from its upper left corner on.
func TestAWarmUpEndsWithTheNextBlock(t *testing.T) {
	line := func(design string) string { return "block-" + design + "-0a1b2c3d" }
	lily, reeds, ripples := line("demo-lily"), "route-demo-reeds-0a1b2c3d", line("demo-ripples")
	for name, c := range map[string]struct {
		quilt  bool
		traced []string
		want   string
		from   rehearse.NextFrom
	}{
		"no quilt, no trace":  {false, nil, "Linked swirls", rehearse.FromCloth},
		"no quilt, one trace": {false, []string{"waves"}, "waves", rehearse.FromTrace},
		"nothing traced":      {true, nil, "Reeds", rehearse.FromOrder},
		"the first traced":    {true, []string{lily}, "Reeds", rehearse.FromOrder},
		"two traced":          {true, []string{lily, reeds}, "Ripples", rehearse.FromOrder},
		"all of the blocks":   {true, []string{lily, reeds, ripples, lily}, "Stone rings", rehearse.FromOrder},
		"of all the least":    {true, []string{lily, reeds, reeds, ripples, line("demo-bank"), line("demo-stones")}, "Water lily", rehearse.FromOrder},
		"traces of others":    {true, []string{"waves", "block-demo-lily-2-0a1b2c3d"}, "Reeds", rehearse.FromOrder},
	} {
		for range 2 { // the same each time
			m := choosing(t, c.quilt, c.traced...)
			if got := m.Rehearsal().Learning.Next; got.Name != c.want || got.From != c.from {
				t.Errorf("%s: ends with %q from the %s, want %q from the %s", name, got.Name, got.From, c.want, c.from)
			}
			m, _ = worktest.Update(m, game.Control{Name: "rehearse.warm-up", Value: "3"})
			if w := m.Rehearsal().Learning.WarmUp; w == nil || w.Block.ID != m.Rehearsal().Learning.Next.Line.ID || c.quilt && !strings.HasPrefix(w.Block.ID, "route-demo-") {
				t.Errorf("%s: the warm-up ends with another block than was said", name)
			}
		}
	}
}

// Where the quilt lies on the table, the block is one of its first row; a route on
// the desk comes before the quilt.
func TestTheNextBlockFollowsTheOrder(t *testing.T) {
	tb := newTable(t)
	tb.send(game.Shelf{}, game.Control{Name: "place", Value: "quilt"}, game.Control{Name: "quilt.rows", Value: "2"})
	tb.send(game.Control{Name: "place", Value: "rehearse"}, game.Control{Name: "rehearse.warm-up"})
	want := tb.m.NamesOf(tb.m.InOrder()[:1])
	if n := tb.m.Rehearsal().Learning.Next; n.From != rehearse.FromOrder || len(want) != 1 || n.Name != want[0] {
		t.Errorf("it ends with %q from the %s, the first row begins with %v", n.Name, n.From, want)
	}
	tb.send(game.Control{Name: "place", Value: "route"}, game.Control{Name: "place", Value: "rehearse"})
	if n := tb.m.Rehearsal().Learning.Next; n.From != rehearse.FromDesk || n.Name != tb.m.Desk.Drawing.Name {
		t.Errorf("with a route planned it ends with %q from the %s", n.Name, n.From)
	}
}
