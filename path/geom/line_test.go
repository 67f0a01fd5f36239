package geom

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"
)

func mustLine(t testing.TB, pl Polyline) Line {
	t.Helper()
	l, err := NewLine(pl)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.9g, want %.9g within %g", what, got, want, tol)
	}
}

// A 3-4-5 triangle (Euclid I.47) walked round: perimeter 12, three corners of
// which two are inner vertices.
func TestLineOfATriangle(t *testing.T) {
	l := mustLine(t, MustParse("M 0 0 L 4 0 L 4 3 Z"))
	near(t, "length", l.Length(), 12, 1e-12)
	if len(l.Corners) != 2 || l.Corners[0] != 4 || l.Corners[1] != 7 {
		t.Errorf("corners at %v, want 4 and 7", l.Corners)
	}
	if !l.Closed() {
		t.Error("the triangle should be closed")
	}
	if got := l.At(5.5); Dist(got, Pt(4, 1.5)) > 1e-12 {
		t.Errorf("at 5.5 mm: %v, want (4, 1.5)", got)
	}
	if got := l.Tangent(9.5); Dist(got, Pt(-0.8, -0.6)) > 1e-12 {
		t.Errorf("tangent on the long side: %v, want (-0.8, -0.6)", got)
	}
	if got, want := Format(l.Section(3, 8)), "M 3 0 L 4 0 L 4 3 L 3.2 2.4"; got != want {
		t.Errorf("section 3..8 is %q, want %q", got, want)
	}
}

func TestBadLinesNameThePlace(t *testing.T) {
	for _, c := range []struct {
		pl   Polyline
		want string
	}{
		{nil, "a line needs at least 2 points, this one has 0"},
		{Polyline{Pt(1, 1), Pt(1, 1)}, "a line needs at least 2 points, this one has 1"},
		{Polyline{Pt(1, 1), Pt(2, math.NaN())}, "point 1 of the line is not a finite place: (2, NaN)"},
	} {
		if _, err := NewLine(c.pl); err == nil || err.Error() != c.want {
			t.Errorf("%v: error %v, want %q", c.pl, err, c.want)
		}
	}
	l := mustLine(t, MustParse("M 0 0 L 10 0"))
	for _, dots := range [][]float64{{-1}, {11}, {3, 3}, {math.NaN()}} {
		if _, err := l.WithDots(dots); err == nil {
			t.Errorf("dots %v were accepted", dots)
		}
	}
}

// Moving, turning and reversing a line changes neither its length nor the
// number of its corners, and At(s) of the reverse is At(L-s).
func TestLineInvariants(t *testing.T) {
	coord := rapid.Float64Range(-300, 300)
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(2, 12).Draw(rt, "n")
		pl := make(Polyline, n)
		for i := range pl {
			pl[i] = Pt(float64(i)*7, coord.Draw(rt, "y"))
		}
		l := mustLine(t, pl)
		turn := rapid.Float64Range(-3, 3).Draw(rt, "turn")
		moved := mustLine(t, pl.Map(func(p Point) Point { return r2.Rotate(r2.Add(p, Pt(5, -9)), turn, Point{}) }))
		rev := mustLine(t, pl.Reversed())
		s := rapid.Float64Range(0, 1).Draw(rt, "s") * l.Length()
		if math.Abs(moved.Length()-l.Length()) > 1e-9 || len(moved.Corners) != len(l.Corners) {
			rt.Fatalf("moved: length %v corners %v, were %v %v", moved.Length(), moved.Corners, l.Length(), l.Corners)
		}
		if d := Dist(rev.At(l.Length()-s), l.At(s)); d > 1e-7 {
			rt.Fatalf("reversed line is %v mm away at %v", d, s)
		}
		step := rapid.Float64Range(0.5, 50).Draw(rt, "step")
		for k, p := range l.Resample(step) {
			if d := Dist(p, l.At(float64(k)*step)); d > 1e-7 {
				rt.Fatalf("resampled point %d is %v mm from At", k, d)
			}
		}
		cut := l.Section(0, s).Length() + l.Section(s, l.Length()).Length()
		if math.Abs(cut-l.Length()) > 4*samePlace {
			rt.Fatalf("two sections of %v mm make %v", l.Length(), cut)
		}
	})
}
