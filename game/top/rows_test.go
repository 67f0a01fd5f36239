package top

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/motif"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

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

// sewnRows returns the rows in which something is to be sewn.
func (t Top) sewnRows() []int {
	sewn := map[int]bool{}
	for _, p := range t.Laying.Placed {
		sewn[p.Cell] = slices.ContainsFunc(t.Laying.Works[p.Work].Pieces, func(w motif.Piece) bool { return !w.Seam })
	}
	var out []int
	for r, row := range t.Rows {
		if slices.ContainsFunc(row, func(i int) bool { return sewn[i] }) {
			out = append(out, r)
		}
	}
	return out
}
