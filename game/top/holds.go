package top

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"unthreaded/path/quilt"
)

// Held is a sewing row in which a plan is sewn.
type Held struct {
	// Row is an index into Rows, Cells are the places of the row that the plan fills.
	Row   int
	Cells []int
	// Times is how often the plan is sewn in them.
	Times int
}

// rowMark stands between the ID of a quilt and the number of one of its rows, from 1,
// in the ID of a row's drawing.
const rowMark = "-row-"

// rowID is the ID of a row's drawing.
func (t Top) rowID(r int) string { return t.Quilt.ID + rowMark + fmt.Sprint(r+1) }

// RowOf returns the row that a drawing is of; false where it is of none of this top.
func (t Top) RowOf(drawing string) (int, bool) {
	number, found := strings.CutPrefix(drawing, t.Quilt.ID+rowMark)
	r, err := strconv.Atoi(number)
	if !found || err != nil || r < 1 || r > len(t.Rows) || t.rowWord(r-1) == "border" {
		return None, false
	}
	return r - 1, true
}

// Holds returns the rows in which the plan of a drawing is sewn as it was planned: a
// design at its own size, or a row with all that are like it. Other is the number of
// places that hold the design at another size, where its line is another. Cost
// O(places).
func (t Top) Holds(drawing string) (held []Held, other int) {
	if r, ok := t.RowOf(drawing); ok {
		return t.rowsLike(r), 0
	}
	as := map[int]bool{}
	for _, p := range t.Laying.Placed {
		switch w := t.Laying.Works[p.Work]; {
		case w.Design.ID != drawing:
		case w.Own && math.Abs(p.Where.Scale-1) < sameScale:
			as[p.Cell] = true
		default:
			other++
		}
	}
	for r, row := range t.Rows {
		h := Held{Row: r}
		for _, i := range row {
			if as[i] {
				h.Cells = append(h.Cells, i)
			}
		}
		if h.Times = len(h.Cells); h.Times > 0 {
			held = append(held, h)
		}
	}
	return held, other
}

// sameScale is the difference of scale at which a line is as long as it was drawn:
// 0.1 mm on a metre.
const sameScale = 1e-4

// rowsLike returns the rows that hold the same designs in the same places as row r,
// itself included. An empty row is like none.
func (t Top) rowsLike(r int) []Held {
	if !slices.Contains(t.sewnRows(), r) {
		return nil
	}
	var out []Held
	for k := range t.Rows {
		if t.alike(t.Rows[r], t.Rows[k]) {
			out = append(out, Held{Row: k, Cells: t.Rows[k], Times: 1})
		}
	}
	return out
}

// alike tells whether one row moved to where the other lies is that row.
func (t Top) alike(a, b []int) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		x, y := t.Laying.Cells[a[i]], t.Laying.Cells[b[i]]
		if x.Shape.Kind != y.Shape.Kind || t.Quilt.Choice(x) != t.Quilt.Choice(y) || !t.apart(a[0], a[i], b[0], b[i]) {
			return false
		}
	}
	return true
}

// apart tells whether the outline of place i lies to that of a as that of k to b.
func (t Top) apart(a, i, b, k int) bool {
	from, to := t.Laying.Cells[a].Where.Move, t.Laying.Cells[b].Where.Move
	x, y := t.Laying.Cells[i].Outline(), t.Laying.Cells[k].Outline()
	for n := range x {
		if n >= len(y) || math.Hypot(x[n].X-from.X-y[n].X+to.X, x[n].Y-from.Y-y[n].Y+to.Y) > samePlaceMM {
			return false
		}
	}
	return len(x) == len(y)
}

// samePlaceMM is the distance in mm at which two places are the same: they come from
// sums and square roots of what was typed.
const samePlaceMM = 0.01

// Round tells whether a row is a border, which goes round the top.
func (t Top) Round(r int) bool { return t.rowWord(r) == "border" }

// Mentions tells whether a quilt may hold the plan of a drawing, without laying it.
func Mentions(q quilt.Quilt, drawing string) bool {
	return strings.HasPrefix(drawing, q.ID+rowMark) || slices.Contains(q.DesignIDs(), drawing)
}
