package board

import (
	"bytes"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// Undo and redo are exact inverses after anything that is done with any tool: what is taken
// back comes again as it was, design and dots in hand, step by step to the beginning and to
// the end.
func TestUndoAndRedoAreExactInverses(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := fresh(motif.Square, 150)
		place := func() geom.Point {
			return geom.Pt(float64(rapid.IntRange(0, 15).Draw(rt, "x"))*10, float64(rapid.IntRange(0, 15).Draw(rt, "y"))*10)
		}
		for range rapid.IntRange(1, 25).Draw(rt, "steps") {
			switch rapid.SampledFrom([]string{"press", "press", "drag", "tool", "key", "escape", "delete", "kind", "undo", "redo", "all", "split"}).Draw(rt, "what") {
			case "press":
				b = press(b, place())
			case "drag":
				b = press(b, place(), place(), place())
			case "tool":
				b = b.SetTool(rapid.SampledFrom([]Tool{Pencil, Ruler, Change}).Draw(rt, "tool"))
			case "key":
				b = b.Key(rapid.SampledFrom([]string{"Enter", "ArrowLeft", "ArrowDown", "Delete"}).Draw(rt, "key"), rapid.Bool().Draw(rt, "shift"))
			case "escape":
				b = b.Escape()
			case "delete":
				b = b.Delete()
			case "kind":
				b = b.SetKind("ruler")
			case "undo":
				b = b.Undo()
			case "redo":
				b = b.Redo()
			case "all":
				b = b.ChooseLine(All)
			case "split":
				b = b.Split()
			}
			sameAfter(rt, b, Board.Undo, Board.Redo, Board.CanUndo)
			sameAfter(rt, b, Board.Redo, Board.Undo, Board.CanRedo)
		}
	})
}

// sameAfter goes as far as it can one way and back as many steps.
func sameAfter(rt *rapid.T, b Board, there, back func(Board) Board, can func(Board) bool) {
	now, n := b, 0
	for can(now) && n < 200 {
		now, n = there(now), n+1
	}
	for range n {
		now = back(now)
	}
	if !bytes.Equal(doc(rt, now), doc(rt, b)) || !slices.Equal(now.Chain, b.Chain) {
		rt.Fatalf("after %d steps and back: %d lines and %d dots in hand, were %d and %d", n, len(now.Design.Lines), len(now.Chain), len(b.Design.Lines), len(b.Chain))
	}
}

// Escape ends a ruler line as leaving the board does: 17 dots make a line of 17, and undo
// takes it back.
func TestEscapeLosesNoDots(t *testing.T) {
	b := fresh(motif.Square, 170).SetTool(Ruler)
	for i := range 17 {
		b.At = geom.Pt(10*float64(i), float64(20+10*(i%2)))
		b = b.SetDot()
	}
	b = b.Escape()
	if len(b.Chain) != 0 || len(b.Design.Lines) != 1 || len(b.Design.Lines[0].Dots) != 17 {
		t.Fatalf("%d lines after Escape, %d dots in hand", len(b.Design.Lines), len(b.Chain))
	}
	if b = b.Undo(); len(b.Design.Lines) != 0 {
		t.Error("undo does not take the line back")
	}
	pencil := fresh(motif.Square, 170).Down(geom.Pt(20, 20)).Move(geom.Pt(60, 25)).Move(geom.Pt(110, 40)).Escape()
	if len(pencil.Design.Lines) != 1 {
		t.Error("Escape loses the stroke of the pencil")
	}
}
