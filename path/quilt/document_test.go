package quilt

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// drawn returns a design with a recipe and a ruler line with dots.
func drawn() Design {
	return Design{
		Schema: DesignSchema, ID: "d1", Name: "Kite", Shape: motif.Shape{Kind: motif.Square, W: 150}, Margin: 6,
		Seams:  motif.FourPatch,
		Recipe: &Recipe{Pattern: "crosshatch", Values: motif.Values{"spacing": 25}},
		Lines: []Line{
			{Name: "tail", Kind: "ruler", Path: geom.Straight(geom.MustParse("M 10 10 L 130 10 L 130 90")), Dots: []float64{0, 120, 200}},
			{Name: "bow", Kind: "sewn", Path: geom.Spline{geom.Pt(20, 20), geom.Pt(40, 0.125), geom.Pt(60, 40), geom.Pt(80, 1.0/3)}},
		},
	}
}

// What is written comes back the same, to the last bit.
func TestDocumentsComeBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := drawn()
		v := rapid.Float64Range(-200, 200)
		for range rapid.IntRange(0, 5).Draw(rt, "lines") {
			l := Line{Name: rapid.String().Draw(rt, "name"), Kind: "seam", Path: geom.Spline{{}}}
			for range rapid.IntRange(1, 4).Draw(rt, "pieces") {
				l.Path = l.Path.LineTo(geom.Pt(v.Draw(rt, "x"), v.Draw(rt, "y")))
			}
			if len(l.Name) <= MaxName && l.validate() == nil && l.Name == strings.ToValidUTF8(l.Name, "") {
				d.Lines = append(d.Lines, l)
			}
		}
		doc, err := EncodeDesign(d)
		if err != nil {
			rt.Fatal(err)
		}
		if back, err := DecodeDesign(doc); err != nil || !reflect.DeepEqual(back, d) {
			rt.Fatalf("came back as %+v (%v), was %+v", back, err, d)
		}
		q := drawQuilt(rt)
		q = q.PlaceAll(Block, Choice{"d1", 2}).Place("block-1-1", Choice{})
		if doc, err = EncodeQuilt(q); err != nil {
			rt.Fatal(err)
		}
		if back, err := DecodeQuilt(doc); err != nil || !reflect.DeepEqual(back, q) {
			rt.Fatalf("came back as %+v (%v), was %+v", back, err, q)
		}
	})
}

// Every document that was ever written opens, and what it holds can be laid out.
func TestKeptDocumentsOpen(t *testing.T) {
	files, err := filepath.Glob("../../testdata/quilt/documents/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no files (%v)", err)
	}
	for _, file := range files {
		doc, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		switch name := filepath.Base(file); {
		case strings.HasPrefix(name, "design-"):
			d, err := DecodeDesign(doc)
			if err != nil {
				t.Errorf("%s: %v", name, err)
			} else if pieces, err := d.Pieces(); err != nil || len(pieces) <= len(d.Lines) {
				t.Errorf("%s: %d pieces (%v) of %d lines, an outline and seams", name, len(pieces), err, len(d.Lines))
			}
		case strings.HasPrefix(name, "quilt-"):
			q, err := DecodeQuilt(doc)
			if err != nil {
				t.Errorf("%s: %v", name, err)
			} else if len(q.Cells()) < q.Rows*q.Cols {
				t.Errorf("%s: %d places for %d x %d blocks", name, len(q.Cells()), q.Rows, q.Cols)
			}
		default:
			t.Errorf("%s: neither a design nor a quilt by its name", name)
		}
	}
}

// A document of a newer form is refused as such, whatever it holds, and a member
// that this form does not know would be lost and is refused too.
func TestNewerDocumentsAreToldApart(t *testing.T) {
	newer := []byte(`{"schema": 3, "id": "z", "shape": ["something else"], "aura": 1}`)
	before := bytes.Clone(newer)
	if _, err := DecodeDesign(newer); !errors.Is(err, ErrNewer) || !strings.Contains(err.Error(), `design "z"`) {
		t.Errorf("design: %v", err)
	}
	if _, err := DecodeQuilt(newer); !errors.Is(err, ErrNewer) || !strings.Contains(err.Error(), `quilt "z"`) {
		t.Errorf("quilt: %v", err)
	}
	if !bytes.Equal(newer, before) {
		t.Error("the document was changed")
	}
	doc, err := EncodeDesign(drawn())
	if err != nil {
		t.Fatal(err)
	}
	for from, to := range map[string]string{`"margin_mm"`: `"aura":1,"margin_mm"`, `"kind":"ruler"`: `"aura":1,"kind":"ruler"`} {
		strange := bytes.Replace(doc, []byte(from), []byte(to), 1)
		if _, err := DecodeDesign(strange); err == nil || errors.Is(err, ErrNewer) || !strings.Contains(err.Error(), "aura") {
			t.Errorf("an unknown member before %s: %v", from, err)
		}
	}
	for _, doc := range []string{"", "null", "[]", "{}", `{"schema":0,"id":"a"}`, string(doc) + "{}"} {
		if _, err := DecodeDesign([]byte(doc)); err == nil || errors.Is(err, ErrNewer) {
			t.Errorf("%.20q: %v", doc, err)
		}
	}
}

func TestDesignErrorsNameTheField(t *testing.T) {
	for want, spoil := range map[string]func(*Design){
		"schema: it names no form (0)": func(d *Design) { d.Schema = 0 },
		"id: 0 bytes":                  func(d *Design) { d.ID = "" },
		"name: 201 bytes":              func(d *Design) { d.Name = strings.Repeat("x", 201) },
		"shape: ":                      func(d *Design) { d.Shape.W = 1 },
		"margin_mm: -1":                func(d *Design) { d.Margin = -1 },
		"margin_mm: 75":                func(d *Design) { d.Margin = 75 },
		"seams: ":                      func(d *Design) { d.Seams = "cobweb" },
		`recipe.pattern: there is no ready motif "x"`: func(d *Design) { d.Recipe.Pattern = "x" },
		`"aura"`:                                   func(d *Design) { d.Recipe.Values = motif.Values{"aura": 1} },
		`lines[1].kind: "dotted"`:                  func(d *Design) { d.Lines[1].Kind = "dotted" },
		"lines[0].name: 201":                       func(d *Design) { d.Lines[0].Name = strings.Repeat("x", 201) },
		"lines[1].path_mm: a spline of 3":          func(d *Design) { d.Lines[1].Path = d.Lines[1].Path[:3] },
		"lines[1].path_mm: point 2 at (20000, 40)": func(d *Design) { d.Lines[1].Path[2].X = 2e4 },
		"lines[0].dots_mm: dot 2":                  func(d *Design) { d.Lines[0].Dots[2] = 300 },
		"lines[1].dots_mm: a line needs":           func(d *Design) { d.Lines[1].Path = make(geom.Spline, 4) },
		"lines: 2001, at most 2000":                func(d *Design) { d.Lines = make([]Line, 2001) },
		"lines[1]: with it there are 60014":        func(d *Design) { d.Lines[1].Path = make(geom.Spline, 60004) },
	} {
		d := drawn()
		spoil(&d)
		if err := d.Validate(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want %q", err, want)
		}
	}
	d := drawn()
	d.Margin = -1
	if _, err := EncodeDesign(d); err == nil || !strings.Contains(err.Error(), `design "d1": margin_mm`) {
		t.Errorf("written all the same: %v", err)
	}
}

func TestQuiltErrorsNameTheField(t *testing.T) {
	for want, spoil := range map[string]func(*Quilt){
		"id: 0 bytes":                         func(q *Quilt) { q.ID = "" },
		`setting: "askew"`:                    func(q *Quilt) { q.Setting = "askew" },
		"rows: 0":                             func(q *Quilt) { q.Rows = 0 },
		"cols: 41":                            func(q *Quilt) { q.Cols = 41 },
		`alternate: "odd"`:                    func(q *Quilt) { q.Alternate = "odd" },
		"block_mm: 9 ":                        func(q *Quilt) { q.BlockMM = 9 },
		"block_mm: the top adds up to 450 x ": func(q *Quilt) { q.Rows = 40 },
		"sashing.width_mm: -2":                func(q *Quilt) { q.Sashing.WidthMM = -2 },
		"borders[1].width_mm: 3":              func(q *Quilt) { q.Borders = []Border{{WidthMM: 30}, {WidthMM: 3}} },
		"borders: 9, at most 8":               func(q *Quilt) { q.Borders = make([]Border, 9) },
		"gap_mm: -1":                          func(q *Quilt) { q.GapMM = -1 },
		`by_kind["block"].quarter_turns: 4`:   func(q *Quilt) { q.ByKind = map[Kind]Choice{Block: {QuarterTurns: 4}} },
		`by_cell["b"].design: 201 bytes`:      func(q *Quilt) { q.ByCell = map[string]Choice{"b": {Design: strings.Repeat("x", 201)}} },
		`by_cell[""]: a name of 0 bytes`:      func(q *Quilt) { q.ByCell = map[string]Choice{"": {}} },
	} {
		q := plain(Straight, 2, 3)
		spoil(&q)
		if err := q.Validate(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want %q", err, want)
		}
	}
	q := plain(OnPoint, 1, 1)
	q.BlockMM = 19
	if err := q.Validate(); err == nil || !strings.Contains(err.Error(), "block_mm: 19 is not between 20") {
		t.Errorf("a block of 19 mm on point: %v", err)
	}
}

// Nothing that is read breaks the reader; what is taken can be written again, and
// its lines stay in bounds.
func FuzzDecodeDesign(f *testing.F) {
	doc, err := EncodeDesign(drawn())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(doc)
	f.Add([]byte(`{"schema":1,"id":"a","shape":{"kind":"circle","w":90},"margin_mm":0,"seams":"none"}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		d, err := DecodeDesign(doc)
		if err != nil {
			return
		}
		again, err := EncodeDesign(d)
		if err != nil {
			t.Fatalf("%+v cannot be written: %v", d, err)
		}
		if back, err := DecodeDesign(again); err != nil || len(back.Lines) != len(d.Lines) {
			t.Fatalf("%s came back as %+v (%v)", again, back, err)
		}
		if pieces, err := d.Pieces(); err == nil && len(pieces) < len(d.Lines)+1 {
			t.Fatalf("%d pieces of %d lines and an outline", len(pieces), len(d.Lines))
		}
	})
}

func FuzzDecodeQuilt(f *testing.F) {
	q, _ := Demo()
	doc, err := EncodeQuilt(q)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(doc)
	f.Add([]byte(`{"schema":1,"id":"a","setting":"on-point","rows":2,"cols":1,"block_mm":100,"sashing":{"width_mm":20}}`))
	f.Fuzz(func(t *testing.T, doc []byte) {
		q, err := DecodeQuilt(doc)
		if err != nil {
			return
		}
		if _, err := EncodeQuilt(q); err != nil {
			t.Fatalf("%+v cannot be written: %v", q, err)
		}
		var area float64
		for _, c := range q.Cells() {
			area += c.Shape.Area()
		}
		if size := q.Size(); !(area > 0.999*size.W*size.H && area < 1.001*size.W*size.H) {
			t.Fatalf("places of %v mm^2 on a top of %v", area, size)
		}
	})
}
