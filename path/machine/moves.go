package machine

import (
	"fmt"

	"unthreaded/path/geom"
)

// RowEnds are the two ends of a row on the top, in mm. A row in one pass is left
// at the end it was not begun from, one out and back where it began.
type RowEnds struct {
	A, B        geom.Point
	OutAndBack  bool
	OnlyForward bool // it may be begun at A only
}

// Move is the way of the needle from one row to the next.
type Move struct {
	From, To geom.Point
	Length   float64
}

// RowPath is the path of the needle over the whole top.
type RowPath struct {
	// FromB tells for each row, in the order of sewing, that it is begun at B.
	FromB []bool
	// Moves lie between the rows, one fewer than rows; Length is their sum in mm.
	Moves  []Move
	Length float64
}

// maxPlace bounds the coordinates of ends of rows, in mm: a kilometre.
const maxPlace = MaxWork

// PlanMoves returns the ends at which to begin the rows, taken in the given order,
// so that the moves between them are shortest: by dynamic programming over the two
// ends of each row. order lists every row once. Cost O(rows).
func PlanMoves(rows []RowEnds, order []int) (RowPath, error) {
	if err := validateRows(rows, order); err != nil {
		return RowPath{}, err
	}
	// best[i][e] is the least way up to the start of the i-th row at end e (1: B).
	type state struct {
		way  float64
		from int
	}
	best := make([][2]state, len(order))
	for i := 1; i < len(order); i++ {
		for e := range 2 {
			best[i][e] = state{way: -1}
			for before := range 2 {
				if rows[order[i-1]].OnlyForward && before == 1 {
					continue
				}
				way := best[i-1][before].way + geom.Dist(rows[order[i-1]].leaves(before), rows[order[i]].begins(e))
				if best[i][e].way < 0 || way < best[i][e].way {
					best[i][e] = state{way, before}
				}
			}
		}
	}
	last := len(order) - 1
	e := 0
	if !rows[order[last]].OnlyForward && best[last][1].way < best[last][0].way {
		e = 1
	}
	p := RowPath{FromB: make([]bool, len(order))}
	for i := last; i >= 0; i-- {
		p.FromB[i] = e == 1
		e = best[i][e].from
	}
	p.addMoves(rows, order)
	return p, nil
}

func (p *RowPath) addMoves(rows []RowEnds, order []int) {
	end := func(i int) int {
		if p.FromB[i] {
			return 1
		}
		return 0
	}
	for i := 1; i < len(order); i++ {
		m := Move{From: rows[order[i-1]].leaves(end(i - 1)), To: rows[order[i]].begins(end(i))}
		m.Length = geom.Dist(m.From, m.To)
		p.Moves = append(p.Moves, m)
		p.Length += m.Length
	}
}

// begins returns the end e, leaves where a row begun at e is left.
func (r RowEnds) begins(e int) geom.Point {
	if e == 1 {
		return r.B
	}
	return r.A
}

func (r RowEnds) leaves(e int) geom.Point {
	if r.OutAndBack {
		return r.begins(e)
	}
	return r.begins(1 - e)
}

func validateRows(rows []RowEnds, order []int) error {
	if err := RowCount.Check(float64(len(rows))); err != nil {
		return err
	}
	if len(order) != len(rows) {
		return fmt.Errorf("the order lists %d rows of %d", len(order), len(rows))
	}
	x := Range{Name: "place", Unit: "mm", Min: -maxPlace, Max: maxPlace}
	for i, r := range rows {
		if err := checkAll(entry{r.A.X, x}, entry{r.A.Y, x}, entry{r.B.X, x}, entry{r.B.Y, x}); err != nil {
			return fmt.Errorf("row %d: %w", i, err)
		}
	}
	seen := make([]bool, len(rows))
	for i, r := range order {
		if r < 0 || r >= len(rows) {
			return fmt.Errorf("order %d: row %d is not from 0 to %d", i, r, len(rows)-1)
		}
		if seen[r] {
			return fmt.Errorf("order %d: row %d comes twice", i, r)
		}
		seen[r] = true
	}
	return nil
}
