package top

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/plan"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// RowName is the code of a sewing row, as "row 2": rows, strips of sashing and borders
// are counted each for themselves.
func (t Top) RowName(r int) string {
	word, n := t.rowNumber(r)
	return fmt.Sprintf("%s %d", word, n)
}

func (t Top) rowNumber(r int) (word string, n int) {
	word = t.rowWord(r)
	for i := range t.Rows[:r+1] {
		if t.rowWord(i) == word {
			n++
		}
	}
	return word, n
}

// rowWord tells of what a row is.
func (t Top) rowWord(r int) string {
	word := "sashing"
	for _, i := range t.Rows[r] {
		switch k := t.Laying.Cells[i].Kind; {
		case strings.HasPrefix(string(k), "border-"):
			return "border"
		case k != quilt.Strip && k != quilt.Cornerstone && k != quilt.HalfCornerstone:
			word = "row"
		}
	}
	return word
}

// rowMark stands between the ID of a quilt and the number of one of its rows, from 1,
// in the ID of a row's drawing.
const rowMark = "-row-"

// rowID is the ID of a row's drawing.
func (t Top) rowID(r int) string { return t.Quilt.ID + rowMark + fmt.Sprint(r+1) }

// RowDrawing returns the lines of a row laid level, from left to right, as a drawing
// that a route can be planned for, under a name. A border has corners and is no row: of it
// there is none.
func (t Top) RowDrawing(r int, name string) (plan.Drawing, bool) {
	if r < 0 || r >= len(t.Rows) || t.rowWord(r) == "border" {
		return plan.Drawing{}, false
	}
	in := map[string]bool{}
	for _, i := range t.Rows[r] {
		in[t.Laying.Cells[i].ID] = true
	}
	turn := 0.0
	if t.Quilt.Setting == quilt.OnPoint {
		turn = math.Pi / 4 // rows run from the lower left to the upper right
	}
	d := plan.DrawingOf(t.rowID(r), name, words.Of("quilt.a-row"),
		func() []motif.Piece { return level(t.rowLines(in), turn) })
	d.Row = len(t.Rows[r]) > 1
	return d, true
}

// rowLines returns the lines of some places, each with all its sides.
func (t Top) rowLines(in map[string]bool) []motif.Piece {
	row := t.Laying
	row.Cells, row.Placed = nil, nil
	at := map[int]int{}
	for i, c := range t.Laying.Cells {
		if in[c.ID] {
			at[i] = len(row.Cells)
			row.Cells = append(row.Cells, c)
		}
	}
	for _, p := range t.Laying.Placed {
		if i, ok := at[p.Cell]; ok {
			p.Cell = i
			row.Placed = append(row.Placed, p)
		}
	}
	return row.Lines()
}

// level turns lines and moves them so that their box begins at (0, 0).
func level(pieces []motif.Piece, turn float64) []motif.Piece {
	turned := quilt.Transform{Scale: 1, Turn: turn}
	var all geom.Polyline
	out := make([]motif.Piece, len(pieces))
	for i, p := range pieces {
		p.Path = turned.Path(p.Path)
		all = append(all, p.Path...)
		out[i] = p
	}
	lo, _ := all.Bounds()
	for i := range out {
		out[i].Path = out[i].Path.Map(func(p geom.Point) geom.Point { return r2.Sub(p, lo) })
	}
	return out
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
