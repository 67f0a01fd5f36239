package top

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/game/plan"
	"unthreaded/path/geom"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

// Every row that is not a border can be laid level and planned, straight and on
// point; it is as high as its places and begins at (0, 0).
func TestEveryRowCanBePlanned(t *testing.T) {
	for _, setting := range []quilt.Setting{quilt.Straight, quilt.OnPoint} {
		q, designs := quilt.Demo()
		q.Setting, q.Rows, q.Cols = setting, 2, 2
		top := Open(q, designs)
		for r, row := range top.Rows {
			d, ok := top.RowDrawing(r, top.RowName(r))
			if border := top.rowWord(r) == "border"; ok == border {
				t.Errorf("%s, %s: a drawing %v", setting, top.RowName(r), ok)
			}
			if !ok {
				continue
			}
			var all geom.Polyline
			blocks := map[string]bool{}
			sewn := false
			for _, s := range d.Strokes() {
				all = append(all, s.Path...)
				blocks[s.Block] = true
				sewn = sewn || s.Kind.Must()
			}
			lo, hi := all.Bounds()
			high := 0.0
			for _, i := range row {
				_, h := top.Laying.Cells[i].Shape.Box()
				w, _ := top.Laying.Cells[i].Shape.Box()
				high = math.Max(high, math.Max(w, h))
			}
			if geom.Dist(lo, geom.Pt(0, 0)) > 1e-6 || hi.Y > high+1e-6 || len(blocks) != len(row) {
				t.Errorf("%s, %s: box %v to %v, %d blocks of %d", setting, d.Name, lo, hi, len(blocks), len(row))
			}
			if !sewn {
				continue
			}
			if desk := plan.Open(d).SetStops(true); !desk.Trouble.None() {
				t.Errorf("%s, %s: %v", setting, d.Name, desk.Trouble)
			}
		}
	}
}

// On point the rows, turned level, are as high as a block.
func TestDiagonalRowsLieLevel(t *testing.T) {
	q, designs := quilt.Demo()
	q.Setting, q.Borders, q.Sashing = quilt.OnPoint, nil, quilt.Sashing{}
	top := Open(q, designs)
	for r, row := range top.Rows {
		if len(row) < 3 {
			continue
		}
		d, _ := top.RowDrawing(r, top.RowName(r))
		var all geom.Polyline
		for _, s := range d.Strokes() {
			all = append(all, s.Path...)
		}
		if _, hi := all.Bounds(); math.Abs(hi.Y-q.BlockMM) > 1e-6 || hi.X < float64(len(row)-2)*q.BlockMM {
			t.Errorf("%s is %v x %v mm, want %v high", d.Name, hi.X, hi.Y, q.BlockMM)
		}
	}
}

// The order takes each row in which something is sewn once, and sews every line once: as
// much as the lines are long. A row has the number that its name has.
func TestOrderTakesEveryRowOnce(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := ruled(100, 4)
		q := quilt.Quilt{
			Schema: quilt.Schema, ID: "q", Name: "ruled", BlockMM: 100,
			Setting: rapid.SampledFrom([]quilt.Setting{quilt.Straight, quilt.OnPoint}).Draw(rt, "setting"),
			Rows:    rapid.IntRange(1, 3).Draw(rt, "rows"), Cols: rapid.IntRange(1, 3).Draw(rt, "cols"),
			ByKind: map[quilt.Kind]quilt.Choice{quilt.Block: {Design: d.ID}},
		}
		if rapid.Bool().Draw(rt, "bordered") {
			q.Borders = []quilt.Border{{WidthMM: 40, Corners: rapid.Bool().Draw(rt, "corners")}}
		}
		top := Open(q, quilt.Designs{d.ID: d}).Planned()
		rows := top.sewnRows()
		stages := 0
		for _, s := range top.Plan.Order.Stages {
			if s.Kind == order.Ditch {
				continue
			}
			stages++
			if word, n := top.rowNumber(s.Row); n != s.Number || word != string(s.Kind) {
				rt.Fatalf("%s is %s %d in the order and %s %d on the table", s.ID, s.Kind, s.Number, word, n)
			}
		}
		if stages != len(rows) {
			rt.Fatalf("%d stages for %d rows", stages, len(rows))
		}
		for _, r := range rows {
			if _, ok := top.Plan.StageOf(r); !ok {
				rt.Fatalf("row %d is in no stage", r)
			}
		}
		want := 0.0
		for _, p := range top.Laying.Lines() {
			if !p.Seam {
				want += p.Path.Length()
			}
		}
		if got := top.Plan.Order.Work().SewnMM; math.Abs(got-want) > 0.01*want {
			rt.Fatalf("%v mm are sewn of %v", got, want)
		}
	})
}
