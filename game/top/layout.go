package top

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"unthreaded/game/words"
	"unthreaded/path/quilt"
)

// change takes a changed layout; one that cannot be is refused and leaves the top as it
// was.
func (t Top) change(q quilt.Quilt, key string) (Top, error) {
	if err := refused(q); err != nil {
		return t, err
	}
	return t.set(q, key), nil
}

// refused tells a person why a layout cannot be.
func refused(q quilt.Quilt) error {
	err := q.Validate()
	var wrong *quilt.FieldError
	if !errors.As(err, &wrong) {
		return err
	}
	least, most := words.LengthMM(quilt.MinPartMM), words.LengthMM(quilt.MaxTopMM)
	field, size := wrong.Field, q.Size()
	switch {
	case field == "rows" || field == "cols":
		return words.Refuse("quilt.takes.rows", quilt.MaxRows)
	case field == "block_mm" && q.BlockMM <= quilt.MaxTopMM && max(size.W, size.H) > quilt.MaxTopMM:
		return words.Refuse("quilt.takes.top", words.LengthMM(size.W), words.LengthMM(size.H), most)
	case field == "block_mm" && q.Setting == quilt.OnPoint:
		return words.Refuse("quilt.takes.on-point", words.LengthMM(2*quilt.MinPartMM), most)
	case field == "block_mm":
		return words.Refuse("quilt.takes.block", least, most)
	case field == "sashing.width_mm":
		return words.Refuse("quilt.takes.sashing", least, most)
	case strings.HasPrefix(field, "borders["):
		return words.Refuse("quilt.takes.border", least, most)
	case field == "borders":
		return words.Refuse("quilt.takes.borders", quilt.MaxBorders)
	case field == "gap_mm":
		return words.Refuse("quilt.takes.gap", most)
	}
	return err
}

// SetName names the quilt.
func (t Top) SetName(name string) Top {
	q := t.Quilt
	for len(name) > quilt.MaxName {
		r := []rune(name)
		name = string(r[:len(r)-1])
	}
	if name == "" || name == q.Name {
		return t
	}
	q.Name = name
	return t.set(q, "name")
}

// SetRows sets the numbers of rows and of blocks in each.
func (t Top) SetRows(rows, cols int) (Top, error) {
	q := t.Quilt
	q.Rows, q.Cols = rows, cols
	return t.change(q, "rows")
}

// SetSetting sets the blocks straight or on point.
func (t Top) SetSetting(s quilt.Setting) (Top, error) {
	q := t.Quilt
	q.Setting = s
	return t.change(q, "")
}

// SetAlternate says which blocks are of the kind Alternate.
func (t Top) SetAlternate(a quilt.Alternation) (Top, error) {
	q := t.Quilt
	q.Alternate = a
	return t.change(q, "")
}

// SetBlock sets the finished side of the blocks in mm.
func (t Top) SetBlock(mm float64) (Top, error) {
	q := t.Quilt
	q.BlockMM = mm
	return t.change(q, "block")
}

// SetSashing sets the sashing; a width of 0 takes it away.
func (t Top) SetSashing(s quilt.Sashing) (Top, error) {
	q := t.Quilt
	q.Sashing = s
	return t.change(q, "sashing")
}

// SetOverall lays rows from edge to edge over the top, nil for none. Where there were none
// the seams are no longer sewn in the ditch first: what lies over all holds the layers too.
func (t Top) SetOverall(o *quilt.Overall) (Top, error) {
	q, first := t.Quilt, t.Quilt.Overall == nil && o != nil
	q.Overall = o
	t, err := t.change(q, "")
	if err == nil && first {
		t.Plan.Choices.NoDitch = true
	}
	return t, err
}

// SetGap sets the largest distance in mm between lines that the batting allows, 0
// where it is not known.
func (t Top) SetGap(mm float64) (Top, error) {
	q := t.Quilt
	q.GapMM = mm
	return t.change(q, "gap")
}

// usualBorder in mm is the width of a border that is added: 3 in, a usual size.
const usualBorder = 3 * 25.4

// AddBorder adds a border outside the others.
func (t Top) AddBorder() (Top, error) {
	q := t.Quilt
	q.Borders = append(slices.Clone(q.Borders), quilt.Border{WidthMM: usualBorder})
	return t.change(q, "")
}

// SetBorder changes border i, counted from the inside.
func (t Top) SetBorder(i int, b quilt.Border) (Top, error) {
	q := t.Quilt
	if i < 0 || i >= len(q.Borders) {
		return t, nil
	}
	q.Borders = slices.Clone(q.Borders)
	q.Borders[i] = b
	return t.change(q, fmt.Sprintf("border %d", i))
}

// DropBorder takes border i away. The designs of the borders outside it move in with
// them.
func (t Top) DropBorder(i int) (Top, error) {
	q := t.Quilt
	n := len(q.Borders)
	if i < 0 || i >= n {
		return t, nil
	}
	q.Borders = slices.Delete(slices.Clone(q.Borders), i, i+1)
	kinds := map[quilt.Kind]quilt.Choice{}
	for k, c := range q.ByKind {
		kinds[k] = c
	}
	for j := i; j < n; j++ {
		moveKind(kinds, quilt.BorderKind(j), quilt.BorderKind(j+1), j+1 < n)
		moveKind(kinds, quilt.BorderCornerKind(j), quilt.BorderCornerKind(j+1), j+1 < n)
	}
	q.ByKind = kinds
	return t.change(q, "")
}

func moveKind(kinds map[quilt.Kind]quilt.Choice, to, from quilt.Kind, there bool) {
	c, ok := kinds[from]
	delete(kinds, to)
	if ok && there {
		kinds[to] = c
	}
}

// SetWant asks for a finished size in mm; a side of 0 asks for none.
func (t Top) SetWant(s quilt.Size) Top {
	t.Want = s
	return t
}
