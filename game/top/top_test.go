package top

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// drawnTop draws a layout.
func drawnTop(t *rapid.T) Top {
	q, _ := quilt.Demo()
	q.Setting = rapid.SampledFrom([]quilt.Setting{quilt.Straight, quilt.OnPoint}).Draw(t, "setting")
	q.Rows, q.Cols = rapid.IntRange(1, 5).Draw(t, "rows"), rapid.IntRange(1, 5).Draw(t, "cols")
	q.BlockMM = rapid.Float64Range(60, 300).Draw(t, "block")
	q.Sashing = quilt.Sashing{Cornerstones: rapid.Bool().Draw(t, "stones"), Round: rapid.Bool().Draw(t, "round")}
	if rapid.Bool().Draw(t, "sashed") {
		q.Sashing.WidthMM = rapid.Float64Range(12, 60).Draw(t, "sashing")
	}
	q.Borders = nil
	for range rapid.IntRange(0, 2).Draw(t, "borders") {
		q.Borders = append(q.Borders, quilt.Border{WidthMM: rapid.Float64Range(20, 120).Draw(t, "border"), Corners: rapid.Bool().Draw(t, "corners")})
	}
	return Open(q, nil)
}

// The places cover the top once: a point within it lies in one of them, and that is
// the one that a tap there chooses. Their areas add up to the top's.
func TestEveryPointLiesInOnePlace(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		top := drawnTop(rt)
		size := top.Quilt.Size()
		var area float64
		for _, c := range top.Laying.Cells {
			area += c.Shape.Area()
		}
		if math.Abs(area-size.W*size.H) > 1e-6*area {
			rt.Fatalf("the places cover %v mm2 of %v", area, size.W*size.H)
		}
		p := geom.Pt(rapid.Float64Range(0.01, 0.99).Draw(rt, "x")*size.W, rapid.Float64Range(0.01, 0.99).Draw(rt, "y")*size.H)
		i := top.CellAt(p)
		if i == None {
			rt.Fatalf("%v lies in no place of %v", p, size)
		}
		if back := top.Laying.Cells[i].Where.Apply(into(top.Laying.Cells[i].Where, p)); geom.Dist(back, p) > 1e-6 {
			rt.Fatalf("%v comes back as %v", p, back)
		}
		if top.CellAt(geom.Pt(-1, 5)) != None || top.CellAt(geom.Pt(5, size.H+1)) != None {
			rt.Fatal("a place reaches beyond the edge")
		}
	})
}

// An arrow leads to a place farther in its direction, or nowhere; and the keys that
// go from place to place come by every one, and round.
func TestKeysReachEveryPlace(t *testing.T) {
	ways := []geom.Point{{X: -1}, {X: 1}, {Y: -1}, {Y: 1}}
	rapid.Check(t, func(rt *rapid.T) {
		top := drawnTop(rt)
		from := top.Choose(rapid.IntRange(0, len(top.Laying.Cells)-1).Draw(rt, "from"))
		for _, way := range ways {
			to := from.Toward(way)
			d := r2.Sub(to.Middle(to.Chosen), from.Middle(from.Chosen))
			if to.Chosen != from.Chosen && r2.Dot(d, way) <= 0 {
				rt.Fatalf("the way %v leads by %v", way, d)
			}
		}
		seen := map[int]bool{}
		for range top.Laying.Cells {
			top = top.Next(1)
			seen[top.Chosen] = true
		}
		if len(seen) != len(top.Laying.Cells) || top.Next(1).Next(-1).Chosen != top.Chosen {
			rt.Fatalf("going on reaches %d of %d places", len(seen), len(top.Laying.Cells))
		}
	})
}

// change makes one change that a person can make.
func change(rt *rapid.T, top Top) Top {
	var err error
	switch rapid.IntRange(0, 8).Draw(rt, "change") {
	case 0:
		top, err = top.SetRows(rapid.IntRange(0, 4).Draw(rt, "rows"), 3)
	case 1:
		top, err = top.SetBlock(rapid.Float64Range(0, 300).Draw(rt, "block"))
	case 2:
		top, err = top.AddBorder()
	case 3:
		top, err = top.DropBorder(0)
	case 4:
		top, err = top.SetSetting(rapid.SampledFrom([]quilt.Setting{quilt.Straight, quilt.OnPoint}).Draw(rt, "setting"))
	case 5:
		top = top.Choose(rapid.IntRange(0, len(top.Laying.Cells)-1).Draw(rt, "cell")).
			SetScope(rapid.SampledFrom([]Scope{AllOfKind, OnlyThis}).Draw(rt, "scope")).Give("demo-ripples")
	case 6:
		top = top.Turn()
	case 7:
		top = top.SetName(rapid.StringN(0, 20, 90).Draw(rt, "name"))
	case 8:
		top, err = top.SetBorder(0, quilt.Border{WidthMM: rapid.Float64Range(0, 90).Draw(rt, "width"), Corners: true})
	}
	if err != nil && !strings.Contains(err.Error(), "takes") && !strings.Contains(err.Error(), "possible") {
		rt.Fatalf("a change was refused without saying what is possible: %v", err)
	}
	return top
}

// Every change leaves a quilt that can be kept; taking all back leads to the first
// one, doing all again to the last.
func TestUndoLeadsBackAndRedoForward(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		q, _ := quilt.Demo()
		top := Open(q, nil)
		first := kept(rt, top)
		for range rapid.IntRange(1, 8).Draw(rt, "steps") {
			top = change(rt, top)
			kept(rt, top)
		}
		last := kept(rt, top)
		for top.CanUndo() {
			top = top.Undo()
		}
		if got := kept(rt, top); !bytes.Equal(got, first) {
			rt.Fatalf("all taken back: %s, was %s", got, first)
		}
		for top.CanRedo() {
			top = top.Redo()
		}
		if got := kept(rt, top); !bytes.Equal(got, last) {
			rt.Fatalf("all done again: %s, was %s", got, last)
		}
	})
}

func kept(t *rapid.T, top Top) []byte {
	doc, err := quilt.EncodeQuilt(top.Quilt)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return doc
}

// A choice counts for the place, or for all of its kind, and clears what single
// places of the kind had; a rectangle turns by halves, a triangle not at all.
func TestChoicesForOneAndForAll(t *testing.T) {
	q, designs := quilt.Demo()
	top := Open(q, designs).Choose(0)
	for i, c := range top.Laying.Cells {
		if c.ID == "block-1-1" {
			top = top.Choose(i)
		}
	}
	one := top.SetScope(OnlyThis).Give("demo-ripples").Turn()
	if got := one.Choice(); got != (quilt.Choice{Design: "demo-ripples", QuarterTurns: 1}) {
		t.Errorf("the place has %v", got)
	}
	if lilies := placesOf(one, "demo-lily"); lilies != 9 {
		t.Errorf("%d places keep their lily, want 9 of 10", lilies)
	}
	if lilies := placesOf(one.SetScope(AllOfKind).Give("demo-lily"), "demo-lily"); lilies != 10 {
		t.Errorf("%d places have a lily after choosing it for all, want 10", lilies)
	}
	for kind, want := range map[motif.ShapeKind]int{motif.Square: 1, motif.OnPoint: 1, motif.Rectangle: 2, motif.SettingTriangle: 0, motif.HalfSquare: 0} {
		if got := turnStep(kind); got != want {
			t.Errorf("a %s turns by %d quarters, want %d", kind, got, want)
		}
	}
}

func placesOf(top Top, design string) int {
	n := 0
	for _, p := range top.Laying.Placed {
		if top.Laying.Works[p.Work].Design.ID == design {
			n++
		}
	}
	return n
}

// With a border gone, what lay in those outside it moves in with them.
func TestDesignsMoveInWithTheirBorder(t *testing.T) {
	q, designs := quilt.Demo()
	q.Borders = append(q.Borders, quilt.Border{WidthMM: 60})
	q = q.PlaceAll(quilt.BorderKind(1), quilt.Choice{Design: "demo-reeds"})
	top, err := Open(q, designs).DropBorder(0)
	if err != nil {
		t.Fatal(err)
	}
	if got := top.Quilt.ByKind[quilt.BorderKind(0)].Design; got != "demo-reeds" || top.Quilt.Borders[0].WidthMM != 60 {
		t.Errorf("the border left is %v mm wide with %q, want 60 mm with the reeds", top.Quilt.Borders[0].WidthMM, got)
	}
}
