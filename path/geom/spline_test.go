package geom

import (
	"math"
	"testing"
)

// A straight spline is the polyline it was made of; straight pieces are not cut.
func TestStraightSplineFlattensToItsPoints(t *testing.T) {
	pl := MustParse("M 0 0 L 30 0 L 30 40 L 0 0")
	s := Straight(pl)
	if err := s.Validate(); err != nil {
		t.Fatal(err)
	}
	if got := Format(s.Flatten()); got != Format(pl) {
		t.Errorf("flattened to %s, want %s", got, Format(pl))
	}
	if got := s.Reversed().Flatten().Length(); got != 120 {
		t.Errorf("length %v, want 120", got)
	}
}

// The quarter circle by one cubic with handles 4/3 tan(pi/8): its radius is within
// 0.027 % of the circle's (a handbook figure, from memory).
func TestSplineOfAQuarterCircle(t *testing.T) {
	const r, k = 100.0, 0.5522847498
	s := Spline{Pt(r, 0), Pt(r, r*k), Pt(r*k, r), Pt(0, r)}
	for _, p := range s.Flatten() {
		if d := math.Hypot(p.X, p.Y); math.Abs(d-r) > 0.00028*r {
			t.Errorf("a point lies %v mm from the centre, want %v within 0.028 %%", d, r)
		}
	}
	if got, want := s.Flatten().Length(), math.Pi/2*r; math.Abs(got-want) > 0.001*want {
		t.Errorf("length %v, want %v", got, want)
	}
}

func TestBrokenSplinesAreNamed(t *testing.T) {
	for _, s := range []Spline{nil, {Pt(0, 0)}, {Pt(0, 0), Pt(1, 0), Pt(2, 0)}, {Pt(0, 0), Pt(1, 0), Pt(math.NaN(), 0), Pt(3, 0)}} {
		if s.Validate() == nil {
			t.Errorf("%v is taken for a spline", s)
		}
	}
}
