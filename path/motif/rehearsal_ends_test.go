package motif

import (
	"math"
	"slices"
	"testing"

	"unthreaded/path/geom"
)

// Each repeat of a row ends where the next begins, the last at the end of the row, and all
// but the first and the last are as long as each other where the row is of equal parts.
func TestEndsOfRepeats(t *testing.T) {
	for _, id := range []string{"linked-swirls", "ruler-zigzag", "loops", "waves"} {
		m, _ := Find(id)
		r := m.Rehearsal()
		for n := 2; n <= 4; n++ {
			row, err := r.Line(n)
			if err != nil {
				t.Fatal(err)
			}
			ends := r.Ends(n)
			if len(ends) != n || !slices.IsSorted(ends) || math.Abs(ends[n-1]-row.Length()) > 1e-9 {
				t.Errorf("%s: %d repeats end at %.1f of %.1f mm", id, n, ends, row.Length())
				continue
			}
			for k := 2; k < n-1; k++ {
				if a, b := ends[k]-ends[k-1], ends[k-1]-ends[k-2]; math.Abs(a-b) > 2 {
					t.Errorf("%s: repeats of %.1f and %.1f mm", id, b, a)
				}
			}
		}
		if got := r.Ends(1); got != nil {
			t.Errorf("%s: one repeat ends at %v", id, got)
		}
	}
	if got := Of("own", "", "", func() geom.Line { l, _ := geom.NewLine(geom.MustParse("M 0 0 L 9 0")); return l }()).Ends(1); got != nil {
		t.Errorf("a line of her own has repeats that end at %v", got)
	}
}
