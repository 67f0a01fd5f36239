package plane

import (
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

func rectangle(w, h float64) geom.Polyline {
	return geom.Polyline{{}, {X: w}, {X: w, Y: h}, {Y: h}, {}}
}

// lines returns n+1 level lines across a rectangle, and with both the upright ones.
func lines(w, h, spacing float64, both bool) []Stroke {
	var out []Stroke
	add := func(a, b geom.Point) {
		out = append(out, Stroke{Name: fmt.Sprint("line ", len(out)), Kind: Sewn, Path: geom.Polyline{a, b}})
	}
	for y := 0.0; y <= h+1e-9; y += spacing {
		add(geom.Pt(0, y), geom.Pt(w, y))
	}
	for x := 0.0; both && x <= w+1e-9; x += spacing {
		add(geom.Pt(x, 0), geom.Pt(x, h))
	}
	return out
}

// hexagons returns points, each a tiny stroke, on a triangular lattice with the
// given side.
func hexagons(w, h, side float64) []Stroke {
	var out []Stroke
	for j := 0; float64(j)*side*math.Sqrt(3)/2 <= h; j++ {
		for i := 0; float64(i)*side <= w; i++ {
			p := geom.Pt((float64(i)+0.5*float64(j%2))*side, float64(j)*side*math.Sqrt(3)/2)
			out = append(out, Stroke{Name: "dot", Kind: Sewn, Path: geom.Polyline{p, geom.Pt(p.X+1e-6, p.Y)}})
		}
	}
	return out
}

// Closed forms of elementary geometry: the circle between the lines of a grid has
// half the spacing for radius; in a triangle it is the inradius, area over half the
// perimeter; of a 3-4-5 triangle that is 1 (Euclid); among the points of a triangular
// lattice the circumradius of its triangle, side/sqrt3; in a quarter of a circle of
// radius R it touches both arms and the arc, r sqrt2 + r = R; in a quarter of a ring
// between 40 and 100 it touches both arcs; within the inner circle it is that.
func TestLargestGapAgainstClosedForms(t *testing.T) {
	ring := Stroke{Name: "ring", Kind: Sewn, Path: geom.Arc(geom.Pt(100, 100), 100, 0, 2*math.Pi)}
	cross := Stroke{Name: "cross", Kind: Sewn, Path: geom.MustParse("M 0 100 L 200 100")}
	down := Stroke{Name: "down", Kind: Sewn, Path: geom.MustParse("M 100 0 L 100 200")}
	inner := ring
	inner.Path = geom.Arc(geom.Pt(100, 100), 40, 0, 2*math.Pi)
	for _, c := range []struct {
		name    string
		strokes []Stroke
		within  geom.Polyline
		want    float64
	}{
		{"empty square", nil, rectangle(200, 200), 100},
		{"long border", nil, rectangle(2000, 60), 30},
		{"3-4-5 triangle", nil, geom.MustParse("M 0 0 L 40 0 L 40 30 Z"), 10},
		{"equilateral triangle", nil, geom.Polyline{{}, {X: 120}, {X: 60, Y: 60 * math.Sqrt(3)}, {}}, 120 / (2 * math.Sqrt(3))},
		{"right isosceles triangle", nil, geom.MustParse("M 0 100 L 200 100 L 100 0 Z"), 100 * (math.Sqrt2 - 1)},
		{"L-shape, the wide arm and corner", nil, geom.MustParse("M 0 0 L 100 0 L 100 40 L 40 40 L 40 100 L 0 100 Z"), 40 * math.Sqrt2 / (1 + math.Sqrt2)},
		{"parallel lines", lines(1000, 1000, 25, false), rectangle(1000, 1000), 12.5},
		{"grid", lines(500, 400, 20, true), rectangle(500, 400), 10},
		{"points on a hexagonal lattice", hexagons(400, 400, 30), geom.MustParse("M 60 60 L 300 60 L 300 300 L 60 300 Z"), 30 / math.Sqrt(3)},
		{"quartered circle", []Stroke{ring, cross, down}, rectangle(200, 200), 100 / (1 + math.Sqrt2)},
		{"quartered ring", []Stroke{ring, inner, cross, down}, rectangle(200, 200), 30},
		{"ring", []Stroke{ring, inner}, rectangle(200, 200), 40},
	} {
		g, err := LargestGap(c.strokes, c.within, GapOptions{ToleranceMM: 0.01})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if g.Radius < c.want-0.01-geom.Sagitta || g.Radius > c.want+geom.Sagitta {
			t.Errorf("%s: radius %.4f at %v, want %.4f", c.name, g.Radius, g.Centre, c.want)
		}
	}
}

// emptyRadius is the brute force: the radius of the empty circle about p, negative
// outside; the winding number says what is inside.
func emptyRadius(strokes []Stroke, within geom.Polyline, p geom.Point) float64 {
	least := math.Inf(1)
	look := func(pl geom.Polyline) {
		for i := 1; i < len(pl); i++ {
			_, q := geom.NearestOnSegment(p, pl[i-1], pl[i])
			least = math.Min(least, geom.Dist(p, q))
		}
	}
	look(within)
	for _, s := range strokes {
		look(s.Path)
	}
	var turn float64
	for i := 1; i < len(within); i++ {
		u, v := r2.Sub(within[i-1], p), r2.Sub(within[i], p)
		turn += math.Atan2(r2.Cross(u, v), r2.Dot(u, v))
	}
	if math.Abs(turn) < 1 {
		return -least
	}
	return least
}

// No point of a fine grid has a larger empty circle, and the circle found is empty.
func TestLargestGapAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		strokes, within := drawScene(rt)
		tol := rapid.Float64Range(0.01, 2).Draw(rt, "tolerance")
		g, err := LargestGap(strokes, within, GapOptions{ToleranceMM: tol})
		if err != nil {
			rt.Fatal(err)
		}
		if r := emptyRadius(strokes, within, g.Centre); math.Abs(r-g.Radius) > 1e-9 {
			rt.Fatalf("the circle about %v has radius %v, not %v", g.Centre, r, g.Radius)
		}
		lo, hi := within.Bounds()
		for i := range 60 {
			for j := range 60 {
				p := geom.Pt(lo.X+(hi.X-lo.X)*float64(i)/59, lo.Y+(hi.Y-lo.Y)*float64(j)/59)
				if r := emptyRadius(strokes, within, p); r > g.Radius+tol {
					rt.Fatalf("at %v there is a gap of radius %v, found %v at %v", p, r, g.Radius, g.Centre)
				}
			}
		}
	})
}

// drawScene returns random strokes, some of which leave the outline, and a star-shaped
// outline, seldom convex.
func drawScene(rt *rapid.T) ([]Stroke, geom.Polyline) {
	r := rand.New(rand.NewSource(int64(rapid.IntRange(0, 1<<30).Draw(rt, "seed"))))
	n := rapid.IntRange(3, 9).Draw(rt, "corners")
	var within geom.Polyline
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		d := 20 + 80*r.Float64()
		within = append(within, geom.Pt(d*cos, d*sin))
	}
	within = append(within, within[0])
	var out []Stroke
	for range rapid.IntRange(0, 12).Draw(rt, "strokes") {
		s := Stroke{Name: "s", Kind: Sewn, Path: geom.Polyline{geom.Pt(200*r.Float64()-100, 200*r.Float64()-100)}}
		for range 1 + r.Intn(4) {
			last := s.Path[len(s.Path)-1]
			s.Path = append(s.Path, geom.Pt(last.X+60*r.Float64()-30, last.Y+60*r.Float64()-30))
		}
		out = append(out, s)
	}
	return out, within
}

// Moving, turning and mirroring keeps the largest gap; adding a line widens none.
func TestLargestGapInvariants(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		strokes, within := drawScene(rt)
		turn := rapid.Float64Range(-3, 3).Draw(rt, "turn")
		move := func(p geom.Point) geom.Point {
			return r2.Add(r2.Rotate(geom.Pt(-p.X, p.Y), turn, geom.Point{}), geom.Pt(300, -90))
		}
		opt := GapOptions{ToleranceMM: 0.05}
		g, err := LargestGap(strokes, within, opt)
		if err != nil {
			rt.Fatal(err)
		}
		moved := make([]Stroke, len(strokes))
		for i, s := range strokes {
			moved[i] = s
			moved[i].Path = s.Path.Map(move)
		}
		h, err := LargestGap(moved, within.Map(move), opt)
		if err != nil || math.Abs(g.Radius-h.Radius) > 0.05 {
			rt.Fatalf("radius %v, moved %v (%v)", g.Radius, h.Radius, err)
		}
		more, err := LargestGap(append(strokes, Stroke{Name: "more", Kind: Sewn, Path: geom.Polyline{within[0], {}}}), within, opt)
		if err != nil || more.Radius > g.Radius+0.05 {
			rt.Fatalf("radius %v, with one line more %v (%v)", g.Radius, more.Radius, err)
		}
	})
}

// Seams hold the batting only where they are sewn.
func TestSeamsCountOnRequest(t *testing.T) {
	ditch := []Stroke{{Name: "ditch", Kind: Seam, Path: geom.MustParse("M 0 50 L 100 50")}}
	for _, c := range []struct {
		seams bool
		want  float64
	}{{false, 50}, {true, 25}} {
		g, err := LargestGap(ditch, rectangle(100, 100), GapOptions{Seams: c.seams})
		if err != nil || math.Abs(g.Radius-c.want) > DefaultGapTolerance {
			t.Errorf("seams %v: radius %v (%v), want %v", c.seams, g.Radius, err, c.want)
		}
	}
}

func TestGapErrorsNameThePlace(t *testing.T) {
	square := rectangle(100, 100)
	bad := []Stroke{{Name: "a", Kind: Sewn, Path: square}, {Name: "b", Kind: "dotted", Path: square}}
	for _, c := range []struct {
		strokes []Stroke
		within  geom.Polyline
		opt     GapOptions
		want    string
	}{
		{bad, square, GapOptions{}, `stroke 1 ("b"): kind "dotted"`},
		{nil, square[:4], GapOptions{}, "outline: it ends 100 mm from where it starts"},
		{nil, geom.MustParse("M 0 0 L 10 0 L 0 0"), GapOptions{}, "outline: it encloses nothing"},
		{nil, nil, GapOptions{}, "outline: a line needs at least 2 points"},
		{nil, rectangle(1e5, 1e5), GapOptions{}, "outline: point 1"},
		{nil, square, GapOptions{ToleranceMM: 1e-9}, "tolerance"},
		{nil, square, GapOptions{ToleranceMM: math.NaN()}, "tolerance"},
	} {
		if _, err := LargestGap(c.strokes, c.within, c.opt); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("error %v, want %q", err, c.want)
		}
	}
	if _, err := WideGaps(nil, square, 0, 3, GapOptions{}); err == nil {
		t.Error("a limit of 0 is taken")
	}
	if _, err := WideGaps(nil, square, 9, 0, GapOptions{}); err == nil {
		t.Error("0 gaps are given")
	}
}
