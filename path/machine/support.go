package machine

import "fmt"

// Table is how far something carries the quilt, in mm from the needle: to the
// left, behind, and in front. To the right the bed carries it.
type Table struct{ Left, Behind, Front float64 }

// Validate reports the first value out of its range.
func (tb Table) Validate() error {
	return checkAll(entry{tb.Left, TableSide.Called("table-to-the-left")}, entry{tb.Behind, TableSide.Called("table-behind")},
		entry{tb.Front, TableSide.Called("table-in-front")})
}

// Hang is what hangs free while a row is sewn, at its worst end.
type Hang struct {
	// Left is the width of the quilt in mm beyond the table on the left. Behind is
	// the length beyond it behind, at the end of a row; Front that in front, at its
	// beginning, which the lap or a chair has to carry.
	Left, Behind, Front float64
	// Area in mm2 and Mass in g are of all that hangs free; Total is the mass of
	// the whole quilt. What hangs pulls on the needle's place and on the hands.
	Area, Mass, Total float64
}

// gramsPerMM2 turns a weight in g/m2 into g/mm2.
const gramsPerMM2 = 1e-6

// Support returns what hangs free at each fit of an order, as many as fits: the
// quilt lies flat left of the needle, with its row along the table from front to
// back, the rest in the throat. What hangs is greatest at an end of the row, since
// the length carried, min(x, Behind) + min(Along-x, Front) at place x, is concave.
func (t Top) Support(tb Table, fits []Fit) ([]Hang, error) {
	if err := t.Validate(); err != nil {
		return nil, err
	}
	if err := tb.Validate(); err != nil {
		return nil, err
	}
	out := make([]Hang, 0, len(fits))
	for i, f := range fits {
		if f.Row < 0 || f.Row >= len(t.Rows) {
			return nil, fmt.Errorf("fit %d: row %d is not from 0 to %d", i, f.Row, len(t.Rows)-1)
		}
		out = append(out, t.hang(tb, f))
	}
	return out, nil
}

func (t Top) hang(tb Table, f Fit) Hang {
	// The least lies in the throat, the most on the left, at the near border.
	left := t.Across - t.Rows[f.Row].From
	if f.Turned {
		left = t.Rows[f.Row].To
	}
	left = min(max(left, 0), t.Across)
	carriedWidth := t.Across - max(0, left-tb.Left)
	carriedLength := min(t.Along, tb.Behind, tb.Front)
	h := Hang{
		Left: max(0, left-tb.Left), Behind: max(0, t.Along-tb.Behind), Front: max(0, t.Along-tb.Front),
		Area: max(0, t.Across*t.Along-carriedWidth*carriedLength),
	}
	h.Mass, h.Total = h.Area*t.Density*gramsPerMM2, t.Across*t.Along*t.Density*gramsPerMM2
	return h
}
