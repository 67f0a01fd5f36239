package motif

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// Two straights that meet at an angle are joined by a curve without a kink, which turns by
// the angle in all, keeps the ends and stays in the triangle of the bend (the hull of what it
// is a mean of); a line without a kink stays as it is.
func TestEasedTurnsWithoutAKink(t *testing.T) {
	arc := geom.Arc(geom.Pt(0, 0), 20, 0, 3)
	if got := eased(arc, 3); len(got) != len(arc) {
		t.Errorf("an arc of %d points was eased to %d", len(arc), len(got))
	}
	rapid.Check(t, func(rt *rapid.T) {
		angle := rapid.Float64Range(leastKink*1.1, 0.5).Draw(rt, "angle")
		reach := rapid.Float64Range(0.5, 5).Draw(rt, "reach")
		legs := rapid.Float64Range(2.5*reach, 40).Draw(rt, "legs")
		s, c := math.Sincos(angle)
		pl := geom.Polyline{{X: -legs}, {}, {X: legs * c, Y: legs * s}}
		got := eased(pl, reach)
		if got[0] != pl[0] || geom.Dist(got[len(got)-1], pl[2]) > 1e-9 {
			rt.Fatalf("from %v to %v", got[0], got[len(got)-1])
		}
		turns, _ := bends(got)
		sum := 0.0
		for _, a := range turns {
			sum += a
			if a < -1e-6 || a > angle/4+1e-6 {
				rt.Fatalf("turns by %.3f at one place, of %.3f in all", a, angle)
			}
		}
		if math.Abs(sum-angle) > 1e-6 {
			rt.Fatalf("turns by %.4f, want %.4f", sum, angle)
		}
		for _, p := range got {
			if p.Y < -1e-9 || p.Y*c-p.X*s < -1e-9 || p.Y > legs*s+1e-9 {
				rt.Fatalf("%v lies outside the bend", p)
			}
		}
	})
}
