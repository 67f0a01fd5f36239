package plane

import (
	"fmt"
	"math"
	"math/rand"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// A grid of 100 mm squares of which three have no second line: the gaps wider than
// 60 mm are those three, half a side in radius (closed form), in any order of equals.
func TestWideGapsOfAGrid(t *testing.T) {
	strokes := lines(500, 500, 100, true)
	empty := map[[2]int]bool{{0, 0}: true, {3, 1}: true, {2, 4}: true}
	for i := range 5 {
		for j := range 5 {
			if !empty[[2]int{i, j}] {
				x, y := 100*float64(i), 100*float64(j)
				strokes = append(strokes, Stroke{Name: "cross", Kind: Sewn, Path: geom.Polyline{geom.Pt(x+50, y), geom.Pt(x+50, y+100)}})
			}
		}
	}
	gaps, err := WideGaps(strokes, rectangle(500, 500), 60, 10, GapOptions{})
	if err != nil || len(gaps) != 3 {
		t.Fatalf("%d gaps (%v), want 3: %v", len(gaps), err, gaps)
	}
	for _, g := range gaps {
		if at := [2]int{int(g.Centre.X / 100), int(g.Centre.Y / 100)}; !empty[at] || math.Abs(g.Width()-100) > 2*DefaultGapTolerance {
			t.Errorf("a gap %v mm wide at %v", g.Width(), g.Centre)
		}
	}
}

// Whatever the lines: the gaps are empty, wider than the limit, do not overlap,
// come in falling order, and the list is full or leaves no wider circle free.
func TestWideGapsInvariants(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		strokes, within := drawScene(rt)
		limit := rapid.Float64Range(5, 60).Draw(rt, "limit")
		most := rapid.IntRange(1, 12).Draw(rt, "most")
		gaps, err := WideGaps(strokes, within, limit, most, GapOptions{})
		if err != nil {
			rt.Fatal(err)
		}
		for i, g := range gaps {
			if r := emptyRadius(strokes, within, g.Centre); g.Width() <= limit || r < g.Radius-1e-9 {
				rt.Fatalf("gap %d: width %v, limit %v, the circle about it %v", i, g.Width(), limit, 2*r)
			}
			if i > 0 && g.Radius > gaps[i-1].Radius+DefaultGapTolerance {
				rt.Fatalf("gap %d of radius %v comes after %v", i, g.Radius, gaps[i-1].Radius)
			}
			for k, h := range gaps[:i] {
				if geom.Dist(g.Centre, h.Centre) < g.Radius+h.Radius-1e-9 {
					rt.Fatalf("gaps %d and %d overlap", k, i)
				}
			}
		}
		r := rand.New(rand.NewSource(1))
		for range 500 {
			p := geom.Pt(200*r.Float64()-100, 200*r.Float64()-100)
			free := emptyRadius(strokes, within, p)
			for _, g := range gaps {
				free = math.Min(free, geom.Dist(p, g.Centre)-g.Radius)
			}
			if len(gaps) < most && free > limit/2+1e-9 {
				rt.Fatalf("at %v a circle of radius %v is free beside %d gaps", p, free, len(gaps))
			}
		}
	})
}

// Lines one way s apart have 1/s of length for the area; a grid 2/s (closed forms).
func TestEvennessOfLines(t *testing.T) {
	for _, c := range []struct {
		both bool
		want float64
	}{{false, 1.0 / 20}, {true, 2.0 / 20}} {
		var strokes []Stroke
		for _, s := range lines(400, 400, 20, c.both) {
			// Half a spacing in, so that no line runs along a window's side.
			s.Path = s.Path.Map(func(p geom.Point) geom.Point { return geom.Pt(p.X-10, p.Y-10) })
			strokes = append(strokes, s)
		}
		within := rectangle(380, 380)
		e, err := MeasureEvenness(strokes, within, 95, GapOptions{})
		if err != nil {
			t.Fatal(err)
		}
		if e.Windows != 16 || e.WindowW != 95 || math.Abs(e.Mean-c.want) > 0.06*c.want {
			t.Errorf("%d windows of %v with mean %v, want 16 of 95 with about %v", e.Windows, e.WindowW, e.Mean, c.want)
		}
		e, err = MeasureEvenness(strokes, geom.MustParse("M 20 20 L 320 20 L 320 320 L 20 320 Z"), 100, GapOptions{})
		if err != nil || math.Abs(e.Mean-c.want) > 1e-9 || e.CV > 1e-6 {
			t.Errorf("mean %v with CV %v (%v), want %v evenly", e.Mean, e.CV, err, c.want)
		}
	}
}

// Half of a square stitched and half bare: of two windows one has all, so that the
// standard deviation equals the mean. Nothing stitched has density 0 and CV 0.
func TestEvennessOfHalves(t *testing.T) {
	strokes := []Stroke{
		{Name: "a", Kind: Sewn, Path: geom.MustParse("M 0 50 L 100 50")},
		{Name: "ditch", Kind: Seam, Path: geom.MustParse("M 100 50 L 200 50")},
	}
	within := rectangle(200, 100)
	e, err := MeasureEvenness(strokes, within, 100, GapOptions{})
	if err != nil || e.Windows != 2 || math.Abs(e.CV-1) > 1e-9 || e.Mean != 0.005 || e.Densest.Lo.X != 0 || e.Sparsest.Lo.X != 100 {
		t.Errorf("%+v (%v)", e, err)
	}
	if e, err = MeasureEvenness(strokes, within, 100, GapOptions{Seams: true}); err != nil || e.CV > 1e-9 || e.Mean != 0.01 {
		t.Errorf("with the seam: %+v (%v)", e, err)
	}
	if e, err = MeasureEvenness(nil, within, 0, GapOptions{}); err != nil || e.CV != 0 || e.Mean != 0 || e.Windows != 2 {
		t.Errorf("nothing stitched: %+v (%v)", e, err)
	}
	for _, w := range []float64{-1, math.NaN(), 1e-3} {
		if _, err := MeasureEvenness(nil, within, w, GapOptions{}); err == nil {
			t.Errorf("a window of %v mm is taken", w)
		}
	}
}

// All that is stitched in the box is shared out, and the areas add up to that of the
// outline, also where it is not convex (against the trapezium over fine strips).
func TestWindowsShareOutAll(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		strokes, within := drawScene(rt)
		lo, hi := within.Bounds()
		g := windowGrid{lo: lo, cols: rapid.IntRange(1, 9).Draw(rt, "cols"), rows: rapid.IntRange(1, 9).Draw(rt, "rows")}
		g.w, g.h = (hi.X-lo.X)/float64(g.cols), (hi.Y-lo.Y)/float64(g.rows)
		g.stitched = make([]float64, g.cols*g.rows)
		var want, got, area float64
		for _, s := range strokes {
			for i := 1; i < len(s.Path); i++ {
				g.stitch(s.Path[i-1], s.Path[i])
				want += insideLength(s.Path[i-1], s.Path[i], lo, hi)
			}
		}
		for k, length := range g.stitched {
			got += length
			a := geom.Pt(lo.X+float64(k%g.cols)*g.w, lo.Y+float64(k/g.cols)*g.h)
			area += areaWithin(clipped(within, a, geom.Pt(a.X+g.w, a.Y+g.h)))
		}
		if math.Abs(got-want) > 1e-6 || math.Abs(area-areaWithin(within)) > 1e-6 {
			rt.Fatalf("length %v of %v, area %v of %v", got, want, area, areaWithin(within))
		}
	})
}

// insideLength is the length of a segment within a box, from the shares at which it
// crosses the four lines of its sides.
func insideLength(a, b, lo, hi geom.Point) float64 {
	cuts := []float64{0, 1, (lo.X - a.X) / (b.X - a.X), (hi.X - a.X) / (b.X - a.X), (lo.Y - a.Y) / (b.Y - a.Y), (hi.Y - a.Y) / (b.Y - a.Y)}
	cuts = slices.DeleteFunc(cuts, func(t float64) bool { return !(t >= 0 && t <= 1) })
	slices.Sort(cuts)
	var sum float64
	for i := 1; i < len(cuts); i++ {
		m := geom.Lerp(a, b, (cuts[i-1]+cuts[i])/2)
		if m.X > lo.X && m.X < hi.X && m.Y > lo.Y && m.Y < hi.Y {
			sum += (cuts[i] - cuts[i-1]) * geom.Dist(a, b)
		}
	}
	return sum
}

// tops are line work of a whole top with about 10,000 chords and one of 100,000.
func tops() map[string][]Stroke {
	shells := func(d float64) []Stroke {
		var out []Stroke
		for y := d / 2; y < 1500; y += d / 2 {
			for x := d / 2; x < 1500; x += d {
				out = append(out, Stroke{Name: fmt.Sprint("shell ", len(out)), Kind: Sewn, Path: geom.Arc(geom.Pt(x, y), d/2, math.Pi, 2*math.Pi)})
			}
		}
		return out
	}
	var echoes []Stroke
	for r := 20.0; r < 750; r += 20 {
		echoes = append(echoes, Stroke{Name: "echo", Kind: Sewn, Path: geom.Arc(geom.Pt(750, 750), r, 0, 2*math.Pi)})
	}
	var grid []Stroke
	for _, s := range lines(1500, 1500, 20, true) {
		cut := Stroke{Name: s.Name, Kind: Sewn}
		for i := range 67 {
			cut.Path = append(cut.Path, geom.Lerp(s.Path[0], s.Path[1], float64(i)/66))
		}
		grid = append(grid, cut)
	}
	rows := lines(1500, 1500, 10, false)
	return map[string][]Stroke{"grid": grid, "shells 100": shells(100), "shells 40": shells(40), "echoes": echoes, "rows": rows}
}

func BenchmarkLargestGap(b *testing.B) {
	for name, strokes := range tops() {
		n := 0
		for _, s := range strokes {
			n += len(s.Path) - 1
		}
		b.Run(fmt.Sprintf("%s/chords=%d", name, n), func(b *testing.B) {
			for b.Loop() {
				if _, err := LargestGap(strokes, rectangle(1500, 1500), GapOptions{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkWideGaps(b *testing.B) {
	strokes := tops()["grid"]
	for b.Loop() {
		if _, err := WideGaps(strokes, rectangle(1500, 1500), 10, 20, GapOptions{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkEvenness(b *testing.B) {
	strokes := tops()["shells 40"]
	for b.Loop() {
		if _, err := MeasureEvenness(strokes, rectangle(1500, 1500), 0, GapOptions{}); err != nil {
			b.Fatal(err)
		}
	}
}
