package machine

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// Two ruler lines at a right angle, cut at the corner; dots no further apart than
// asked; the ruler's edge a quarter of an inch beside (common practice).
func TestMarkRulerAtACorner(t *testing.T) {
	w := workOf(t, true, "M 0 0 L 100 0 L 100 60")
	got := must[[]RulerMarks](t)(w.MarkRuler(RulerOffset.Usual, 50, RightSide))
	if len(got) != 2 || len(got[0].Marks) != 3 || len(got[1].Marks) != 3 {
		t.Fatalf("marks %+v, want 3 on each of 2 lines", got)
	}
	want := []Mark{{0, geom.Pt(0, 0), geom.Pt(0, 6.35)}, {50, geom.Pt(50, 0), geom.Pt(50, 6.35)}, {100, geom.Pt(100, 0), geom.Pt(100, 6.35)},
		{100, geom.Pt(100, 0), geom.Pt(93.65, 0)}, {130, geom.Pt(100, 30), geom.Pt(93.65, 30)}, {160, geom.Pt(100, 60), geom.Pt(93.65, 60)}}
	for i, m := range append(got[0].Marks, got[1].Marks...) {
		if math.Abs(m.At-want[i].At) > 1e-6 || geom.Dist(m.Dot, want[i].Dot) > 1e-6 || geom.Dist(m.Edge, want[i].Edge) > 1e-6 {
			t.Errorf("mark %d: %+v, want %+v", i, m, want[i])
		}
	}
}

// Adjoining ruler spans are one line, a dot cuts it, travel along it does not
// count.
func TestRulerLinesAcrossSpans(t *testing.T) {
	l, err := lineOf(t, "M 0 0 L 300 0").WithDots([]float64{0, 150, 300})
	if err != nil {
		t.Fatal(err)
	}
	w := Work{BlockW: 300, BlockH: 300, Pieces: []Piece{{Line: l, Spans: []Span{
		{From: 0, To: 100, Ruler: true}, {From: 100, To: 200, Ruler: true}, {From: 200, To: 300, Ruler: true, Travel: true}}}}}
	got := w.RulerLines()
	if len(got) != 2 || got[0] != (RulerLine{0, 0, 150}) || got[1] != (RulerLine{0, 150, 200}) {
		t.Errorf("ruler lines %+v, want 0 to 150 and 150 to 200", got)
	}
}

// A template lies outside a circle of 5 mm but not inside it with an offset of
// 6.35 mm; clockwise to the eye, the inside is on the right.
func TestNoRulerInsideATightBend(t *testing.T) {
	w := workOf(t, true, geom.Format(geom.Arc(geom.Pt(0, 0), 5, 0, 5)))
	if _, err := w.MarkRuler(6.35, 20, LeftSide); err != nil {
		t.Errorf("outside: %v", err)
	}
	if _, err := w.MarkRuler(6.35, 20, RightSide); err == nil || !strings.Contains(err.Error(), "ruler line 0") {
		t.Errorf("inside: error %v, want one that names ruler line 0", err)
	}
}

// Marks lie on the line, edges the offset beside it, dots no further apart than
// asked, both ends marked, and all ruler lines together are as long as the spans.
func TestMarksLieBesideTheLine(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := drawLine(rt)
		offset := rapid.Float64Range(RulerOffset.Min, RulerOffset.Max).Draw(rt, "offset")
		spacing := rapid.Float64Range(DotSpacing.Min, DotSpacing.Max).Draw(rt, "spacing")
		side := rapid.SampledFrom([]Side{LeftSide, RightSide}).Draw(rt, "side")
		w := Work{BlockW: 100, BlockH: 100, Pieces: []Piece{{Line: l, Spans: []Span{{From: 0, To: l.Length(), Ruler: true}}}}}
		lines, err := w.MarkRuler(offset, spacing, side)
		if err != nil {
			return
		}
		end := 0.0
		for _, r := range lines {
			if r.From > end+samePivot || math.Abs(r.Marks[0].At-r.From) > 1e-6 || math.Abs(r.Marks[len(r.Marks)-1].At-r.To) > 1e-5 {
				rt.Fatalf("line %v to %v after %v, marks %v", r.From, r.To, end, r.Marks)
			}
			end = r.To
			for i, m := range r.Marks {
				if geom.Dist(m.Dot, l.At(m.At)) > 1e-5 || math.Abs(geom.Dist(m.Dot, m.Edge)-offset) > 1e-9 {
					rt.Fatalf("mark %+v is off the line or the edge", m)
				}
				if i > 0 && m.At-r.Marks[i-1].At > spacing+1e-6 {
					rt.Fatalf("marks %v and %v are too far apart", r.Marks[i-1].At, m.At)
				}
			}
		}
		if l.Length()-end > samePivot {
			rt.Fatalf("marked up to %v of %v mm", end, l.Length())
		}
	})
}
