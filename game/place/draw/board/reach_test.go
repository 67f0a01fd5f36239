package board

import (
	"testing"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// The target size for a pointer of WCAG 2.2, success criterion 2.5.5, is 44 CSS
// pixels: a finger 21 px beside a point takes it, one 23 px beside it does not. What
// lies nearer than the point is taken in its stead.
func TestAFingerTakesWhatIsNearest(t *testing.T) {
	b := fresh(motif.Square, 150)
	b.Pixel, b.Finger = 0.25, true
	b = press(b.SetTool(Ruler), geom.Pt(30, 30), geom.Pt(100, 30))
	b = b.Finish()
	b = press(b, geom.Pt(30, 42), geom.Pt(100, 42)).Finish()
	b = b.ChooseLine(0)
	for _, c := range []struct {
		px          float64 // how far the finger is above the first line's start
		line, point int
	}{{21, 0, 0}, {23, None, None}} {
		got := b.Down(geom.Pt(30, 30-c.px*b.Pixel))
		if got.Chosen != c.line || got.Node != c.point {
			t.Errorf("%v px away: line %d, point %d; want %d, %d", c.px, got.Chosen, got.Node, c.line, c.point)
		}
	}
	// 20 px below the point is a hair's breadth from the other line, 48 px below.
	other := b
	other.Pixel = 0.4
	if got := other.Down(geom.Pt(30, 38)); got.Chosen != 1 {
		t.Errorf("the line is 10 px away, the point of the other 20: line %d is taken", got.Chosen)
	}
	b.Finger = false
	if got := b.Down(geom.Pt(30, 30-21*b.Pixel)); got.Chosen != None {
		t.Error("a mouse 21 px away takes the point")
	}
}

// A second finger takes back what the first has begun, but no dot set before.
func TestUnpressLeavesTheDotsSetBefore(t *testing.T) {
	b := fresh(motif.Square, 150).SetTool(Ruler)
	if got := b.Down(geom.Pt(30, 30)).Move(geom.Pt(60, 60)).Unpress(); len(got.Chain) != 0 {
		t.Errorf("%d dots of a line that was just begun", len(got.Chain))
	}
	b = press(press(b, geom.Pt(30, 30)), geom.Pt(60, 60))
	if got := b.Down(geom.Pt(90, 30)).Unpress(); len(got.Chain) != 2 || len(got.Design.Lines) != 0 {
		t.Errorf("%d dots, %d lines; want the 2 set before", len(got.Chain), len(got.Design.Lines))
	}
	p := fresh(motif.Square, 150).Down(geom.Pt(30, 30)).Move(geom.Pt(80, 70)).Unpress().Up()
	if len(p.Design.Lines) != 0 || len(p.Stroke) != 0 {
		t.Error("a stroke is left after a second finger")
	}
}
