package order

import (
	"math"
	"testing"

	"unthreaded/path/machine"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// bedQuilt is a top of 60 x 71 in: 6 rows of 5 blocks of 10 in, sashing of 1 in between and a
// border of 3 in; its border goes round as one line and rows run from edge to edge over it,
// or with both within the border, by the ids of motifs, "" for none.
func bedQuilt(line, overall string) quilt.Quilt {
	const in = 25.4
	q := quilt.Quilt{
		Schema: quilt.Schema, ID: "bed", Name: "bed", Setting: quilt.Straight, Rows: 6, Cols: 5, BlockMM: 10 * in,
		Sashing: quilt.Sashing{WidthMM: 1 * in}, Borders: []quilt.Border{{WidthMM: 3 * in}},
	}
	recipe := func(id string) quilt.Recipe {
		m, _ := motif.Find(id)
		return quilt.Recipe{Pattern: id, Version: m.Version}
	}
	if line != "" {
		r := recipe(line)
		q.Borders[0].Line = &r
	}
	if overall != "" {
		q.Overall = &quilt.Overall{Recipe: recipe(overall), Within: line != ""}
	}
	return q
}

// Rows from edge to edge are stages of one move each, sewn from the middle out like rows of
// blocks, each alike, begun where the row before it left off; their length is that of the
// lines laid.
func TestRowsFromEdgeToEdge(t *testing.T) {
	for _, m := range motif.FromEdgeToEdge() {
		q := bedQuilt("", m.ID)
		o, err := Plan(q, nil, Choices{NoDitch: true})
		if err != nil {
			t.Fatalf("%s: %v", m.ID, err)
		}
		l := q.Lay(nil)
		if len(o.Stages) != len(l.Overs) || len(o.Programs) > 2 {
			t.Errorf("%s: %d stages of %d programs for %d rows", m.ID, len(o.Stages), len(o.Programs), len(l.Overs))
		}
		want := 0.0
		for _, row := range l.Overs {
			want += row.Pieces[0].Path.Length()
		}
		if got := o.Work().SewnMM; math.Abs(got-want) > 1e-3*want || o.Work().AgainMM != 0 {
			t.Errorf("%s: %.0f mm sewn and %.0f again, want %.0f", m.ID, got, o.Work().AgainMM, want)
		}
		middles := make([]float64, len(l.Overs))
		for i, row := range l.Overs {
			middles[i] = row.Cell.Where.Apply(row.Cell.Shape.Outline()[0]).Y + row.Cell.Shape.H/2
		}
		rows, turned := machine.Sequence(machine.MiddleOut, middles, q.Size().H)
		for i, s := range o.Stages {
			if s.Kind != EdgeRow || s.Number != rows[i]+1 || s.Turned != turned[i] || len(s.Legs) != 1 {
				t.Errorf("%s: stage %d is %s %d, turned %v, in %d legs", m.ID, i, s.Kind, s.Number, s.Turned, len(s.Legs))
			}
			if i > 0 && s.Legs[0].Come.Stop {
				t.Errorf("%s: thread is begun anew for row %d, one row from the last along the edge", m.ID, s.Number)
			}
		}
	}
}

// A line round a border is one stage, whatever its corners; a continuous one is one move,
// begun once, a cable once for each strand. What was chosen for its sides is kept, and not sewn.
func TestBorderAsOneLine(t *testing.T) {
	for _, m := range motif.Borders() {
		for _, corners := range []bool{false, true} {
			q := bedQuilt(m.ID, "")
			q.Borders[0].Corners = corners
			q = q.PlaceAll(quilt.BorderKind(0), quilt.Choice{Design: "gone"})
			o, err := Plan(q, nil, Choices{NoDitch: true})
			if err != nil {
				t.Errorf("%s: %v", m.ID, err)
				continue
			}
			if len(o.Misfits) != 0 {
				t.Errorf("%s: a side under the line is missed: %v", m.ID, o.Misfits)
			}
			want, starts := 0.0, 1
			for _, p := range q.Lay(nil).Overs[0].Pieces {
				want += p.Path.Length()
			}
			if m.ID == "cable" {
				starts = len(q.Lay(nil).Overs[0].Pieces)
			}
			w := o.Work()
			if len(o.Stages) != 1 || o.Stages[0].ID != "border-1" || math.Abs(w.SewnMM-want) > 2e-3*want {
				t.Errorf("%s: %d stages, %.0f mm sewn, want %.0f", m.ID, len(o.Stages), w.SewnMM, want)
			}
			if w.Starts != starts || w.AgainMM > 1e-6 {
				t.Errorf("%s: %d starts, %.0f mm again", m.ID, w.Starts, w.AgainMM)
			}
			if m.Continuous && len(o.Moves(0)) != 1 {
				t.Errorf("%s: %d moves", m.ID, len(o.Moves(0)))
			}
		}
	}
}

// Rows within the borders and a line round them are planned together, the border last.
func TestRowsWithinABorder(t *testing.T) {
	q := bedQuilt("ribbon", "waves")
	o, err := Plan(q, nil, Choices{})
	if err != nil {
		t.Fatal(err)
	}
	last := o.Stages[len(o.Stages)-1]
	if last.Kind != Border || o.Stages[0].Kind != Ditch {
		t.Errorf("the first stage is %s, the last %s", o.Stages[0].Kind, last.Kind)
	}
	in := q.Borders[0].WidthMM
	for i, s := range o.Stages {
		for _, m := range o.Moves(i) {
			lo, hi := m.Path.Bounds()
			if s.Kind == EdgeRow && (lo.X < in-0.1 || hi.X > q.Size().W-in+0.1 || lo.Y < in-0.1 || hi.Y > q.Size().H-in+0.1) {
				t.Errorf("%s leaves what the border frames: %v to %v", s.ID, lo, hi)
			}
		}
	}
}
