package game_test

import (
	"testing"

	"unthreaded/game"
	"unthreaded/path/quilt"
)

// A copied quilt has designs of its own: what is drawn in one leaves the other as it was.
func TestACopiedQuiltHasItsOwnDesigns(t *testing.T) {
	m, effects := visit(nil, nil)
	m, more := does(m, game.Control{Name: "place", Value: "quilt"}, game.Control{Name: "quilt.copy"})
	things, _ := shelve(nil, append(effects, more...))
	if len(m.Designs) != 10 || len(ofKind(things, game.DesignThing)) != 10 || len(m.Top.Laying.Misfits) != 0 {
		t.Fatalf("%d designs, %d of them kept, %d misfits", len(m.Designs), len(ofKind(things, game.DesignThing)), len(m.Top.Laying.Misfits))
	}
	was, _ := m.Design("demo-lily")
	id := m.Top.Quilt.ByKind[quilt.Block].Design
	m, _ = does(m, game.Control{Name: "quilt.choose", Item: "block-1-1"}, game.Control{Name: "quilt.draw"}, game.Control{Name: "draw.pattern", Value: "crosshatch"},
		game.Control{Name: "place", Value: "quilt"})
	is, _ := m.Design("demo-lily")
	if now, _ := m.Design(id); id == "demo-lily" || now.Recipe.Pattern != "crosshatch" || is.Recipe.Pattern != was.Recipe.Pattern {
		t.Errorf("in the copy lies %s with %v, in the first %v", id, now.Recipe, is.Recipe)
	}
}

// For one place alone its lines are changed as a copy; for all of a kind as they are.
func TestLinesOfOnePlace(t *testing.T) {
	m, _ := visit(nil, nil)
	m, _ = does(m, game.Control{Name: "place", Value: "quilt"}, game.Control{Name: "quilt.choose", Item: "block-1-1"}, game.Control{Name: "quilt.draw"})
	if len(m.Designs) != 5 {
		t.Errorf("for all places a copy was made: %d designs", len(m.Designs))
	}
	m, _ = does(m, game.Control{Name: "draw.quilt"}, game.Control{Name: "quilt.scope", Value: "one"}, game.Control{Name: "quilt.draw"})
	if own := m.Top.Quilt.ByCell["block-1-1"].Design; m.Place != game.Draw || len(m.Designs) != 6 || own == "" || own == "demo-lily" || m.Top.Lies("demo-lily") != 9 || m.Top.Lies(own) != 1 {
		t.Errorf("in %s with %d designs, %q in the place", m.Place, len(m.Designs), own)
	}
	m, _ = does(m, game.Control{Name: "place", Value: "quilt"}, game.Control{Name: "undo"})
	if m.Top.Lies("demo-lily") != 10 {
		t.Error("the copy is not taken back")
	}
}

// A ready motif is laid straight into a block, a strip, a border and a corner, fitted to
// each; the same one twice is one design.
func TestMotifsAreLaidIntoPlaces(t *testing.T) {
	m, _ := visit(nil, nil)
	m, _ = does(m, game.Control{Name: "place", Value: "quilt"})
	for cell, id := range map[string]string{"block-2-1": "orange-peel", "border-1-upper": "waves", "border-1-upper-left": "crosshatch"} {
		m, _ = does(m, game.Control{Name: "quilt.choose", Item: cell}, game.Control{Name: "quilt.motif", Value: id})
		d, _ := m.Design(m.Top.Choice().Design)
		c, _ := m.Top.Cell()
		if d.Recipe == nil || d.Recipe.Pattern != id || d.Shape != c.Shape {
			t.Errorf("%s: %q with %v lies there", cell, d.Name, d.Recipe)
		}
		n := len(m.Designs)
		if m, _ = does(m, game.Control{Name: "quilt.motif", Value: id}); len(m.Designs) != n {
			t.Errorf("%s: laid twice it is two designs", cell)
		}
	}
	if len(m.Top.Laying.Misfits) != 0 {
		t.Errorf("%d places cannot hold what was laid", len(m.Top.Laying.Misfits))
	}
}
