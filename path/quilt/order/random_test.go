package order

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// drawQuilt draws a small top with designs in some of its places.
func drawQuilt(rt *rapid.T) (quilt.Quilt, quilt.Designs) {
	const side = 203.2
	q := quilt.Quilt{
		Schema: quilt.Schema, ID: "random", Name: "random",
		Setting: rapid.SampledFrom([]quilt.Setting{quilt.Straight, quilt.OnPoint}).Draw(rt, "setting"),
		Rows:    rapid.IntRange(1, 4).Draw(rt, "rows"), Cols: rapid.IntRange(1, 5).Draw(rt, "cols"), BlockMM: side,
		ByCell: map[string]quilt.Choice{}, ByKind: map[quilt.Kind]quilt.Choice{},
	}
	if rapid.Bool().Draw(rt, "sashing") {
		q.Sashing = quilt.Sashing{WidthMM: 50, Cornerstones: rapid.Bool().Draw(rt, "stones"), Round: q.Setting == quilt.Straight && rapid.Bool().Draw(rt, "round")}
	}
	if rapid.Bool().Draw(rt, "border") {
		q.Borders = []quilt.Border{{WidthMM: 80, Corners: rapid.Bool().Draw(rt, "corners")}}
	}
	d := quilt.Designs{
		"line":   straightLine("line", motif.Shape{Kind: motif.Square, W: side}, false),
		"hatch":  hatch("hatch", side, 2, 4),
		"spiral": {Schema: quilt.DesignSchema, ID: "spiral", Name: "spiral", Shape: motif.Shape{Kind: motif.Square, W: side}, Margin: 8, Seams: motif.NoSeams, Recipe: &quilt.Recipe{Pattern: "spiral"}},
	}
	for _, c := range q.Cells() {
		switch c.Kind {
		case quilt.Block, quilt.Alternate:
			if id := rapid.SampledFrom([]string{"", "line", "line", "hatch", "spiral"}).Draw(rt, "design"); id != "" {
				q.ByCell[c.ID] = quilt.Choice{Design: id, QuarterTurns: rapid.IntRange(0, 1).Draw(rt, "turns")}
			}
		case quilt.BorderKind(0), quilt.Strip:
			if rapid.IntRange(0, 3).Draw(rt, "strip") == 0 {
				d[c.ID] = straightLine(c.ID, c.Shape, false)
				q.ByCell[c.ID] = quilt.Choice{Design: c.ID}
			}
		}
	}
	return q, d
}

func drawChoices(rt *rapid.T, q quilt.Quilt) Choices {
	c := Choices{NoDitch: rapid.Bool().Draw(rt, "no ditch"), Ways: map[string]Way{}, Passes: map[string]Passes{}, FarEnd: map[string]bool{}}
	c.Rows = rapid.SampledFrom(rowOrders).Draw(rt, "order")
	for r := range q.SewingRows() {
		id := fmt.Sprintf("row-%d", r+1)
		if rapid.IntRange(0, 2).Draw(rt, "chosen") == 0 {
			c.Passes[id] = rapid.SampledFrom([]Passes{OnePass, OutAndBack}).Draw(rt, "passes")
			c.FarEnd[id] = rapid.Bool().Draw(rt, "far")
			c.Ways[id] = BlockByBlock
		}
	}
	return c
}

// Random tops: every line is sewn, each place is visited once a pass and in order along
// its row, equal places between the ends of a row by the same moves; the needle's path
// hangs together; stages add up to the whole, and the order comes back from JSON.
func TestRandomTops(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		q, d := drawQuilt(rt)
		if q.Validate() != nil {
			rt.Skip("drawn measures that make no quilt, which Validate refuses")
		}
		c := drawChoices(rt, q)
		o, err := Plan(q, d, c)
		if err == ErrNothing {
			return
		}
		if err != nil {
			rt.Fatal(err)
		}
		checkSewn(rt, q, d, o)
		checkPath(rt, o)
		for _, s := range o.Stages {
			checkRow(rt, q, o, s)
		}
		doc, err := json.Marshal(o)
		if err != nil {
			rt.Fatal(err)
		}
		var back Order
		if err := json.Unmarshal(doc, &back); err != nil {
			rt.Fatal(err)
		}
		for i := range o.Stages {
			a, b := o.Moves(i), back.Moves(i)
			if len(a) != len(b) || len(a) != o.Stages[i].Work.Moves {
				rt.Fatalf("%s: %d moves, %d after JSON, %d counted", o.Stages[i].ID, len(a), len(b), o.Stages[i].Work.Moves)
			}
		}
		job, err := o.Job(machine.UsualAssumptions())
		if err != nil {
			rt.Fatal(err)
		}
		if w := o.Work(); math.Abs(job.All.LengthMM-w.Length()) > 1e-6*(1+w.Length()) || job.All.Starts != w.Starts || job.All.Halts != w.Halts {
			rt.Fatalf("the job adds up to %+v, the order to %+v", job.All, w)
		}
	})
}

// checkSewn: what is sewn in each place is as long as its block's lines.
func checkSewn(rt *rapid.T, q quilt.Quilt, d quilt.Designs, o Order) {
	places, err := lay(q.Lay(d))
	if err != nil {
		rt.Fatal(err)
	}
	got := map[string]float64{}
	for _, s := range o.Stages {
		for _, l := range s.Legs {
			if l.Cell == "" && s.Kind != Ditch {
				return // a row that is no sum of its places
			}
			got[l.Cell] += o.Programs[l.Program].Work.SewnMM * l.Where.Scale
		}
	}
	for _, l := range places {
		want := 0.0
		for _, line := range l.block.Lines() {
			want += line.Length * l.where.Scale
		}
		if math.Abs(got[l.cell.ID]-want) > 1e-3 {
			rt.Fatalf("%s: %.3f mm are sewn, its lines are %.3f mm long", l.cell.ID, got[l.cell.ID], want)
		}
	}
}

// checkPath: the needle goes from leg to leg without a gap.
func checkPath(rt *rapid.T, o Order) {
	var at geom.Point
	begun := false
	for i, s := range o.Stages {
		for k, l := range s.Legs {
			p := o.Programs[l.Program]
			start := l.Where.Apply(p.Start)
			if n := len(l.Come.Path); n > 0 {
				if geom.Dist(l.Come.Path[0], at) > 0.3 || geom.Dist(l.Come.Path[n-1], start) > 0.3 {
					rt.Fatalf("%s, leg %d: the way there runs from %v to %v, not from %v to %v", s.ID, k, l.Come.Path[0], l.Come.Path[n-1], at, start)
				}
			} else if begun && geom.Dist(at, start) > onRim+1e-9 {
				rt.Fatalf("stage %d (%s), leg %d: begins at %v, the needle is at %v", i, s.ID, k, start, at)
			}
			at, begun = l.Where.Apply(p.End), true
		}
	}
}

// checkRow: places in order, each once a pass; equal ones alike between the ends.
func checkRow(rt *rapid.T, q quilt.Quilt, o Order, s Stage) {
	if s.Row < 0 || s.Way != BlockByBlock {
		return
	}
	cells := q.Cells()
	place := map[string]int{}
	for k, i := range q.SewingRows()[s.Row] {
		place[cells[i].ID] = k
	}
	last := [2]int{-1, math.MaxInt}
	seen := map[string]bool{}
	for _, l := range s.Legs {
		k, in := place[l.Cell]
		if !in || seen[fmt.Sprint(l.Cell, l.Pass)] {
			rt.Fatalf("%s: %q is visited again or is not in it", s.ID, l.Cell)
		}
		seen[fmt.Sprint(l.Cell, l.Pass)] = true
		if s.FarEnd {
			k = len(place) - k
		}
		if l.Pass == 0 && k <= last[0] || l.Pass == 1 && k >= last[1] {
			rt.Fatalf("%s: %q comes out of order", s.ID, l.Cell)
		}
		last[l.Pass] = k
	}
	if s.Passes != OnePass {
		return
	}
	programs := map[string]int{}
	for k := 1; k+1 < len(s.Legs); k++ {
		l := s.Legs[k]
		choice := q.ByCell[l.Cell]
		key := fmt.Sprint(choice, o.Programs[l.Program].Design, math.Round(l.Where.Turn*100))
		if was, known := programs[key]; known && was != l.Program {
			rt.Fatalf("%s: %q is sewn by program %d, an equal place by %d", s.ID, l.Cell, l.Program, was)
		}
		programs[key] = l.Program
	}
}
