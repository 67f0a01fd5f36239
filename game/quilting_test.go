package game_test

import (
	"slices"
	"strings"
	"testing"

	"unthreaded/game"
	quiltplace "unthreaded/game/place/quilt"
	"unthreaded/game/worktest"
	"unthreaded/path/quilt"
)

// visit is a visit with what is kept; nothing that is asked of the second program comes back.
func visit(settings []byte, things []game.Thing) (game.Model, []game.Effect) {
	m, _ := game.Update(game.New(game.DecodeSettings(settings), 1e12), game.Resized{W: 1000, H: 700, DPR: 1})
	return game.Update(m, game.Shelf{Things: things})
}

// worked is a visit in which it does.
func worked(settings []byte, things []game.Thing) (game.Model, []game.Effect) {
	m, _ := worktest.Update(game.New(game.DecodeSettings(settings), 1e12), game.Resized{W: 1000, H: 700, DPR: 1})
	return worktest.Update(m, game.Shelf{Things: things})
}

// does sends controls and collects the effects, letting the page rest after each.
func does(m game.Model, controls ...game.Control) (game.Model, []game.Effect) {
	var all []game.Effect
	for i, c := range controls {
		var effects []game.Effect
		m, effects = game.Update(m, c)
		all = append(all, effects...)
		m, effects = game.Update(m, game.Frame{Now: float64(100 + 10*i)})
		all = append(all, effects...)
	}
	return m, all
}

// shelve carries out what is asked of the shelf, and returns the settings kept last.
func shelve(things []game.Thing, effects []game.Effect) (left []game.Thing, settings []byte) {
	for _, e := range effects {
		drop := func(kind, id string) {
			things = slices.DeleteFunc(slices.Clone(things), func(t game.Thing) bool { return t.Kind == kind && t.ID == id })
		}
		switch e := e.(type) {
		case game.Keep:
			drop(e.Thing.Kind, e.Thing.ID)
			things = append(things, e.Thing)
		case game.Discard:
			drop(e.Kind, e.ID)
		case game.SaveSettings:
			settings = e.Doc
		}
	}
	return things, settings
}

// The quilt of the first visit is there at once, is kept once, and does not come back
// after she deletes it; a visitor from before it was made gets it once too.
func TestTheDemoIsShownOnce(t *testing.T) {
	for name, settings := range map[string][]byte{"new": nil, "from before": []byte(`{"motif":"ruler-zigzag","spm":800}`)} {
		m := game.New(game.DecodeSettings(settings), 0)
		if len(m.Quilts) != 1 || len(m.Designs) != 5 {
			t.Fatalf("%s: %d quilts and %d designs at the start, want the demo's 1 and 5", name, len(m.Quilts), len(m.Designs))
		}
		m, effects := visit(settings, nil)
		things, saved := shelve(nil, effects)
		if len(things) != 6 || saved == nil {
			t.Fatalf("%s: %d things kept, want a quilt and 5 designs (settings kept: %v)", name, len(things), saved != nil)
		}
		if again, effects := visit(saved, things); len(again.Quilts) != 1 || len(again.Designs) != 5 || len(effects) != 0 {
			t.Errorf("%s: the second visit has %d quilts and %d designs and %d effects", name, len(again.Quilts), len(again.Designs), len(effects))
		}
		_, effects = does(m, game.Control{Name: "place", Value: "quilt"}, game.Control{Name: "quilt.delete"})
		things, _ = shelve(things, effects)
		if again, _ := visit(saved, things); len(again.Quilts) != 0 || len(again.Designs) != 5 {
			t.Errorf("%s: after deleting it %d quilts come back", name, len(again.Quilts))
		}
	}
}

// A demo that she changed stays as she changed it, and her own blocks come first.
func TestHerOwnComesFirst(t *testing.T) {
	m, effects := visit(nil, nil)
	things, settings := shelve(nil, effects)
	_, effects = does(m, game.Control{Name: "place", Value: "draw"}, game.Control{Name: "draw.new"},
		game.Control{Name: "place", Value: "quilt"}, game.Control{Name: "quilt.name", Value: "For Ada"}, game.Control{Name: "quilt.new"})
	things, _ = shelve(things, effects)
	slices.Reverse(things) // the shelf has an order of its own
	again, _ := visit(settings, things)
	if again.Designs[0].Name != "My block" || len(again.Designs) != 6 {
		t.Errorf("the first of %d blocks is %q, want her own", len(again.Designs), again.Designs[0].Name)
	}
	if again.Quilts[0].Name != "My quilt" || again.Quilts[1].Name != "For Ada" {
		t.Errorf("the quilts are %q and %q", again.Quilts[0].Name, again.Quilts[1].Name)
	}
	var names []string
	for _, d := range again.Drawings() {
		names = append(names, d.Name)
	}
	if !slices.Contains(names, "Water lily") || names[0] != "My block" {
		t.Errorf("a route can be planned for %v, want her blocks and the demo's among them", names)
	}
}

// Deleting a quilt and taking that back, on the shelf as on the page; with none left
// the page says what to do, and a new one can be begun.
func TestADeletedQuiltComesBack(t *testing.T) {
	m, effects := visit(nil, nil)
	things, settings := shelve(nil, effects)
	m, effects = does(m, game.Control{Name: "place", Value: "quilt"}, game.Control{Name: "quilt.delete"})
	if m.Top.Quilt.ID != "" || len(m.Quilts) != 0 {
		t.Fatal("a quilt is left on the table")
	}
	// Controls of the layout do nothing without one.
	m, more := does(m, game.Control{Name: "quilt.rows", Value: "3"}, game.Control{Name: "quilt.design", Value: "demo-lily"},
		game.Control{Name: "key", Value: "ArrowRight"}, game.Control{Name: "key", Value: "Enter"}, game.Control{Name: "quilt.ditch-first", Value: "off"}, game.Control{Name: "undo"})
	things, _ = shelve(things, append(effects, more...))
	if len(m.Quilts) != 1 || m.Top.Quilt.Name != "Cot quilt, pond and reeds" {
		t.Fatalf("%d quilts after taking it back, %q on the table", len(m.Quilts), m.Top.Quilt.Name)
	}
	if again, _ := visit(settings, things); len(again.Quilts) != 1 {
		t.Error("it is not on the shelf again")
	}
}

// A saved quilt opens in another browser with its blocks; where they are already,
// they are not doubled; a block that was changed since comes in beside the changed one.
func TestAQuiltTravelsAsADocument(t *testing.T) {
	m, effects := visit(nil, nil)
	_, settings := shelve(nil, effects)
	m, effects = does(m, game.Control{Name: "place", Value: "quilt"}, game.Control{Name: "quilt.save"})
	var file []byte
	for _, e := range effects {
		if d, ok := e.(game.Download); ok {
			file = d.Data
		}
	}
	open := game.Control{Name: "quilt.open", Value: string(file)}
	there, _ := visit(settings, nil)
	there, _ = does(there, game.Control{Name: "place", Value: "quilt"}, open)
	if q := there.Top; len(there.Designs) != 5 || len(q.Laying.Misfits) != 0 || q.Quilt.Size() != m.Top.Quilt.Size() {
		t.Errorf("elsewhere it has %d designs, %d misfits and measures %v", len(there.Designs), len(q.Laying.Misfits), q.Quilt.Size())
	}
	again, _ := does(there, open)
	if len(again.Designs) != 5 || len(again.Quilts) != 2 || again.Quilts[0].Name == again.Quilts[1].Name {
		t.Errorf("opened twice there are %d designs and %d quilts", len(again.Designs), len(again.Quilts))
	}
	changed, _ := does(there, game.Control{Name: "place", Value: "draw"}, game.Control{Name: "draw.design", Value: "demo-lily"},
		game.Control{Name: "draw.pattern", Value: "waves"}, game.Control{Name: "place", Value: "quilt"}, open)
	if len(changed.Designs) != 6 || changed.Top.Quilt.ByKind[quilt.Block].Design == "demo-lily" {
		t.Errorf("%d designs, and the quilt's block is %q", len(changed.Designs), changed.Top.Quilt.ByKind[quilt.Block].Design)
	}
	broken, _ := does(there, game.Control{Name: "quilt.open", Value: "a shopping list"})
	if len(broken.Quilts) != 1 || !strings.Contains(broken.Notice.In(broken.Book()), "Nothing was changed") {
		t.Errorf("a file that is none: %q", broken.Notice.In(broken.Book()))
	}
}

// What is damaged, or of a newer form, is reported and left on the shelf.
func TestADamagedQuiltIsLeft(t *testing.T) {
	settings := game.DefaultSettings()
	settings.Visited = true
	for doc, want := range map[string]string{`{"schema":1}`: "left as it is", `{"schema":99,"id":"q","name":"n"}`: "newer version"} {
		m, effects := visit(settings.Encode(), []game.Thing{{Kind: game.QuiltThing, ID: "q", Doc: []byte(doc)}})
		if !strings.Contains(m.Notice.In(m.Book()), want) || len(effects) != 0 {
			t.Errorf("%s: %q and %d effects", doc, m.Notice.In(m.Book()), len(effects))
		}
	}
}

// Drawing for an empty place makes a block of its shape and size, which then lies
// there; from a row the route is planned.
func TestFromAPlaceToDrawAndRoute(t *testing.T) {
	m, _ := worked(nil, nil)
	m, _ = plans(m, game.Control{Name: "place", Value: "quilt"}, game.Control{Name: "quilt.new"},
		game.Control{Name: "quilt.setting", Value: "on-point"}, game.Control{Name: "quilt.choose", Item: "side-upper-1"},
		game.Control{Name: "quilt.draw"})
	b, _ := m.Design(m.OnBoard)
	if m.Place != game.Draw || b.Shape.Kind != "setting-triangle" {
		t.Fatalf("in %s with a %s on the board", m.Place, b.Shape.Kind)
	}
	m, _ = plans(m, game.Control{Name: "draw.pattern", Value: "crosshatch"}, game.Control{Name: "place", Value: "quilt"})
	lies := 0
	for _, p := range m.Top.Laying.Placed {
		if m.Top.Laying.Works[p.Work].Design.ID == b.ID && len(m.Top.Laying.Works[p.Work].Pieces) > 0 {
			lies++
		}
	}
	if want := 2*(4-1) + 2*(3-1); lies != want {
		t.Errorf("the drawn block lies in %d triangles, want %d", lies, want)
	}
	m, _ = plans(m, game.Control{Name: "quilt.row"})
	if m.Place != game.RoutePlan || !m.Desk.Drawing.Row || len(m.Desk.Choices) == 0 {
		t.Errorf("in %s with %d ways for a row (%v): %s", m.Place, len(m.Desk.Choices), m.Desk.Drawing.Row, m.Desk.Trouble)
	}
}

// onTable returns the room on the screen, which is Quilt.
func onTable(m game.Model) quiltplace.Room { return m.Front().(quiltplace.Room) }
