package order

import (
	"math"
	"testing"

	"unthreaded/path/quilt"
)

// The demo is sewn ditch first, rows next, borders last; each place that holds a
// design is visited once, and the rows lead outwards from the middle.
func TestPlanOfTheDemo(t *testing.T) {
	q, d := quilt.Demo()
	o, err := Plan(q, d, Choices{})
	if err != nil {
		t.Fatal(err)
	}
	visits, last := map[string]int{}, 0
	rank := map[StageKind]int{Ditch: 0, RowOf: 1, Sashing: 1, Border: 2}
	for i, s := range o.Stages {
		if rank[s.Kind] < last {
			t.Errorf("%s comes after a later stage", s.ID)
		}
		last = rank[s.Kind]
		for _, l := range s.Legs {
			if l.Cell != "" {
				visits[l.Cell]++
			}
		}
		if len(o.Moves(i)) != s.Work.Moves {
			t.Errorf("%s: %d moves are shown, %d counted", s.ID, len(o.Moves(i)), s.Work.Moves)
		}
	}
	for _, p := range q.Lay(d).Placed {
		if id := q.Cells()[p.Cell].ID; visits[id] != 1 {
			t.Errorf("%s is visited %d times", id, visits[id])
		}
	}
	// Each design's lines are as long as they are laid, but for what a motif sews over
	// itself, as the branch of a leaf: that is sewn again.
	want := 0.0
	lay := q.Lay(d)
	for _, p := range lay.Placed {
		for _, piece := range lay.Works[p.Work].Pieces {
			if !piece.Seam && piece.Length > 0 {
				want += piece.Length * p.Where.Scale
			} else if !piece.Seam {
				want += piece.Path.Length() * p.Where.Scale
			}
		}
	}
	if w := o.Work(); w.SewnMM > want+1 || w.SewnMM+w.AgainMM < want-1 {
		t.Errorf("%.1f mm are sewn, %.1f again, the designs are %.1f mm long", w.SewnMM, w.AgainMM, want)
	}
}

// Every way through a row sews the same lines, and the chosen one is no longer than
// the least by more than its share.
func TestCompareWays(t *testing.T) {
	q, d := quilt.Demo()
	for _, id := range []string{"row-1", "row-2"} {
		all, err := Compare(q, d, Choices{}, id)
		if err != nil {
			t.Fatal(err)
		}
		chosen := 0
		for _, o := range all {
			if math.Abs(o.Work.SewnMM-all[0].Work.SewnMM) > 1e-6 {
				t.Errorf("%s, %s %s: sews %.3f mm, not %.3f", id, o.Way, o.Passes, o.Work.SewnMM, all[0].Work.SewnMM)
			}
			if o.Chosen {
				chosen++
				if o.Longer > NaturalShare {
					t.Errorf("%s: %s %s is chosen and %.0f %% longer", id, o.Way, o.Passes, 100*o.Longer)
				}
			}
		}
		if chosen != 1 {
			t.Errorf("%s: %d ways are chosen", id, chosen)
		}
	}
}
