package top

import (
	"math"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// The widest gap is that which a dense search finds: at every place of a grid the
// distance to the nearest line or to the edge. And the gaps listed are wider than
// the limit, lie within the top and do not overlap.
func TestGapsAreThoseOfADenseSearch(t *testing.T) {
	q, designs := quilt.Demo()
	q.Rows, q.Cols, q.GapMM = 2, 2, 40
	top := Open(q, designs).Measure(false)
	ms := top.Measures
	if ms.Failed || len(ms.Wide) == 0 {
		t.Fatalf("%d gaps, failed: %v", len(ms.Wide), ms.Failed)
	}
	var paths []geom.Polyline
	for _, p := range top.Laying.Lines() {
		if !p.Seam {
			paths = append(paths, p.Path.Thinned(0.1))
		}
	}
	paths = append(paths, top.Outline())
	size, widest := q.Size(), 0.0
	const step = 9.0
	for x := step / 2; x < size.W; x += step {
		for y := step / 2; y < size.H; y += step {
			widest = math.Max(widest, room(geom.Pt(x, y), paths))
		}
	}
	// The grid misses the middle of the widest gap by at most half its diagonal.
	if r := ms.Largest.Radius; widest > r+gapTolerance || widest < r-step/math.Sqrt2-gapTolerance {
		t.Errorf("the largest gap has a radius of %v mm, the dense search found %v", r, widest)
	}
	for i, g := range ms.Wide {
		if d := room(g.Centre, paths); g.Width() <= q.GapMM || math.Abs(d-g.Radius) > 0.2 {
			t.Errorf("gap %d is %v mm wide with room for %v, limit %v", i, g.Width(), 2*d, q.GapMM)
		}
		for _, h := range ms.Wide[:i] {
			if geom.Dist(g.Centre, h.Centre) < g.Radius+h.Radius-1e-6 || g.Radius > h.Radius+gapTolerance {
				t.Errorf("gap %d overlaps one before it, or is wider", i)
			}
		}
	}
}

func room(p geom.Point, paths []geom.Polyline) float64 {
	best := math.Inf(1)
	for _, pl := range paths {
		for i := 1; i < len(pl); i++ {
			_, q := geom.NearestOnSegment(p, pl[i-1], pl[i])
			best = math.Min(best, geom.Dist(p, q))
		}
	}
	return best
}

// An empty square of side a holds a circle as wide as itself; with the seams
// stitched in the ditch the widest gap is that of the widest place.
func TestGapsOfAnEmptyTop(t *testing.T) {
	q := quilt.Quilt{Schema: quilt.Schema, ID: "q", Name: "plain", Setting: quilt.Straight, Rows: 2, Cols: 2, BlockMM: 100}
	top := Open(q, nil)
	if w := top.Measure(false).Measures.Largest.Width(); math.Abs(w-200) > 2*gapTolerance {
		t.Errorf("the widest gap is %v mm, want the side of the top, 200", w)
	}
	if w := top.Measure(true).Measures.Largest.Width(); math.Abs(w-100) > 2*gapTolerance {
		t.Errorf("with the seams stitched the widest gap is %v mm, want a block, 100", w)
	}
}

// ruled is a block of parallel lines, spaced evenly from side to side.
func ruled(side float64, n int) quilt.Design {
	d := quilt.Design{Schema: quilt.DesignSchema, ID: "ruled", Name: "Ruled", Shape: motif.Shape{Kind: motif.Square, W: side}, Seams: motif.NoSeams}
	for i := range n {
		y := side * (float64(i) + 0.5) / float64(n)
		d.Lines = append(d.Lines, quilt.Line{Name: "line", Kind: "ruler", Path: geom.Straight(geom.Polyline{geom.Pt(0, y), geom.Pt(side, y)})})
	}
	return d
}

// Lines s apart have a density of 1/s everywhere, so that the evenness is perfect.
func TestEvennessOfEvenLines(t *testing.T) {
	d := ruled(200, 20)
	q := quilt.Quilt{Schema: quilt.Schema, ID: "q", Name: "ruled", Setting: quilt.Straight, Rows: 2, Cols: 3, BlockMM: 200,
		ByKind: map[quilt.Kind]quilt.Choice{quilt.Block: {Design: d.ID}}}
	ms := Open(q, quilt.Designs{d.ID: d}).Measure(false).Measures
	if ms.Failed || math.Abs(1/ms.Spread.Mean-10) > 1e-6 || ms.Spread.CV > 1e-6 {
		t.Errorf("lines 10 mm apart lie %v apart, varying by %v (failed: %v)", 1/ms.Spread.Mean, ms.Spread.CV, ms.Failed)
	}
	if len(ms.Kinds) != 1 || math.Abs(1/ms.Kinds[0].Spread.Mean-10) > 1e-6 {
		t.Errorf("within the block: %+v", ms.Kinds)
	}
}
