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

	"unthreaded/game/glyph"
	"unthreaded/game/place/machine/bench"
	"unthreaded/game/plan"
	"unthreaded/game/scene"
	"unthreaded/game/sewing"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/machine"
)

// jobOf is the job of the route of a ready drawing, its steps and figures as the place
// Machine hands them over.
func jobOf(t testing.TB, drawing, paper string) sewing.Job {
	t.Helper()
	j, ok := planned[drawing]
	if !ok {
		d, found := plan.Find(plan.Drawings(), drawing)
		if !found {
			t.Fatalf("no drawing is called %q", drawing)
		}
		j = onDesk(t, plan.Open(d))
		planned[drawing] = j
	}
	j.W, j.H = bench.Paper(paper).Size()
	return j
}

// planned are the jobs made so far: to plan a route takes its time.
var planned = map[string]sewing.Job{}

// onDesk is the job of a route at 10 stitches per inch and 600 a minute.
func onDesk(t testing.TB, k plan.Desk) sewing.Job {
	t.Helper()
	p, err := bench.PlanOf(k)
	if err != nil {
		t.Fatal(err)
	}
	set := machine.Triangle{SPM: 600, Stitch: machine.StitchOf(10)}
	b := bench.New().Sew(p, nil, set)
	j := sewing.Job{ID: p.ID, Name: words.Book{}.Amount(p.Title), Desk: k, Book: words.Book{Inches: true}, Facts: b.Facts(set, k.Route().RetraceMM)}
	for _, i := range b.Items() {
		if i.Caution {
			j.Cautions = append(j.Cautions, words.Book{Inches: true}.Say("machine.item."+i.ID))
		}
	}
	return j
}

// outAndBack chooses the route in two passes of a row.
func outAndBack(t testing.TB, paper string) sewing.Job {
	t.Helper()
	k := jobOf(t, "orange-peel-row", paper).Desk
	for i := range 2 {
		if j := onDesk(t, k.Choose(i)); j.OutAndBack() {
			j.W, j.H = bench.Paper(paper).Size()
			return j
		}
	}
	t.Fatal("no route of the row goes out and back")
	return sewing.Job{}
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
			j := jobOf(t, d.ID, paper)
			for i, p := range append(Template(j), Route(j)) {
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
			w, h := bench.Paper(paper).Size()
			g := sewing.Tile(lo, hi, w, h)
			last := geom.Pt(g.X+sewing.Covered(g.Cols, g.W), g.Y+sewing.Covered(g.Rows, g.H))
			if g.X > lo.X-sewing.EdgeMM+1e-6 || g.Y > lo.Y-sewing.EdgeMM+1e-6 || last.X < hi.X+sewing.EdgeMM-1e-6 || last.Y < hi.Y+sewing.EdgeMM-1e-6 {
				t.Fatalf("%+v does not cover %v to %v", g, lo, hi)
			}
			// One sheet fewer either way would not.
			if g.Cols > 1 && sewing.Covered(g.Cols-1, g.W) >= hi.X-lo.X+2*sewing.EdgeMM || g.Rows > 1 && sewing.Covered(g.Rows-1, g.H) >= hi.Y-lo.Y+2*sewing.EdgeMM {
				t.Fatalf("%+v takes more sheets than needed for %v to %v", g, lo, hi)
			}
			c := g.Cross(1, 1)
			if math.Abs(c.X-(g.X+g.W-sewing.Overlap/2)) > 1e-9 || math.Abs(c.Y-(g.Y+g.H-sewing.Overlap/2)) > 1e-9 {
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
	m := jobOf(t, "diamonds", "letter")
	f, err := Make(m, sewing.RouteCard, sewing.AsSVG)
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
	if f, err = Make(m, sewing.RouteCard, sewing.AsPNG); err != nil {
		t.Fatal(err)
	}
	size, err := png.DecodeConfig(bytes.NewReader(f.Data))
	if err != nil || size.Width != 1632 || size.Height != 2112 { // 8.5 and 11 in at 192 px
		t.Errorf("the picture is %d x %d (%v)", size.Width, size.Height, err)
	}
	for _, c := range []struct {
		what sewing.Kind
		as   sewing.Form
	}{{"poster", "pdf"}, {"route", "gif"}, {"passes", "pdf"}} {
		if _, err := Make(m, c.what, c.as); err == nil {
			t.Errorf("%s as %s was made", c.what, c.as)
		}
	}
	if _, err := Make(sewing.Job{}, sewing.RouteCard, sewing.AsPDF); err == nil {
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

// The order in words stands on a card whole or not at all.
func TestTheOrderInWordsIsWhole(t *testing.T) {
	whole := 0
	for _, d := range plan.Drawings() {
		j := jobOf(t, d.ID, "letter")
		text := written(Route(j))
		told := strings.Contains(text, j.Book.Say("card.order"))
		if told {
			whole++
		}
		for _, l := range gathered(j.Desk.Order(), j.Book) {
			if told && !strings.Contains(text, l) {
				t.Errorf("%s: the order in words lacks %q", d.ID, l)
			}
		}
	}
	if whole == 0 || whole == len(plan.Drawings()) {
		t.Errorf("%d of %d cards have the order in words, want some", whole, len(plan.Drawings()))
	}
}
