package scene_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"unthreaded/game"
	"unthreaded/game/glyph"
	"unthreaded/game/scene"
	"unthreaded/game/worktest"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// named is a name on the screen with the room that its letters take, as wide as the
// font has them.
type named struct {
	text   string
	lo, hi geom.Point
}

// namesOn returns the names of marks as they are seen, and how large the line is shown.
func namesOn(l scene.List) []named {
	var out []named
	take := func(items []scene.Item, shift geom.Point) {
		for _, it := range items {
			if it.Shape != scene.Label {
				continue
			}
			p := geom.Pt(it.Points[0].X+shift.X, it.Points[0].Y+shift.Y)
			w, h := glyph.Width(it.Text, it.Width), it.Width*0.75 // capitals and what hangs below
			switch it.Align {
			case scene.Left:
				p.X += w / 2
			case scene.Right:
				p.X -= w / 2
			}
			out = append(out, named{it.Text, geom.Pt(p.X-w/2, p.Y-h/2), geom.Pt(p.X+w/2, p.Y+h/2)})
		}
	}
	for i, layer := range l.Layers {
		take(layer.Items, l.Offset(i))
	}
	take(l.Moving, geom.Point{})
	return out
}

// On every continuous row, at three sizes, as many in the row as fit and as many as there
// can be, in both ways of moving: no name hides the line, another name or is cut.
func TestNamesHideNothing(t *testing.T) {
	tablet := game.Resized{W: 820, H: 560, Strip: 112, DPR: 1}
	for _, mo := range motif.ToRehearse() {
		r := mo.Rehearsal()
		if r.Max == 1 || !mo.Continuous {
			continue // it fills a block, or lies over itself, and leaves no room
		}
		for _, screen := range []game.Resized{small, tablet, laptop} {
			for _, repeats := range []int{0, r.Max} {
				if r.ID == "square-spiral" && repeats > 0 {
					continue // it winds over the whole cloth and leaves no room
				}
				for _, way := range []string{"pencil", "cloth"} {
					m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), screen)
					m, _ = worktest.Update(m, game.Control{Name: "motif", Value: r.ID})
					m, _ = worktest.Update(m, game.Control{Name: "repeats", Value: fmt.Sprint(repeats)})
					m = chosen(m, "way", way)
					t.Run(fmt.Sprintf("%s/%v/%d/%s", r.ID, screen.W, repeats, way), func(t *testing.T) { nothingHidden(t, m) })
				}
			}
		}
	}
}

// The cloth says how much smaller than true size the line is shown: the share of it that
// the line's own length takes on the screen, at 96 CSS pixels to the inch (CSS Values 4).
// At true size it says nothing.
func TestTheClothSaysItsScale(t *testing.T) {
	for _, repeats := range []string{"1", "8"} {
		m, _ := worktest.Update(game.New(game.DefaultSettings(), 0), small)
		m, _ = worktest.Update(m, game.Control{Name: "repeats", Value: repeats})
		a, b := m.Sight().ToScreen(geom.Pt(0, 0)), m.Sight().ToScreen(geom.Pt(25.4, 0))
		want := fmt.Sprintf("about %.0f %% of true size", 100*(b.X-a.X)/96)
		if repeats == "1" {
			want = ""
		}
		got := ""
		for _, n := range namesOn(fresh(m)) {
			if strings.HasSuffix(n.text, "true size") {
				got = n.text
			}
		}
		if got != want {
			t.Errorf("%s in the row: %q, want %q", repeats, got, want)
		}
	}
}

func nothingHidden(t *testing.T, m game.Model) {
	names := namesOn(fresh(m))
	shift := m.Rehearsal().Shift()
	for _, a := range names {
		if _, err := strconv.Atoi(a.text); err == nil || strings.HasPrefix(a.text, "Your hand speed") {
			continue // dots stand where they are, the strip has nothing beside it
		}
		for _, b := range names {
			if a != b && a.lo.X < b.hi.X && b.lo.X < a.hi.X && a.lo.Y < b.hi.Y && b.lo.Y < a.hi.Y {
				t.Errorf("%q lies on %q", a.text, b.text)
			}
		}
		if m.Rehearsal().UnderNeedle() && a.text == "End" {
			continue // it may come into sight later
		}
		if a.lo.X < 0 || a.hi.X > m.Screen.W || a.lo.Y < 0 || a.hi.Y > m.Screen.H {
			t.Errorf("%q is cut: from %v to %v", a.text, a.lo, a.hi)
		}
		for s := 0.0; s <= m.Rehearsal().Line.Length(); s += 0.5 {
			p := m.Sight().ToScreen(m.Rehearsal().Line.At(s))
			if x, y := p.X+shift.X, p.Y+shift.Y; x > a.lo.X && x < a.hi.X && y > a.lo.Y && y < a.hi.Y {
				t.Errorf("%q hides the line at %.0f mm of %.0f", a.text, s, m.Rehearsal().Line.Length())
				break
			}
		}
	}
}
