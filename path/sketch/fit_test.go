package sketch

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

func mustFit(t testing.TB, stroke geom.Polyline, o Options) (geom.Spline, Fitted) {
	t.Helper()
	s, told, err := Fit(stroke, o)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Validate(); err != nil {
		t.Fatal(err)
	}
	return s, told
}

// Known curves, drawn with jitter up to 0.2 mm (standard deviation, both ways) and
// samples 0.1 to 1 mm apart, come back within the tolerance of 0.5 mm, a tenth of
// that for the smoothing, and three
// quarters of the jitter's own reach (3 sd), in few pieces, with their corners and
// no others. The closed forms are those in hand_test.go; the heart has two corners:
// between its arcs and at its tip.
func TestFitOfKnownCurves(t *testing.T) {
	heart := append(geom.Arc(geom.Pt(30, 30), 20, math.Pi, 2*math.Pi), geom.Arc(geom.Pt(70, 30), 20, math.Pi, 2*math.Pi)...)
	heart = append(heart, geom.Bezier(geom.Pt(90, 30), geom.Pt(90, 60), geom.Pt(60, 80), geom.Pt(50, 95))...)
	heart = append(heart, geom.Bezier(geom.Pt(50, 95), geom.Pt(40, 80), geom.Pt(10, 60), geom.Pt(10, 30))...)
	for _, c := range []struct {
		name            string
		truth           geom.Polyline
		corners, pieces int
		closed          bool
	}{
		{"circle of radius 40", circle(40), 0, 6, true},
		{"circle of radius 8", circle(8), 0, 4, true},
		{"wave", sine(12, 60, 3), 0, 12, false},
		{"spiral", spiral(2, 4), 0, 18, false},
		{"heart", heart, 2, 16, true},
		{"square", geom.MustParse("M 10 10 L 90 10 L 90 90 L 10 90 Z"), 4, 4, true},
		{"zigzag", geom.MustParse("M 0 0 L 20 30 L 40 0 L 60 30 L 80 0 L 100 30"), 4, 5, false},
		// The ends stay where they were sampled; one far off bows the rest.
		{"straight", geom.MustParse("M 0 0 L 150 40"), 0, 4, false},
	} {
		for _, jitter := range []float64{0, 0.1, 0.2} {
			for _, spacing := range []float64{0.1, 0.3, 1} {
				for seed := range uint64(2) {
					stroke := hand(t, c.truth, spacing, jitter, seed)
					s, told := mustFit(t, stroke, Usual(0))
					off := farApart(s.Flatten(), c.truth)
					if most := 0.55 + 2.25*jitter; off > most {
						t.Errorf("%s, jitter %v, spacing %v, seed %d: %.3f mm off, expected at most %.2f", c.name, jitter, spacing, seed, off, most)
					}
					if told.Pieces > c.pieces || told.Closed != c.closed || len(told.Corners) != c.corners {
						t.Errorf("%s, jitter %v, spacing %v, seed %d: %+v, expected %d corners, at most %d pieces, closed %v",
							c.name, jitter, spacing, seed, told, c.corners, c.pieces, c.closed)
					}
				}
			}
		}
	}
}

// The corners of a zigzag are nodes within a millimetre of where they were drawn.
func TestFitKeepsCornersInPlace(t *testing.T) {
	truth := geom.MustParse("M 0 0 L 20 30 L 40 0 L 60 30 L 80 0 L 100 30")
	for seed := range uint64(20) {
		s, told := mustFit(t, hand(t, truth, 0.4, 0.12, seed), Usual(0))
		if len(told.Corners) != 4 {
			t.Fatalf("seed %d: corners at nodes %v, expected 4", seed, told.Corners)
		}
		for k, node := range told.Corners {
			if d := geom.Dist(s[3*node], truth[k+1]); d > 1 {
				t.Errorf("seed %d: corner %d lies %.2f mm from its place %v", seed, k, d, truth[k+1])
			}
			if j, err := JointAt(s, node); err != nil || j != Corner {
				t.Errorf("seed %d: node %d is not a corner", seed, node)
			}
		}
	}
}

// Whatever the stroke: its ends stay or the line is closed, other nodes than corners
// are smooth, and the change is what brute force measures.
func TestFitInvariants(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		stroke := drawStroke(rt)
		s, told, err := Fit(stroke, Usual(0))
		if errors.Is(err, ErrDot) {
			return
		}
		if err != nil || s.Validate() != nil {
			rt.Fatal(err, s.Validate())
		}
		if told.Closed != (s.Closed() && told.Closed) || !told.Closed && (s[0] != stroke[0] || s[len(s)-1] != stroke[len(stroke)-1]) {
			rt.Fatalf("%+v: ends %v, %v of a stroke from %v to %v", told, s[0], s[len(s)-1], stroke[0], stroke[len(stroke)-1])
		}
		corner := map[int]bool{}
		for _, k := range told.Corners {
			corner[k] = true
		}
		for k := 1; k < s.Pieces(); k++ {
			in, out := s.Tangent(k-1, 1), s.Tangent(k, 0)
			if !corner[k] && angleBetween(in, out) > 1e-6 {
				rt.Fatalf("node %d of %d is no corner, yet turns by %v", k, s.Pieces(), angleBetween(in, out))
			}
		}
		worst := 0.0
		for _, p := range stroke {
			worst = math.Max(worst, s.Nearest(p).Dist)
		}
		if told.MaxChange < worst-2*geom.Sagitta || told.MeanChange > told.MaxChange {
			rt.Fatalf("change %+v, a sample lies %v mm from the line", told, worst)
		}
	})
}

// drawStroke draws a stroke of random legs with rests and jumps.
func drawStroke(rt *rapid.T) geom.Polyline {
	r := rand.New(rand.NewPCG(rapid.Uint64().Draw(rt, "seed"), 1))
	n := rapid.IntRange(1, 200).Draw(rt, "samples")
	length := rapid.Float64Range(0, 20).Draw(rt, "step")
	p, angle := geom.Pt(0, 0), 0.0
	var out geom.Polyline
	for range n {
		out = append(out, p)
		angle += r.NormFloat64() * 0.5
		if r.IntN(5) > 0 {
			p = r2.Add(p, r2.Scale(length*r.Float64(), geom.Pt(math.Cos(angle), math.Sin(angle))))
		}
	}
	return out
}

// Moved, turned and reversed strokes give the same line, moved, turned and reversed:
// within rounding for the first two, within twice the tolerance for the last, since
// samples are gathered from the other end. More samples change no more than that.
func TestFitMovesWithTheStroke(t *testing.T) {
	for seed := range uint64(10) {
		truth := sine(12, 50, 3)
		stroke := hand(t, truth, 0.4, 0.1, seed)
		o := Usual(0)
		s, told := mustFit(t, stroke, o)
		move := Rotate(0.3+float64(seed), geom.Pt(7, 3)).Then(Translate(-40, 90))
		moved, toldMoved := mustFit(t, stroke.Map(move.Apply), o)
		if d := farApart(moved.Flatten(), s.Map(move.Apply).Flatten()); d > 1e-3 || toldMoved.Pieces != told.Pieces {
			t.Errorf("seed %d: the moved stroke gives a line %.4f mm away, of %d pieces instead of %d", seed, d, toldMoved.Pieces, told.Pieces)
		}
		back, _ := mustFit(t, stroke.Reversed(), o)
		if d := farApart(back.Flatten(), s.Flatten()); d > 2*o.Tolerance {
			t.Errorf("seed %d: the reversed stroke gives a line %.2f mm away", seed, d)
		}
		dense, _ := mustFit(t, hand(t, truth, 0.15, 0.1, seed+100), o)
		if d := farApart(dense.Flatten(), s.Flatten()); d > 2*o.Tolerance {
			t.Errorf("seed %d: more samples give a line %.2f mm away", seed, d)
		}
	}
}

func TestFitOfPoorStrokes(t *testing.T) {
	o := Usual(0)
	p := geom.Pt(3, 4)
	for name, stroke := range map[string]geom.Polyline{
		"nothing": nil, "one sample": {p}, "one place": {p, p, p, p}, "a dot": {p, geom.Pt(3.2, 4.1), p},
	} {
		if _, _, err := Fit(stroke, o); !errors.Is(err, ErrDot) {
			t.Errorf("%s: error %v, expected ErrDot", name, err)
		}
	}
	for _, bad := range []geom.Point{geom.Pt(math.NaN(), 0), geom.Pt(0, math.Inf(1)), geom.Pt(1e300, 0)} {
		if _, _, err := Fit(geom.Polyline{p, bad}, o); err == nil || errors.Is(err, ErrDot) {
			t.Errorf("sample %v: error %v", bad, err)
		}
	}
	if s, told := mustFit(t, geom.Polyline{p, p, geom.Pt(30, 4)}, o); told.Straight != 1 || s.Pieces() != 1 {
		t.Errorf("two places give %+v", told)
	}
	o.Corner = 0
	if _, _, err := Fit(geom.Polyline{p, geom.Pt(30, 4)}, o); err == nil {
		t.Error("a corner of 0 radians was accepted")
	}
}

// Loops whose ends nearly meet, or ran past each other, are closed without a kink; a
// wide gap, a dash and a narrow U are not.
func TestFitClosesLoops(t *testing.T) {
	arc := func(to float64) geom.Polyline { return geom.Arc(geom.Pt(0, 0), 20, 0, to) }
	grow := geom.Flatten(func(a float64) geom.Point {
		return geom.Pt((20+a/3)*math.Cos(a), (20+a/3)*math.Sin(a))
	}, 0, 2*math.Pi, 8)
	for _, c := range []struct {
		name   string
		stroke geom.Polyline
		closed bool
	}{
		{"3 mm short", arc(2*math.Pi - 0.15), true},
		{"3 mm too long", arc(2*math.Pi + 0.15), true},
		{"2 mm outside", grow, true},
		{"10 mm short", arc(2*math.Pi - 0.5), false},
		{"dash", geom.MustParse("M 0 0 L 3.5 0"), false},
		{"narrow U", geom.MustParse("M 0 0 L 0 10 L 3.5 10 L 3.5 0"), false},
	} {
		s, told := mustFit(t, hand(t, c.stroke, 0.3, 0.05, 4), Usual(0))
		if told.Closed != c.closed || s.Closed() != c.closed {
			t.Errorf("%s: closed %v, expected %v", c.name, told.Closed, c.closed)
		}
		if c.closed && (len(told.Corners) > 0 || told.MaxChange > 2.2) {
			t.Errorf("%s: %+v, expected no corner and a change of 2.2 mm at most", c.name, told)
		}
	}
}

// The estimate of jitter meets that of the generator where samples are farther apart
// than it is large, on a bend too.
func TestJitter(t *testing.T) {
	for _, want := range []float64{0.05, 0.1, 0.2} {
		if got := jitter(hand(t, circle(20), 1, want, 3)); math.Abs(got-want) > 0.2*want {
			t.Errorf("jitter %.3f, expected %v within 20 %%", got, want)
		}
	}
}

// 20,000 samples, as lines, as a scribble to and fro and as noise, give bounded lines.
func TestFitOfManySamples(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for name, f := range map[string]func(i int) geom.Point{
		"slow line": func(i int) geom.Point { return geom.Pt(0.01*float64(i)+0.3*r.NormFloat64(), 0.3*r.NormFloat64()) },
		"scribble":  func(i int) geom.Point { return geom.Pt(100*math.Sin(0.05*float64(i)), 0.01*float64(i)) },
		"noise":     func(i int) geom.Point { return geom.Pt(300*r.Float64(), 300*r.Float64()) },
	} {
		stroke := make(geom.Polyline, 20000)
		for i := range stroke {
			stroke[i] = f(i)
		}
		if s, _ := mustFit(t, stroke, Usual(0)); s.Pieces() > maxPoints {
			t.Errorf("%s: %d pieces, more than %d", name, s.Pieces(), maxPoints)
		}
	}
}

func BenchmarkFit(b *testing.B) {
	for _, c := range []struct {
		name    string
		spacing float64
	}{{"500-samples", 2.4}, {"2000-samples", 0.6}, {"20000-samples", 0.06}} {
		stroke := hand(b, spiral(5, 4), c.spacing, 0.1, 1)
		b.Run(c.name, func(b *testing.B) {
			b.ReportMetric(float64(len(stroke)), "samples")
			for b.Loop() {
				mustFit(b, stroke, Usual(0))
			}
		})
	}
}
