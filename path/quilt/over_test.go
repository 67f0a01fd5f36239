package quilt

import (
	"bytes"
	"os"
	"testing"

	"unthreaded/path/motif"
)

func recipeOf(id string) Recipe {
	m, _ := motif.Find(id)
	return Recipe{Pattern: id, Version: m.Version}
}

// A document of form 1 opens with no lines over its places, and all else as it was; written
// anew it is of form 2 and the same quilt.
func TestQuiltsOfFormOneOpen(t *testing.T) {
	for _, name := range []string{"quilt-v1-cot.json", "quilt-v1-on-point.json"} {
		doc, err := os.ReadFile("../../testdata/quilt/documents/" + name)
		if err != nil {
			t.Fatal(err)
		}
		q, err := DecodeQuilt(doc)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if q.Overall != nil || q.Borders[0].Line != nil || len(q.ByKind) == 0 || len(q.Borders) != 1 || !q.Borders[0].Corners {
			t.Errorf("%s: %+v", name, q)
		}
		again, err := EncodeQuilt(q)
		if err != nil || !bytes.Contains(again, []byte(`"schema":2`)) {
			t.Fatalf("%s: %v", name, err)
		}
		back, err := DecodeQuilt(again)
		if err != nil || len(back.Lay(nil).Overs) != 0 || back.BlockMM != q.BlockMM || back.ByKind[Block] != q.ByKind[Block] {
			t.Errorf("%s comes back as %+v (%v)", name, back, err)
		}
	}
}

// A line over the top takes its places and no others, and gives them back with all that was
// chosen for them.
func TestLinesOverTheTopCoverTheirPlaces(t *testing.T) {
	q := plain(Straight, 3, 2)
	q.Sashing = Sashing{WidthMM: 25}
	q.Borders = []Border{{WidthMM: 40}, {WidthMM: 80, Corners: true}}
	designs := Designs{"long": marked("long", motif.Shape{Kind: motif.Rectangle, W: 500, H: 80}, "M 0 0 L 500 40"),
		"square": {Schema: DesignSchema, ID: "square", Name: "square", Shape: motif.Shape{Kind: motif.Square, W: 90}, Recipe: &Recipe{Pattern: "crosshatch"}}}
	for _, k := range q.Kinds() {
		q = q.PlaceAll(k, Choice{Design: "square"})
	}
	bare := q.Lay(designs)
	waves, ribbon := Overall{Recipe: recipeOf("waves")}, recipeOf("ribbon")
	within := waves
	within.Within = true
	for name, c := range map[string]struct {
		overall *Overall
		line    *Recipe
		covered func(k Kind) bool
		border  bool
	}{
		"over all":              {&waves, &ribbon, func(Kind) bool { return true }, false},
		"within the borders":    {&within, nil, func(k Kind) bool { n, _ := k.Border(); return n == 0 }, false},
		"a border":              {nil, &ribbon, func(k Kind) bool { n, _ := k.Border(); return n == 2 }, true},
		"within, and a border":  {&within, &ribbon, func(k Kind) bool { n, _ := k.Border(); return n != 1 }, true},
		"nothing lies over it.": {nil, nil, func(Kind) bool { return false }, false},
	} {
		over := q
		over.Borders = append([]Border(nil), q.Borders...)
		over.Overall, over.Borders[1].Line = c.overall, c.line
		if err := over.Validate(); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		l := over.Lay(designs)
		want := 0
		for _, p := range bare.Placed {
			if !c.covered(bare.Cells[p.Cell].Kind) {
				want++
			}
		}
		if len(l.Placed) != want || len(l.OverMisfits) != 0 {
			t.Errorf("%s: %d designs lie there, want %d; %v", name, len(l.Placed), want, l.OverMisfits)
		}
		rows, borders := 0, 0
		for _, o := range l.Overs {
			if o.Border < 0 {
				rows++
			} else {
				borders++
			}
		}
		if (rows > 1) != (c.overall != nil) || (borders == 1) != c.border {
			t.Errorf("%s: %d rows and %d borders lie over it", name, rows, borders)
		}
		if len(over.ByKind) != len(q.ByKind) {
			t.Errorf("%s: choices were dropped", name)
		}
	}
}

// What cannot lie over a top is refused in a document, and told where it does not fit.
func TestLinesOverTheTopThatCannotLie(t *testing.T) {
	q := plain(Straight, 2, 2)
	q.Overall = &Overall{Recipe: recipeOf("crosshatch")}
	if q.Validate() == nil {
		t.Error("crosshatch runs from edge to edge")
	}
	q.Overall = nil
	stipple := recipeOf("stipple")
	q.Borders = []Border{{WidthMM: 60, Line: &stipple}}
	if q.Validate() == nil {
		t.Error("stipple goes round a border")
	}
	ribbon := recipeOf("ribbon")
	q.Borders[0] = Border{WidthMM: MinPartMM, Line: &ribbon}
	if err := q.Validate(); err != nil {
		t.Fatal(err)
	}
	if l := q.Lay(nil); len(l.OverMisfits) != 1 || l.OverMisfits[0].Border != 0 {
		t.Errorf("a border of %d mm holds a ribbon: %v", MinPartMM, l.OverMisfits)
	}
}
