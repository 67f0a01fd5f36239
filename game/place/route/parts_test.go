package route

import (
	"testing"

	"unthreaded/game/place"
	"unthreaded/game/top"
	"unthreaded/path/geom"
	"unthreaded/path/quilt"
)

// Of a row of equal blocks one is offered to be rehearsed, not each of them; every piece of
// the row is one of those counted.
func TestEqualBlocksAreRehearsedOnce(t *testing.T) {
	q, designs := quilt.Demo()
	q.Rows, q.Cols = 1, 9
	s := place.Shared{Settings: place.DefaultSettings(), Screen: windows[0]}
	for _, d := range designs {
		s.Designs = append(s.Designs, d)
	}
	s.Top = top.Open(q, s.DesignsByID()).Planned()
	r := New().With(s).(Room)
	for _, st := range r.Top.Plan.Order.Stages {
		r = r.open(r.stageDrawing(st))
		sum := 0
		for _, p := range r.parts() {
			sum += p.alike
		}
		if n := len(r.Desk.Pieces()); sum != n {
			t.Errorf("%s: of %d pieces %d are told of", st.ID, n, sum)
		}
		if st.ID == "row-1" && len(r.parts()) != 3 {
			t.Errorf("a row of two designs and one strip offers %d parts, want 3", len(r.parts()))
		}
	}
}

// A line is like another that lies elsewhere, not like one that is turned or longer.
func TestSameShape(t *testing.T) {
	line := func(pts ...geom.Point) geom.Line {
		l, err := geom.NewLine(pts)
		if err != nil {
			t.Fatal(err)
		}
		return l
	}
	a := line(geom.Pt(0, 0), geom.Pt(3, 0), geom.Pt(3, 4))
	if !sameShape(a, line(geom.Pt(10, 5), geom.Pt(13, 5), geom.Pt(13, 9))) {
		t.Error("a shifted line is not alike")
	}
	for _, b := range []geom.Line{line(geom.Pt(0, 0), geom.Pt(0, 3), geom.Pt(4, 3)), line(geom.Pt(0, 0), geom.Pt(3, 0), geom.Pt(3, 5)), line(geom.Pt(0, 0), geom.Pt(7, 0))} {
		if sameShape(a, b) {
			t.Errorf("%v is taken for alike", b.Path())
		}
	}
}
