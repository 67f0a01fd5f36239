package draw_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game"
	"unthreaded/game/place/draw"
	"unthreaded/game/worktest"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
	"unthreaded/scoring/trace"
)

// drawing returns the place Draw on a new block, after some controls were used.
func drawing(controls ...game.Control) game.Model {
	m, _ := worktest.Update(game.New(game.DefaultSettings(), 1e12), game.Resized{W: 1000, H: 700, DPR: 1})
	m, _ = worktest.Update(m, game.Control{Name: "place", Value: "draw"})
	m, _ = worktest.Update(m, game.Control{Name: "draw.new"})
	for _, c := range controls {
		m, _ = worktest.Update(m, c)
	}
	return m
}

// in returns the room on the screen, which is Draw.
func in(m game.Model) draw.Room { return m.Front().(draw.Room) }

// kept returns the designs that effects keep.
func kept(t interface{ Fatal(...any) }, effects []game.Effect) []quilt.Design {
	var out []quilt.Design
	for _, e := range effects {
		if k, ok := e.(game.Keep); ok && k.Thing.Kind == game.DesignThing {
			d, err := quilt.DecodeDesign(k.Thing.Doc)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, d)
		}
	}
	return out
}

// pencil draws a stroke through places in mm.
func pencil(m game.Model, pts ...geom.Point) (game.Model, []game.Effect) {
	var effects []game.Effect
	for i, p := range pts {
		q := in(m).View.ToScreen(p)
		msg := game.Pointer{Kind: game.Move, ID: 1, Device: trace.Pen, X: q.X, Y: q.Y}
		if i == 0 {
			msg.Kind = game.Down
		}
		m, _ = worktest.Update(m, msg)
		if i == len(pts)-1 {
			msg.Kind = game.Up
			var more []game.Effect
			m, more = worktest.Update(m, msg)
			effects = append(effects, more...)
		}
	}
	return m, effects
}

// A change is kept once it has rested, at once when the page goes out of sight or
// another place is opened.
func TestABlockIsKept(t *testing.T) {
	for name, rest := range map[string]func(game.Model) (game.Model, []game.Effect){
		"rested": func(m game.Model) (game.Model, []game.Effect) {
			m, now := worktest.Update(m, game.Frame{Now: 5.1})
			if len(kept(t, now)) != 0 {
				t.Error("a block is kept before it has rested")
			}
			return worktest.Update(m, game.Frame{Now: 6})
		},
		"out of sight": func(m game.Model) (game.Model, []game.Effect) { return worktest.Update(m, game.Interrupt{}) },
		"left": func(m game.Model) (game.Model, []game.Effect) {
			return worktest.Update(m, game.Control{Name: "place", Value: "rehearse"})
		},
	} {
		m := drawing()
		m, _ = worktest.Update(m, game.Frame{Now: 5})
		m, _ = pencil(m, geom.Pt(10, 10), geom.Pt(40, 12), geom.Pt(70, 30))
		_, effects := rest(m)
		if got := kept(t, effects); len(got) != 1 || len(got[0].Lines) != 1 {
			t.Errorf("%s: kept %d blocks, want the one with its line", name, len(got))
		}
	}
}

// Typed lengths take fractions and units; what is none, or out of range, is said and
// changes nothing.
func TestTypedSizes(t *testing.T) {
	m := drawing(game.Control{Name: "draw.width", Value: "8 1/2"})
	if got := in(m).Board.Design.Shape.W; math.Abs(got-215.9) > 1e-9 {
		t.Errorf("8 1/2 in is %v mm, want 215.9", got)
	}
	for _, bad := range []string{"wide", "", "0", "9999 in"} {
		after, _ := worktest.Update(m, game.Control{Name: "draw.width", Value: bad})
		if in(after).Wrong.Said.None() || math.Abs(in(after).Board.Design.Shape.W-215.9) > 1e-9 {
			t.Errorf("%q gives a block of %v mm and the word %q", bad, in(after).Board.Design.Shape.W, in(after).Wrong.Said)
		}
	}
}

// A deleted block comes back by undo, with the effect that keeps it again.
func TestADeletedBlockComesBack(t *testing.T) {
	m := drawing(game.Control{Name: "draw.name", Value: "Leafy"}, game.Control{Name: "draw.pattern", Value: "vine"})
	id := in(m).Board.Design.ID
	m, effects := worktest.Update(m, game.Control{Name: "draw.delete"})
	if d, ok := effects[0].(game.Discard); !ok || d.ID != id || m.Notice.Action != "undo" {
		t.Fatalf("deleting gives %v and the notice %q", effects, m.Notice.In(m.Book()))
	}
	m, effects = worktest.Update(m, game.Control{Name: "undo"})
	if got := kept(t, effects); len(got) != 1 || got[0].Name != "Leafy" || in(m).Board.Design.ID != id {
		t.Errorf("undo keeps %v and opens %q", got, in(m).Board.Design.Name)
	}
}

// Steps of a block are there again after another block was open.
func TestStepsOutliveAnotherBlock(t *testing.T) {
	m := drawing(game.Control{Name: "draw.pattern", Value: "spiral"})
	first := in(m).Board.Design.ID
	for _, c := range []game.Control{{Name: "draw.new"}, {Name: "draw.design", Value: first}, {Name: "undo"}} {
		m, _ = worktest.Update(m, c)
	}
	if in(m).Board.Design.ID != first || in(m).Board.Design.Recipe != nil {
		t.Errorf("undo in the first block leaves %v", in(m).Board.Design.Recipe)
	}
}

// Damaged and newer documents are reported and left; good ones beside them open.
func TestDamagedBlocksAreLeft(t *testing.T) {
	good, err := quilt.EncodeDesign(quilt.Design{ID: "g", Name: "Good", Shape: motif.Shape{Kind: motif.Square, W: 100}, Seams: motif.NoSeams})
	if err != nil {
		t.Fatal(err)
	}
	for word, doc := range map[string]string{"is damaged": `{"schema":1,"id":"b"`, "newer version": `{"schema":99,"id":"b"}`} {
		m := game.New(game.DefaultSettings(), 0)
		before := len(m.Designs)
		m, effects := worktest.Update(m, game.Shelf{Things: []game.Thing{
			{Kind: game.DesignThing, ID: "b", Doc: []byte(doc)}, {Kind: game.DesignThing, ID: "g", Doc: good},
		}})
		if !strings.Contains(m.Notice.In(m.Book()), word) || len(m.Designs) < before+1 || m.Designs[0].Name != "Good" {
			t.Errorf("%s: notice %q, designs %v", doc, m.Notice.In(m.Book()), m.Designs)
		}
		for _, e := range effects {
			if _, ok := e.(game.Discard); ok {
				t.Error("a damaged block is thrown away")
			}
		}
	}
}

// One line is rehearsed as it is; several go to the desk first, and the desk offers
// the block among its drawings.
func TestFromTheBlockOnwards(t *testing.T) {
	m := drawing(game.Control{Name: "draw.shape", Value: "square"}, game.Control{Name: "draw.pattern", Value: "spiral"}, game.Control{Name: "draw.rehearse"})
	if m.Place != game.Rehearse || !strings.HasPrefix(m.Rehearsal().Motif.ID, "block-") {
		t.Errorf("a spiral leads to %s with %s", m.Place, m.Rehearsal().Motif.ID)
	}
	m = drawing(game.Control{Name: "draw.pattern", Value: "crosshatch"}, game.Control{Name: "draw.rehearse"})
	m, _ = worktest.Update(m, game.Frame{Now: 1}) // a drawing of many pieces is planned beside the page
	if m.Place != game.RoutePlan || !m.Desk.Trouble.None() || len(m.Desk.Choices) == 0 {
		t.Errorf("a crosshatch leads to %s (%s)", m.Place, m.Desk.Trouble)
	}
	if m.Drawings()[0].ID != m.Desk.Drawing.ID {
		t.Error("the desk does not list the block first")
	}
	m = drawing(game.Control{Name: "draw.route"})
	if m.Place != game.Draw || m.Notice.In(m.Book()) == "" {
		t.Errorf("an empty block leads to %s without a word", m.Place)
	}
}

// Whatever the page's controls send, the block stays one that can be kept.
func TestAnyControlLeavesAGoodBlock(t *testing.T) {
	names := []string{
		"tool", "shape", "seams", "pattern", "param", "loosen", "mark-on", "mark-count", "mark-spread", "graduation", "edge", "edge-side",
		"choose", "choose-all", "kind", "add-point", "drop-point", "next-point", "smooth-point", "corner-point", "split", "join", "close-up",
		"copies", "mirror-across", "mirror-down", "turned", "turn", "repeats", "repeat", "pitch", "fit", "width", "height", "margin", "foot",
		"photo-square", "photo-strength", "zoom", "name", "new", "copy", "delete", "design", "open-svg", "open-design", "delete-line",
	}
	values := []string{"", "0", "1", "3", "-7", "NaN", "1e99", "on", "off", "pencil", "ruler", "change", "square", "hexagon", "circle", "spiral", "feather", "1/2", "40 mm", "sides", "<svg/>", "+"}
	rapid.Check(t, func(rt *rapid.T) {
		m := drawing()
		for n := rapid.IntRange(1, 25).Draw(rt, "n"); n > 0; n-- {
			if rapid.IntRange(0, 3).Draw(rt, "press") == 0 {
				x := rapid.Float64Range(-10, 160)
				m, _ = pencil(m, geom.Pt(x.Draw(rt, "x"), x.Draw(rt, "y")), geom.Pt(x.Draw(rt, "x"), x.Draw(rt, "y")), geom.Pt(x.Draw(rt, "x"), x.Draw(rt, "y")))
				continue
			}
			m, _ = worktest.Update(m, game.Control{
				Name:  "draw." + rapid.SampledFrom(names).Draw(rt, "name"),
				Value: rapid.SampledFrom(values).Draw(rt, "value"), Item: rapid.SampledFrom([]string{"", "0", "1", "spacing"}).Draw(rt, "item"),
			})
			if _, err := quilt.EncodeDesign(in(m).Board.Design); err != nil {
				rt.Fatal(err)
			}
		}
	})
}

// The ruler's marks go with the unit: those of about the same fineness, 1/8 in (3.2
// mm) and 1 mm, 1/16 in and 1/2 mm; what she chooses herself stays until then.
func TestRulerMarksFollowTheUnit(t *testing.T) {
	m := drawing()
	for _, c := range []struct {
		control, value string
		want           sketch.Graduation
	}{
		{"units", "mm", sketch.Millimetre}, {"units", "in", sketch.EighthInch}, {"draw.graduation", "1/16 in", sketch.SixteenthInch},
		{"units", "mm", sketch.HalfMillimetre}, {"draw.graduation", "1/8 in", sketch.EighthInch}, {"draw.mark-count", "5", sketch.EighthInch},
	} {
		m, _ = worktest.Update(m, game.Control{Name: c.control, Value: c.value})
		if in(m).Graduation() != c.want {
			t.Errorf("%s %s: marks of %s, want %s", c.control, c.value, in(m).Graduation(), c.want)
		}
	}
	metric := game.DefaultSettings()
	metric.Units = game.Millimetres
	m, _ = worktest.Update(game.New(metric, 0), game.Control{Name: "place", Value: "draw"})
	if g := in(m).Graduation(); g != sketch.Millimetre {
		t.Errorf("a visit in mm begins with marks of %s", g)
	}
}

// A distance of the whole block goes with the way of the row; one she typed stays.
func TestTheRowGoesDown(t *testing.T) {
	m := drawing(game.Control{Name: "draw.shape", Value: "rectangle"}, game.Control{Name: "draw.width", Value: "8"}, game.Control{Name: "draw.height", Value: "3"})
	m, _ = worktest.Update(m, game.Control{Name: "draw.pitch", Value: "8"})
	m, _ = worktest.Update(m, game.Control{Name: "draw.row-way", Value: "down"})
	if math.Abs(in(m).Copying.Pitch-3*25.4) > 1e-9 {
		t.Errorf("down, the copies are %v mm apart, want the height of 3 in", in(m).Copying.Pitch)
	}
	m, _ = worktest.Update(m, game.Control{Name: "draw.pitch", Value: "1"})
	m, _ = worktest.Update(m, game.Control{Name: "draw.row-way", Value: "across"})
	if math.Abs(in(m).Copying.Pitch-25.4) > 1e-9 {
		t.Errorf("the distance of 1 in has become %v mm", in(m).Copying.Pitch)
	}
}
