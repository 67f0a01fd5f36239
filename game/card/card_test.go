package card

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/png"
	"io"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game"
	"unthreaded/game/bench"
	"unthreaded/game/glyph"
	"unthreaded/game/plan"
	"unthreaded/game/scene"
	"unthreaded/path/geom"
)

// atMachine is the place Machine with the route of a ready drawing, after some
// controls were used on the desk.
func atMachine(t testing.TB, drawing, paper string, desk ...game.Control) game.Model {
	t.Helper()
	key := fmt.Sprint(drawing, desk)
	m, ok := planned[key]
	if ok {
		m, _ = game.Update(m, game.Control{Name: "machine.paper", Value: paper})
		return m
	}
	m, _ = game.Update(game.New(game.DefaultSettings(), 0), game.Shelf{})
	all := append([]game.Control{{Name: "place", Value: "route"}, {Name: "drawing", Value: drawing}}, desk...)
	all = append(all, game.Control{Name: "place", Value: "machine"}, game.Control{Name: "machine.paper", Value: paper})
	for _, c := range all {
		m, _ = game.Update(m, c)
	}
	if m.Bench.Plan.ID != drawing || string(m.Bench.Mine.Paper) != paper {
		t.Fatalf("at the machine with %q on %q", m.Bench.Plan.ID, m.Bench.Mine.Paper)
	}
	planned[key] = m
	return m
}

// planned are the models made so far: to plan a route takes its time.
var planned = map[string]game.Model{}

// outAndBack chooses the route in two passes of a row.
func outAndBack(t testing.TB, paper string) game.Model {
	t.Helper()
	for i := range 2 {
		m := atMachine(t, "orange-peel-row", paper, game.Control{Name: "pick", Item: fmt.Sprint(i)})
		if m.Bench.Plan.OutAndBack {
			return m
		}
	}
	t.Fatal("no route of the row goes out and back")
	return game.Model{}
}

// bounds returns the box in mm of what an item draws, text by its measured width.
func bounds(it scene.Item) (lo, hi geom.Point) {
	lo, hi = geom.Polyline(it.Points).Bounds()
	dx, dy := it.Width/2, it.Width/2
	if it.Shape == scene.Label {
		w := glyph.Width(it.Text, it.Width)
		lo.X -= shift(it)
		hi.X = lo.X + w
		dx, dy = 0, it.Width*0.5
	}
	if it.Shape == scene.Fill {
		dx, dy = 0, 0
	}
	return geom.Pt((lo.X-dx)/Px, (lo.Y-dy)/Px), geom.Pt((hi.X+dx)/Px, (hi.Y+dy)/Px)
}

// Nothing on any page of any card lies in the part of the paper that printers do not
// reach: 5 mm at each edge.
func TestAllLiesOnThePaper(t *testing.T) {
	for _, d := range plan.Drawings() {
		for _, paper := range []string{"a4", "letter"} {
			m := atMachine(t, d.ID, paper)
			pages, err := Template(m)
			if err != nil {
				t.Fatal(err)
			}
			card, err := Route(m)
			if err != nil {
				t.Fatal(err)
			}
			for i, p := range append(pages, card) {
				onPaper(t, fmt.Sprintf("%s on %s, page %d", d.ID, paper, i), p)
			}
		}
	}
	m := outAndBack(t, "letter")
	p, err := Passes(m)
	if err != nil {
		t.Fatal(err)
	}
	onPaper(t, "passes", p)
}

func onPaper(t *testing.T, name string, p Page) {
	t.Helper()
	for k, it := range p.Items()[1:] { // the first is the ground
		lo, hi := bounds(it)
		if min(lo.X, lo.Y) < 5-0.01 || hi.X > p.W-5+0.01 || hi.Y > p.H-5+0.01 {
			t.Errorf("%s, item %d %q: from (%.1f, %.1f) to (%.1f, %.1f) mm of %.1f x %.1f", name, k, it.Text, lo.X, lo.Y, hi.X, hi.Y, p.W, p.H)
			return
		}
	}
}

// The sheets show every place of the drawing, neighbours share their crosses, and
// there are as many pages as said.
func TestTilesCoverTheDrawing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := geom.Pt(rapid.Float64Range(-500, 500).Draw(t, "x"), rapid.Float64Range(-500, 500).Draw(t, "y"))
		hi := geom.Pt(lo.X+rapid.Float64Range(0, 3000).Draw(t, "w"), lo.Y+rapid.Float64Range(0, 3000).Draw(t, "h"))
		for _, paper := range []string{"a4", "letter"} {
			g := tile(lo, hi, bench.Paper(paper))
			last := geom.Pt(g.x+covered(g.cols, g.w), g.y+covered(g.rows, g.h))
			if g.x > lo.X-edgeMM+1e-6 || g.y > lo.Y-edgeMM+1e-6 || last.X < hi.X+edgeMM-1e-6 || last.Y < hi.Y+edgeMM-1e-6 {
				t.Fatalf("%+v does not cover %v to %v", g, lo, hi)
			}
			// One sheet fewer either way would not.
			if g.cols > 1 && covered(g.cols-1, g.w) >= hi.X-lo.X+2*edgeMM || g.rows > 1 && covered(g.rows-1, g.h) >= hi.Y-lo.Y+2*edgeMM {
				t.Fatalf("%+v takes more sheets than needed for %v to %v", g, lo, hi)
			}
			c := g.cross(1, 1)
			if math.Abs(c.X-(g.x+g.w-Overlap/2)) > 1e-9 || math.Abs(c.Y-(g.y+g.h-Overlap/2)) > 1e-9 {
				t.Fatalf("the cross at %v is not in the middle of the overlap", c)
			}
		}
	})
}

// Clipping keeps what is inside and nothing else: against looking at each of many
// places along the path.
func TestClip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Float64Range(-50, 150)
		var path geom.Polyline
		for range rapid.IntRange(2, 6).Draw(t, "points") {
			path = append(path, geom.Pt(at.Draw(t, "x"), at.Draw(t, "y")))
		}
		win := window{from: geom.Pt(0, 0), to: geom.Pt(100, 80), dx: 7, dy: -3}
		length, inside := 0.0, 0.0
		for _, run := range win.clip(path) {
			length += run.Length()
			for _, p := range run {
				if q := geom.Pt(p.X-7, p.Y+3); !win.holds(q, -1e-6) {
					t.Fatalf("%v is left in", q)
				}
			}
		}
		const parts = 2000
		for i := 1; i < len(path); i++ {
			step := geom.Dist(path[i-1], path[i]) / parts
			for k := range parts {
				if win.holds(geom.Lerp(path[i-1], path[i], (float64(k)+0.5)/parts), 0) {
					inside += step
				}
			}
		}
		if math.Abs(length-inside) > 0.02*float64(len(path))*10 {
			t.Fatalf("%.2f mm are left, %.2f lie inside", length, inside)
		}
	})
}

// Text is broken so that each line fits, and no letter of it is lost.
func TestWrapped(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.RuneFrom([]rune("abc Wil .ÄßęЖ漢\t"))).Draw(t, "text")
		width := rapid.Float64Range(6, 80).Draw(t, "width")
		squeeze := func(s string) string { return strings.Join(strings.Fields(s), "") }
		var all string
		for _, l := range wrapped(text, 14, width) {
			if glyph.Width(l, 14) > width*Px+0.01 {
				t.Fatalf("%q is wider than %v mm", l, width)
			}
			all += l
		}
		if squeeze(all) != squeeze(glyph.Shown(text)) {
			t.Fatalf("%q became %q", text, all)
		}
	})
}

// The SVG is well-formed XML whose size is in mm (W3C Recommendation, SVG 1.1, 7.2:
// units), the picture two pixels for each CSS pixel.
func TestOtherForms(t *testing.T) {
	m := atMachine(t, "diamonds", "letter")
	f, err := Make(m, game.RouteCard, game.SVG)
	if err != nil {
		t.Fatal(err)
	}
	texts := 0
	for dec := xml.NewDecoder(bytes.NewReader(f.Data)); ; {
		tok, err := dec.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if el, ok := tok.(xml.StartElement); ok && el.Name.Local == "text" {
			texts++
		}
	}
	if !bytes.Contains(f.Data, []byte(`width="215.9mm" height="279.4mm"`)) || texts < 20 {
		t.Errorf("%d texts in %.120s", texts, f.Data)
	}
	if f, err = Make(m, game.RouteCard, game.PNG); err != nil {
		t.Fatal(err)
	}
	size, err := png.DecodeConfig(bytes.NewReader(f.Data))
	if err != nil || size.Width != 1632 || size.Height != 2112 { // 8.5 and 11 in at 192 px
		t.Errorf("the picture is %d x %d (%v)", size.Width, size.Height, err)
	}
	for _, c := range []struct {
		what game.CardKind
		as   game.FileKind
	}{{"poster", "pdf"}, {"route", "gif"}, {"passes", "pdf"}} {
		if _, err := Make(m, c.what, c.as); err == nil {
			t.Errorf("%s as %s was made", c.what, c.as)
		}
	}
	if _, err := Make(game.New(game.DefaultSettings(), 0), game.RouteCard, game.PDF); err == nil {
		t.Error("a card was made without a plan")
	}
	if _, err := PDF("empty", nil); err == nil {
		t.Error("a document without pages was made")
	}
}

func TestCrossNames(t *testing.T) {
	for _, c := range []struct {
		i, j int
		want string
	}{{0, 0, "A1"}, {25, 9, "Z10"}, {26, 0, "AA1"}, {51, 0, "AZ1"}, {52, 0, "BA1"}} {
		if got := crossName(c.i, c.j); got != c.want {
			t.Errorf("(%d, %d) is %q, want %q", c.i, c.j, got, c.want)
		}
	}
}
