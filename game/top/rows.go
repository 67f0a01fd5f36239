package top

import (
	"fmt"
	"strings"

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
