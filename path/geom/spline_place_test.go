package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// drawSpline draws a spline of up to 4 pieces with control points anywhere in a
// block, loops and cusps included.
func drawSpline(rt *rapid.T) Spline {
	n := rapid.IntRange(1, 4).Draw(rt, "pieces")
	c := rapid.Float64Range(-100, 100)
	s := make(Spline, 3*n+1)
	for i := range s {
		s[i] = Pt(c.Draw(rt, "x"), c.Draw(rt, "y"))
	}
	return s
}

// bernsteinAt is the curve in the Bernstein basis, for comparison with the
// construction by repeated interpolation.
func bernsteinAt(s Spline, i int, t float64) Point {
	a, b, c, d := s.Piece(i)
	u := 1 - t
	w0, w1, w2, w3 := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
	return Pt(w0*a.X+w1*b.X+w2*c.X+w3*d.X, w0*a.Y+w1*b.Y+w2*c.Y+w3*d.Y)
}

// Both parts of a cut run where the whole ran, at parameters scaled to them, and
// their lengths add up.
func TestSplitAgainstBernstein(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := drawSpline(rt)
		i := rapid.IntRange(0, s.Pieces()-1).Draw(rt, "piece")
		at := rapid.Float64Range(0.01, 0.99).Draw(rt, "t")
		before, after, err := s.Split(i, at)
		if err != nil {
			rt.Fatal(err)
		}
		if before.Pieces() != i+1 || after.Pieces() != s.Pieces()-i {
			rt.Fatalf("%d and %d pieces of %d cut in piece %d", before.Pieces(), after.Pieces(), s.Pieces(), i)
		}
		for u := 0.0; u <= 1; u += 0.125 {
			if d := Dist(before.At(i, u), bernsteinAt(s, i, u*at)); d > 1e-10 {
				rt.Fatalf("before the cut at %v: %v mm off", u, d)
			}
			if d := Dist(after.At(0, u), bernsteinAt(s, i, at+u*(1-at))); d > 1e-10 {
				rt.Fatalf("after the cut at %v: %v mm off", u, d)
			}
		}
		if got, want := before.Length()+after.Length(), s.Length(); math.Abs(got-want) > 1e-6 {
			rt.Fatalf("the parts are %v mm long, the whole %v", got, want)
		}
	})
}

func TestSplitAtNodesAndEnds(t *testing.T) {
	s := Straight(MustParse("M 0 0 L 10 0 L 10 10"))
	before, after, err := s.Split(0, 1)
	if err != nil || Format(before.Nodes()) != "M 0 0 L 10 0" || Format(after.Nodes()) != "M 10 0 L 10 10" {
		t.Errorf("cut in the node: %v and %v (%v)", before, after, err)
	}
	for _, c := range []struct {
		piece int
		t     float64
	}{{0, 0}, {1, 1}, {2, 0.5}, {-1, 0.5}, {0, 1.5}, {0, math.NaN()}} {
		if _, _, err := s.Split(c.piece, c.t); err == nil {
			t.Errorf("a cut on piece %d at %v was made", c.piece, c.t)
		}
	}
}

// Nearest finds what a walk over 4,000 places of each piece finds, or better, and
// the way to it stands at right angles to the curve.
func TestNearestAgainstDenseSearch(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := drawSpline(rt)
		p := Pt(rapid.Float64Range(-150, 150).Draw(rt, "px"), rapid.Float64Range(-150, 150).Draw(rt, "py"))
		got := s.Nearest(p)
		want := math.Inf(1)
		for i := 0; i < s.Pieces(); i++ {
			for k := 0; k <= 4000; k++ {
				want = math.Min(want, Dist(p, bernsteinAt(s, i, float64(k)/4000)))
			}
		}
		// A walk in steps of v/4000 misses the nearest place by at most half a step; the
		// search takes a part for its chord once it is within flatEnough of it.
		if got.Dist > want+flatEnough || got.Dist < want-0.2 {
			rt.Fatalf("nearest at %v mm, the dense search found %v", got.Dist, want)
		}
		if d := math.Abs(Dist(p, bernsteinAt(s, got.Piece, got.T)) - got.Dist); d > 1e-9 {
			rt.Fatalf("the place and its distance differ by %v mm", d)
		}
	})
}

// The length of a quarter circle with k = 0.5522847498 is 157.1016698074 for radius
// 100 (adaptive quadrature, testdata/vectors/spiral_arclength.json); a cusp (control
// points of a folded curve) has that of a fine polyline.
func TestSplineLength(t *testing.T) {
	const r, k = 100.0, 0.5522847498
	near(t, "quarter circle", Spline{Pt(r, 0), Pt(r, r*k), Pt(r*k, r), Pt(0, r)}.Length(), 157.1016698074, 1e-7)
	near(t, "straight", Straight(MustParse("M 0 0 L 30 40 L 30 0")).Length(), 90, 1e-9)
	cusp := Spline{Pt(0, 0), Pt(100, 100), Pt(0, 100), Pt(100, 0)}
	fine := Polyline{}
	for i := 0; i <= 200000; i++ {
		fine = append(fine, bernsteinAt(cusp, 0, float64(i)/200000))
	}
	near(t, "cusp", cusp.Length(), fine.Length(), 1e-5)
}

// The box holds the curve and is touched by it on all sides.
func TestBoundsAgainstDensePoints(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := drawSpline(rt)
		lo, hi := s.Bounds()
		var dense Polyline
		for i := 0; i < s.Pieces(); i++ {
			for k := 0; k <= 2000; k++ {
				dense = append(dense, bernsteinAt(s, i, float64(k)/2000))
			}
		}
		dlo, dhi := dense.Bounds()
		for _, d := range []float64{dlo.X - lo.X, dlo.Y - lo.Y, hi.X - dhi.X, hi.Y - dhi.Y} {
			if d < -1e-9 || d > 1e-3 {
				rt.Fatalf("the box %v %v, dense points %v %v", lo, hi, dlo, dhi)
			}
		}
	})
}

// The tangent is the limit of chords, at handles without length too.
func TestTangent(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := drawSpline(rt)
		at := rapid.Float64Range(0.05, 0.95).Draw(rt, "t")
		a, b := bernsteinAt(s, 0, at-1e-6), bernsteinAt(s, 0, at)
		if Dist(a, b) < 1e-5 {
			return // nearly a cusp: the chord has no digits
		}
		got := s.Tangent(0, at)
		if d := math.Abs(got.X*(b.Y-a.Y)-got.Y*(b.X-a.X)) / Dist(a, b); d > 1e-2 {
			rt.Fatalf("tangent %v, chord %v to %v", got, a, b)
		}
	})
	pulledIn := Spline{Pt(0, 0), Pt(0, 0), Pt(10, 10), Pt(20, 10)}
	if d := Dist(pulledIn.Tangent(0, 0), Pt(math.Sqrt2/2, math.Sqrt2/2)); d > 1e-12 {
		t.Errorf("without a handle the start leaves along %v", pulledIn.Tangent(0, 0))
	}
	if got := pulledIn.Reversed().Tangent(0, 1); Dist(got, Pt(-math.Sqrt2/2, -math.Sqrt2/2)) > 1e-12 {
		t.Errorf("and arrives there reversed along %v", got)
	}
	if got := (Spline{Pt(1, 1), Pt(1, 1), Pt(1, 1), Pt(1, 1)}).Tangent(0, 0.5); got != Pt(0, 0) {
		t.Errorf("a point has direction %v", got)
	}
}

func TestJoin(t *testing.T) {
	a, b := Straight(MustParse("M 0 0 L 10 0")), Straight(MustParse("M 10 1 L 20 1 L 20 9"))
	s, err := a.Join(b, 1.5)
	if err != nil || Format(s.Flatten()) != "M 0 0 L 10 0.5 L 20 1 L 20 9" {
		t.Errorf("joined to %v (%v)", s, err)
	}
	if _, err := a.Join(b, 0.9); err == nil {
		t.Error("ends 1 mm apart were joined over 0.9 mm")
	}
	if Format(Polyline(a)) != Format(Polyline(Straight(MustParse("M 0 0 L 10 0")))) {
		t.Error("joining changed the first line")
	}
	if s.Closed() || !Straight(MustParse("M 0 0 L 9 0 L 9 9 Z")).Closed() {
		t.Error("closed and open are mixed up")
	}
}
