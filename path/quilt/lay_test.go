package quilt

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/plane"
)

// marked returns a design of a shape with one drawn line.
func marked(id string, s motif.Shape, path string) Design {
	return Design{
		Schema: DesignSchema, ID: id, Name: id, Shape: s, Seams: motif.NoSeams,
		Lines: []Line{{Name: "mark", Kind: "sewn", Path: geom.Straight(geom.MustParse(path))}},
	}
}

// A design lies within its place whatever it was drawn for, and its outline covers
// the outline of the place corner for corner.
func TestDesignsLieInTheirPlaces(t *testing.T) {
	designs := Designs{
		"square":   marked("square", motif.Shape{Kind: motif.Square, W: 100}, "M 0 0 L 100 30"),
		"point":    marked("point", motif.Shape{Kind: motif.OnPoint, W: 150}, "M 106 1 L 106 211"),
		"half":     marked("half", motif.Shape{Kind: motif.HalfSquare, W: 150}, "M 0 0 L 0 150"),
		"setting":  marked("setting", motif.Shape{Kind: motif.SettingTriangle, W: 90}, "M 0 45 L 90 45"),
		"long":     marked("long", motif.Shape{Kind: motif.Rectangle, W: 300, H: 40}, "M 0 0 L 300 40"),
		"fountain": {Schema: 1, ID: "fountain", Name: "fountain", Shape: motif.Shape{Kind: motif.Square, W: 90}, Margin: 5, Recipe: &Recipe{Pattern: "crosshatch"}},
	}
	for _, id := range sortedKeys(designs) {
		for _, s := range []Setting{Straight, OnPoint} {
			q := plain(s, 2, 2)
			q.Sashing = Sashing{WidthMM: 20}
			q.Borders = []Border{{WidthMM: 48, Corners: true}}
			for _, k := range q.Kinds() {
				q = q.PlaceAll(k, Choice{Design: id})
			}
			l := q.Lay(designs)
			triangle := id == "half" || id == "setting"
			if some := s == OnPoint || !triangle; len(l.Placed)+len(l.Misfits) != len(l.Cells) || some != (len(l.Placed) > 0) {
				t.Fatalf("%s, %s: %d laid and %d not, of %d", id, s, len(l.Placed), len(l.Misfits), len(l.Cells))
			}
			for _, p := range l.Placed {
				cell, work := l.Cells[p.Cell], l.Works[p.Work]
				for _, corner := range p.Where.Path(work.Design.Shape.Outline()) {
					if d := nearestPoint(corner, cell.Outline()); d > 0.02 {
						t.Errorf("%s in %s: a corner of the design lies %v mm from any of the place", id, cell.ID, d)
					}
				}
				for _, piece := range work.Pieces {
					for _, at := range p.Where.Path(piece.Path) {
						if !inCell(cell, geom.Lerp(at, cell.Where.Apply(middle(cell.Shape)), 1e-4)) {
							t.Errorf("%s leaves %s at %v", id, cell.ID, at)
						}
					}
				}
			}
		}
	}
}

func nearestPoint(p geom.Point, pl geom.Polyline) float64 {
	least := math.Inf(1)
	for _, q := range pl {
		least = math.Min(least, geom.Dist(p, q))
	}
	return least
}

// What lies where: alike shapes as they are, ready motifs fitted anew, drawn lines
// scaled in similar places and refused in others, with the reason.
func TestWhatFitsWhere(t *testing.T) {
	line := marked("line", motif.Shape{Kind: motif.Square, W: 75}, "M 0 0 L 75 75")
	ready := Design{Schema: 1, ID: "ready", Name: "ready", Shape: motif.Shape{Kind: motif.Square, W: 75}, Recipe: &Recipe{Pattern: "crosshatch", Values: motif.Values{"spacing": 25}}}
	designs := Designs{"line": line, "ready": ready}
	q := plain(Straight, 1, 2)
	q.Sashing.WidthMM = 30
	for _, c := range []struct {
		cell, design string
		turns        int
		scale        float64
		own          bool
		placed       string
		misfit       Unfit
	}{
		{cell: "block-1-1", design: "line", scale: 2, own: true},
		{cell: "block-1-1", design: "line", turns: 3, scale: 2, own: true},
		{cell: "block-1-1", design: "ready", scale: 1},
		{cell: "upright-1-1", design: "ready", scale: 1},
		{cell: "upright-1-1", design: "ready", turns: 2, scale: 1},
		{cell: "upright-1-1", design: "ready", turns: 1, misfit: HalfTurns},
		{cell: "upright-1-1", design: "line", misfit: OtherShape},
		{cell: "block-1-2", design: "lost", misfit: Gone},
	} {
		l := q.Place(c.cell, Choice{c.design, c.turns}).Lay(designs)
		if c.misfit != "" {
			if len(l.Misfits) != 1 || l.Misfits[0].Cell != c.cell || l.Misfits[0].Why != c.misfit {
				t.Errorf("%s in %s: %v, want %q", c.design, c.cell, l.Misfits, c.misfit)
			}
			continue
		}
		if len(l.Placed) != 1 || len(l.Misfits) != 0 {
			t.Errorf("%s in %s: %+v", c.design, c.cell, l.Misfits)
			continue
		}
		if p := l.Placed[0]; math.Abs(p.Where.Scale-c.scale) > 1e-12 || l.Works[p.Work].Own != c.own {
			t.Errorf("%s in %s: scale %v, own %v", c.design, c.cell, p.Where.Scale, l.Works[p.Work].Own)
		}
		if n := len(l.Placements(c.design)); (n == 1) != c.own {
			t.Errorf("%s in %s: %d places for its traces", c.design, c.cell, n)
		}
	}
}

// A quarter turn clockwise brings the upper left corner to the upper right.
func TestQuarterTurns(t *testing.T) {
	designs := Designs{"d": marked("d", motif.Shape{Kind: motif.Square, W: 150}, "M 0 0 L 75 75")}
	q := plain(Straight, 1, 1)
	for turns, want := range []geom.Point{geom.Pt(0, 0), geom.Pt(150, 0), geom.Pt(150, 150), geom.Pt(0, 150)} {
		l := q.Place("block-1-1", Choice{"d", turns}).Lay(designs)
		if got := l.Placed[0].Where.Apply(geom.Point{}); geom.Dist(got, want) > 1e-9 {
			t.Errorf("%d turns: the corner lies at %v, want %v", turns, got, want)
		}
	}
}

// A trace recorded over a block's line lies on that line in every place.
func TestTracesLieOnTheLines(t *testing.T) {
	q, designs := Demo()
	l := q.Lay(designs)
	byCell := map[string][]motif.Piece{}
	for _, p := range l.Lines() {
		if !p.Seam {
			byCell[p.Block] = append(byCell[p.Block], p)
		}
	}
	for id, want := range map[string]int{"demo-lily": 10, "demo-ripples": 10, "demo-reeds": 31, "demo-stones": 4, "demo-bank": 2} {
		own, err := designs[id].Work()
		if err != nil {
			t.Fatal(err)
		}
		places := l.Placements(id)
		if len(places) != want {
			t.Errorf("%s lies in %d places, want %d", id, len(places), want)
		}
		for _, p := range places {
			cell := l.Cells[p.Cell].ID
			for i, at := range p.Where.Path(own[0].Path) {
				if d := geom.Dist(at, byCell[cell][0].Path[i]); d > 1e-9 {
					t.Fatalf("%s in %s: point %d is %v mm off its line", id, cell, i, d)
				}
			}
		}
	}
}

// The demo adds up to what it says, everything in it fits, nothing is empty but the
// cornerstones, and no gap breaks the batting's limit.
func TestDemo(t *testing.T) {
	q, designs := Demo()
	if err := q.Validate(); err != nil {
		t.Fatal(err)
	}
	for id, d := range designs {
		if err := d.Validate(); err != nil || d.ID != id {
			t.Errorf("%s: %v", id, err)
		}
	}
	size := q.Size()
	if !sameLength(size.W, 38*inch) || !sameLength(size.H, 46*inch) {
		t.Errorf("the top is %.2f x %.2f in, want 38 x 46", size.W/inch, size.H/inch)
	}
	l := q.Lay(designs)
	if len(l.Misfits) > 0 {
		t.Errorf("misfits: %v", l.Misfits)
	}
	if want := len(l.Cells) - 12; len(l.Placed) != want {
		t.Errorf("%d places are quilted, want all but 3 x 4 cornerstones: %d", len(l.Placed), want)
	}
	if len(designs) < 3 {
		t.Errorf("%d designs", len(designs))
	}
	outline := motif.Shape{Kind: motif.Rectangle, W: size.W, H: size.H}.Outline()
	gaps, err := plane.WideGaps(strokes(l), outline, q.GapMM, 3, plane.GapOptions{})
	if err != nil || len(gaps) > 0 {
		t.Errorf("gaps wider than %v mm: %v (%v)", q.GapMM, gaps, err)
	}
}

func strokes(l Laying) []plane.Stroke {
	var out []plane.Stroke
	for _, p := range l.Lines() {
		s := plane.Stroke{Name: p.Name, Kind: plane.Sewn, Block: p.Block, Path: p.Path, Length: p.Length}
		switch {
		case p.Seam:
			s.Kind = plane.Seam
		case p.Ruler:
			s.Kind = plane.Ruler
		}
		out = append(out, s)
	}
	return out
}

// Choosing for one place or for all leaves the quilt it was asked of as it was.
func TestChoicesCopy(t *testing.T) {
	q := plain(Straight, 2, 2)
	one := q.Place("block-1-1", Choice{Design: "a"})
	all := one.PlaceAll(Block, Choice{Design: "b"})
	late := all.Place("block-2-2", Choice{Design: "c"})
	for i, c := range late.Cells() {
		if got, want := fmt.Sprint(q.Choice(c).Design, one.Choice(c).Design, all.Choice(c).Design, late.Choice(c).Design), []string{"abb", "bb", "bb", "bc"}[i]; strings.ReplaceAll(got, " ", "") != want {
			t.Errorf("%s: %q, want %q", c.ID, got, want)
		}
	}
}

// A top of 1,600 blocks, traced: 5,000 lines and more.
func BenchmarkLay(b *testing.B) {
	q := plain(Straight, 40, 40)
	q.BlockMM = 50
	d := marked("d", motif.Shape{Kind: motif.Square, W: 50}, "M 0 0 L 50 50")
	d.Lines = append(d.Lines, d.Lines[0], d.Lines[0])
	q = q.PlaceAll(Block, Choice{Design: "d"})
	b.Run("lay", func(b *testing.B) {
		for b.Loop() {
			if n := len(q.Lay(Designs{"d": d}).Placements("d")); n != 1600 {
				b.Fatal(n)
			}
		}
	})
	l := q.Lay(Designs{"d": d})
	b.Run("lines", func(b *testing.B) {
		for b.Loop() {
			if n := len(l.Lines()); n != 1600*3+2*40*41 {
				b.Fatal(n)
			}
		}
	})
}
