package top

import (
	"fmt"
	"slices"
	"strings"

	"unthreaded/path/quilt"
)

// Say puts a length in mm into the words and units of the person.
type Say func(mm float64) string

// change takes a changed layout; one that cannot be says why, in words, and leaves
// the top as it was.
func (t Top) change(q quilt.Quilt, key string, say Say) (Top, error) {
	if err := trouble(q, say); err != nil {
		return t, err
	}
	return t.set(q, key), nil
}

// trouble says in words why a layout cannot be.
func trouble(q quilt.Quilt, say Say) error {
	err := q.Validate()
	if err == nil {
		return nil
	}
	limits := fmt.Sprintf("%s to %s", say(quilt.MinPartMM), say(quilt.MaxTopMM))
	field, _, _ := strings.Cut(err.Error(), ":")
	switch {
	case field == "rows" || field == "cols":
		return fmt.Errorf("a top takes 1 to %d rows, and as many blocks in each", quilt.MaxRows)
	case strings.Contains(err.Error(), "adds up to"):
		s := q.Size()
		return fmt.Errorf("the top would be %s x %s; up to %s either way are possible", say(s.W), say(s.H), say(quilt.MaxTopMM))
	case field == "block_mm" && q.Setting == quilt.OnPoint:
		return fmt.Errorf("a block on point takes %s to %s", say(2*quilt.MinPartMM), say(quilt.MaxTopMM))
	case field == "block_mm":
		return fmt.Errorf("a block takes %s", limits)
	case field == "sashing.width_mm":
		return fmt.Errorf("sashing takes %s, or 0 for none", limits)
	case strings.HasPrefix(field, "borders["):
		return fmt.Errorf("a border takes %s", limits)
	case field == "borders":
		return fmt.Errorf("a top takes up to %d borders", quilt.MaxBorders)
	case field == "gap_mm":
		return fmt.Errorf("the batting's limit takes up to %s, or 0 where it is not known", say(quilt.MaxTopMM))
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
func (t Top) SetRows(rows, cols int, say Say) (Top, error) {
	q := t.Quilt
	q.Rows, q.Cols = rows, cols
	return t.change(q, "rows", say)
}

// SetSetting sets the blocks straight or on point.
func (t Top) SetSetting(s quilt.Setting, say Say) (Top, error) {
	q := t.Quilt
	q.Setting = s
	return t.change(q, "", say)
}

// SetAlternate says which blocks are of the kind Alternate.
func (t Top) SetAlternate(a quilt.Alternation, say Say) (Top, error) {
	q := t.Quilt
	q.Alternate = a
	return t.change(q, "", say)
}

// SetBlock sets the finished side of the blocks in mm.
func (t Top) SetBlock(mm float64, say Say) (Top, error) {
	q := t.Quilt
	q.BlockMM = mm
	return t.change(q, "block", say)
}

// SetSashing sets the sashing; a width of 0 takes it away.
func (t Top) SetSashing(s quilt.Sashing, say Say) (Top, error) {
	q := t.Quilt
	q.Sashing = s
	return t.change(q, "sashing", say)
}

// SetGap sets the largest distance in mm between lines that the batting allows, 0
// where it is not known.
func (t Top) SetGap(mm float64, say Say) (Top, error) {
	q := t.Quilt
	q.GapMM = mm
	return t.change(q, "gap", say)
}

// usualBorder in mm is the width of a border that is added: 3 in, a usual size.
const usualBorder = 3 * 25.4

// AddBorder adds a border outside the others.
func (t Top) AddBorder(say Say) (Top, error) {
	q := t.Quilt
	q.Borders = append(slices.Clone(q.Borders), quilt.Border{WidthMM: usualBorder})
	return t.change(q, "", say)
}

// SetBorder changes border i, counted from the inside.
func (t Top) SetBorder(i int, b quilt.Border, say Say) (Top, error) {
	q := t.Quilt
	if i < 0 || i >= len(q.Borders) {
		return t, nil
	}
	q.Borders = slices.Clone(q.Borders)
	q.Borders[i] = b
	return t.change(q, fmt.Sprintf("border %d", i), say)
}

// DropBorder takes border i away. The designs of the borders outside it move in with
// them.
func (t Top) DropBorder(i int, say Say) (Top, error) {
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
	return t.change(q, "", say)
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

// FitMessage says how the top compares with the size asked for; empty while none is.
func (t Top) FitMessage(say Say) string {
	if !(t.Want.W > 0 && t.Want.H > 0) {
		return ""
	}
	return t.Quilt.FitTo(t.Want).Message(say)
}
