package quilt

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// ruled is ruler work for a strip: its two diagonals, and one line across its middle with a
// dot half way.
func ruled(w, h float64) Design {
	d := marked("ruled", motif.Shape{Kind: motif.Rectangle, W: w, H: h}, "M 0 0 L 1 1")
	line := func(name string, p, q geom.Point, dots ...float64) Line {
		return Line{Name: name, Kind: "ruler", Path: geom.Straight(geom.Polyline{p, q}), Dots: dots}
	}
	d.Lines = []Line{
		line("down", geom.Pt(0, 0), geom.Pt(w, h)), line("up", geom.Pt(0, h), geom.Pt(w, 0)),
		line("middle", geom.Pt(0, h/2), geom.Pt(w, h/2), 0, w/2, w),
	}
	return d
}

// Ruler work made for a strip of sashing lies in all strips whatever size blocks and strips
// take: from corner to corner, and half way; nothing is dropped, and with the first size
// again it is as it was.
func TestRulerWorkFollowsItsStrip(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		q := plain(Straight, 3, 2)
		q.Sashing = Sashing{WidthMM: 30, Cornerstones: true}
		q = q.PlaceAll(Strip, Choice{Design: "ruled"})
		designs := Designs{"ruled": ruled(q.BlockMM, 30)}
		first := q.Lay(designs)
		q.BlockMM = rapid.Float64Range(40, 400).Draw(rt, "block")
		q.Sashing.WidthMM = rapid.Float64Range(12, 90).Draw(rt, "sashing")
		l := q.Lay(designs)
		if len(l.Misfits) > 0 || len(l.Placed) != len(first.Placed) {
			rt.Fatalf("%d of %d strips are filled; %v", len(l.Placed), len(first.Placed), l.Misfits)
		}
		for _, p := range l.Placed {
			c, w := l.Cells[p.Cell], l.Works[p.Work]
			corners := c.Outline()
			for i, piece := range w.Pieces[:2] {
				path := p.Where.Path(piece.Path)
				for k, end := range []geom.Point{path[0], path[len(path)-1]} {
					if d := nearestPoint(end, corners); d > 1e-3 {
						rt.Errorf("%s: end %d of line %d lies %v mm from a corner", c.ID, k, i, d)
					}
				}
			}
			dots := w.Design.Lines[2].Dots
			if long := w.Design.Shape.W; len(dots) != 3 || math.Abs(dots[1]-long/2) > 1e-6*long || math.Abs(dots[2]-long) > 1e-6*long {
				rt.Errorf("%s: dots at %v on %v mm", c.ID, dots, long)
			}
		}
	})
}

// Curves that she drew do not follow a strip of other proportions: that is said, and the
// choice stays.
func TestDrawnCurvesAreSaidToBeUnfit(t *testing.T) {
	q := plain(Straight, 2, 2)
	q.Sashing = Sashing{WidthMM: 30, Cornerstones: true}
	q = q.PlaceAll(Strip, Choice{Design: "curve"})
	d := marked("curve", motif.Shape{Kind: motif.Rectangle, W: q.BlockMM, H: 30}, "M 0 0 L 150 30")
	if l := q.Lay(Designs{"curve": d}); len(l.Misfits) > 0 {
		t.Fatalf("it does not lie where it was made for: %v", l.Misfits)
	}
	q.BlockMM += 20
	l := q.Lay(Designs{"curve": d})
	if len(l.Misfits) != 4 || l.Misfits[0].Why != OtherShape || q.ByKind[Strip].Design != "curve" {
		t.Errorf("%d strips are said to be unfit: %+v", len(l.Misfits), l.Misfits)
	}
}
