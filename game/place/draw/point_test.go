package draw_test

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"unthreaded/game"
	"unthreaded/game/place/draw"
	"unthreaded/game/worktest"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// square returns the place Draw on an empty block of 6 in each way.
func square() game.Model {
	return drawing(game.Control{Name: "draw.shape", Value: "square"}, game.Control{Name: "draw.width", Value: "6"})
}

// touch sends what a finger does at a place in CSS pixels.
func touch(m game.Model, kind game.PointerKind, id int, at geom.Point) game.Model {
	m, _ = worktest.Update(m, game.Pointer{Kind: kind, ID: id, Device: trace.Touch, X: at.X, Y: at.Y})
	return m
}

// Two fingers hold the cloth: the place that lay between them when they came down
// lies between them as long as the middle of the view is on the block, and it is
// shown larger by as much as they are spread. They draw nothing, and the line that
// the first has begun is taken back.
func TestTwoFingersHoldTheCloth(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		m := square()
		near := func(name string) geom.Point {
			return geom.Pt(rapid.Float64Range(440, 560).Draw(rt, name+" x"), rapid.Float64Range(290, 410).Draw(rt, name+" y"))
		}
		a, b := near("a"), near("b")
		m = touch(m, game.Down, 1, a)
		m = touch(m, game.Move, 1, r2.Add(a, geom.Pt(3, 1)))
		m = touch(m, game.Move, 1, a)
		m = touch(m, game.Down, 2, b)
		held, before := in(m).View.ToCloth(r2.Scale(0.5, r2.Add(a, b))), in(m).View.Scale
		wide := math.Max(1, geom.Dist(a, b))
		half := r2.Scale((60+2*wide)/2, geom.Pt(1, 0))
		at := near("to")
		m = touch(m, game.Move, 1, r2.Sub(at, half))
		m = touch(m, game.Move, 2, r2.Add(at, half))
		grown := math.Max(1, math.Min(draw.MaxZoom, (60+2*wide)/wide))
		if got := in(m).View.Scale / before; math.Abs(got-grown) > 1e-6 {
			rt.Fatalf("spread %.2f times, shown %.4f times as large", grown, got)
		}
		if now := in(m).View.ToScreen(held); geom.Dist(now, at) > 1e-6 {
			rt.Fatalf("what was held lies at %v, the fingers at %v", now, at)
		}
		m = touch(m, game.Up, 2, at)
		m = touch(m, game.Move, 1, geom.Pt(10, 10))
		m = touch(m, game.Up, 1, geom.Pt(10, 10))
		if n := len(in(m).Board.Design.Lines); n != 0 || len(in(m).Board.Stroke) != 0 {
			rt.Fatalf("two fingers drew %d lines", n)
		}
		m, _ = worktest.Update(m, game.Control{Name: "draw.zoom", Value: "0"})
		if in(m).View.Scale != before || in(m).Zoomed() {
			rt.Fatalf("the whole block is shown at %v, before at %v", in(m).View.Scale, before)
		}
	})
}

// Ctrl and the wheel show larger what lies under the pointer, which stays there; the
// wheel alone moves the block by as many pixels.
func TestTheWheel(t *testing.T) {
	m := square()
	at := geom.Pt(520, 330)
	place := in(m).View.ToCloth(at)
	turn := func(by, at string) {
		m, _ = worktest.Update(m, game.Control{Name: "wheel", Value: by, Item: at})
	}
	for range 4 {
		turn("0 -100", "520 330 zoom")
	}
	if now := in(m).View.ToScreen(place); geom.Dist(now, at) > 1e-6 || !in(m).Zoomed() {
		t.Errorf("what lay at %v lies at %v", at, now)
	}
	turn("15 -20", "520 330")
	if now, want := in(m).View.ToScreen(place), geom.Pt(505, 350); geom.Dist(now, want) > 1e-6 {
		t.Errorf("pushed by 15, -20 it lies at %v, want %v", now, want)
	}
	view := in(m).View
	for _, bad := range [][2]string{{"", ""}, {"NaN 1", "1 1"}, {"1 1", "x"}, {"1", "2 2"}} {
		turn(bad[0], bad[1])
	}
	if in(m).View != view {
		t.Error("a turn that is none moved the block")
	}
}

// A phone turned in mid-stroke ends the line where the hand was: all of it lies
// where it was drawn. A bar of the browser that slides away disturbs nothing.
func TestTurnedInMidStroke(t *testing.T) {
	for name, to := range map[string]game.Resized{"turned": {W: 700, H: 1000, DPR: 1}, "bar": {W: 1000, H: 650, DPR: 1}} {
		m := square()
		view := in(m).View
		for i := range 20 {
			kind := game.Move
			if i == 0 {
				kind = game.Down
			}
			m = touch(m, kind, 1, view.ToScreen(geom.Pt(30+3*float64(i), 40)))
		}
		m, _ = worktest.Update(m, to)
		end := 30 + 3*19.0
		if name == "bar" {
			end += 9
		}
		m = touch(m, game.Move, 1, view.ToScreen(geom.Pt(30+3*22, 40)))
		m = touch(m, game.Up, 1, view.ToScreen(geom.Pt(30+3*22, 40)))
		if len(in(m).Board.Design.Lines) != 1 {
			t.Fatalf("%s: %d lines", name, len(in(m).Board.Design.Lines))
		}
		lo, hi := in(m).Board.Design.Lines[0].Path.Bounds()
		if want := fmt.Sprintf("30 40 %.0f 40", end); fmt.Sprintf("%.0f %.0f %.0f %.0f", lo.X, lo.Y, hi.X, hi.Y) != want {
			t.Errorf("%s: the line lies from %v to %v, want %s", name, lo, hi, want)
		}
		if said := in(m).Board.Said.Key == "draw.view-changed"; said != (name == "turned") {
			t.Errorf("%s: the page says %v", name, in(m).Board.Said)
		}
		if name == "bar" && in(m).View == view {
			t.Error("the block is not fitted to the new size after the stroke")
		}
	}
}

// The pictures of the motifs are open on an empty block and fold away when one has
// been chosen or a line drawn; the button opens and folds them at any time.
func TestThePicturesFoldAway(t *testing.T) {
	m := drawing()
	if !in(m).Picking() {
		t.Fatal("an empty block shows no motifs")
	}
	drawn, _ := pencil(m, geom.Pt(10, 10), geom.Pt(40, 12), geom.Pt(70, 30))
	if in(drawn).Picking() {
		t.Error("the pictures stay open beside a drawn line")
	}
	m, _ = worktest.Update(drawing(), game.Control{Name: "draw.pattern", Value: "feather"})
	if in(m).Picking() || m.Focus.To != string(draw.PickFocus) {
		t.Errorf("after a choice the pictures are open (%v), the keyboard at %q", in(m).Picking(), m.Focus.To)
	}
	for _, open := range []bool{true, false} {
		if m, _ = worktest.Update(m, game.Control{Name: "draw.pick"}); in(m).Picking() != open {
			t.Errorf("the button leaves the pictures open: %v, want %v", in(m).Picking(), open)
		}
	}
}

// A hand that rests on the screen while its pen draws, or just before, changes
// nothing: the pen's line is drawn whole and the block stays where it is.
func TestTheHandThatHoldsThePen(t *testing.T) {
	for _, first := range []bool{true, false} {
		m := square()
		view := in(m).View
		pen := func(kind game.PointerKind, mm float64) {
			at := view.ToScreen(geom.Pt(30+mm, 40))
			m, _ = worktest.Update(m, game.Pointer{Kind: kind, ID: 9, Device: trace.Pen, X: at.X, Y: at.Y})
		}
		rest := geom.Pt(700, 500)
		if first {
			m = touch(m, game.Down, 1, rest)
		}
		pen(game.Down, 0)
		if !first {
			m = touch(m, game.Down, 1, rest)
		}
		for i := range 20 {
			pen(game.Move, 3*float64(i))
			m = touch(m, game.Move, 1, r2.Add(rest, geom.Pt(float64(i), 0)))
		}
		pen(game.Up, 57)
		m = touch(m, game.Up, 1, rest)
		lines := in(m).Board.Design.Lines
		if len(lines) != 1 || math.Abs(lines[0].Path.Length()-57) > 0.5 || in(m).View != view {
			t.Errorf("resting first: %v: %d lines, want one of 57 mm", first, len(lines))
		}
	}
}
