package motif

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// A circle of radius r is 2 pi r round, and a smooth line turns by the arc it goes
// over its radius (any book of geometry). What is straight adds its own length.
func closedForm(e Exercise, size float64, n int) (length, turning, signed float64) {
	k := float64(n)
	switch e {
	case Corners:
		return k * size, (k - 1) * math.Pi / 2, math.Pi / 2 * float64([]int{0, 1, 2, 1}[(n-1)%4])
	case SingleLoops:
		return k*2*math.Pi*size + (k+1)*(size+6), k * 2 * math.Pi, -2 * math.Pi * float64(n%2)
	case TurningLeft, TurningRight:
		return k * (2*math.Pi*size + 2*20 + math.Min(size, 12)), k * 2 * math.Pi, k * 2 * math.Pi * float64(1-2*btoi(e == TurningLeft))
	}
	return k*size + (k-1)*math.Pi*6, (k - 1) * math.Pi, math.Pi * float64(1-n%2)
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// turns returns the sum of all turns at the vertices, their magnitudes and signed,
// positive clockwise to the eye.
func turns(pl geom.Polyline) (all, signed float64) {
	for i := 1; i < len(pl)-1; i++ {
		a := geom.TurnAngle(pl[i-1], pl[i], pl[i+1])
		all += math.Abs(a)
		signed += a
	}
	return all, signed
}

func TestExercisesAgainstTheClosedForms(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		e := rapid.SampledFrom(Exercises).Draw(rt, "exercise")
		lo, hi := minRadius, maxRadius
		if e == Corners || e == Straights {
			lo, hi = minLeg, maxLeg
		}
		size := rapid.Float64Range(lo, hi).Draw(rt, "size")
		l, err := e.line(size)
		if err != nil {
			rt.Fatal(err)
		}
		all, signed := turns(l.Path())
		var tried []string
		for n := 1; n <= 12; n++ {
			length, turning, way := closedForm(e, size, n)
			tried = append(tried, fmt.Sprintf("%d: %.2f mm, %.2f and %.2f rad", n, length, turning, way))
			// The chords of a flattened circle are a little shorter than it, and a
			// chord that ends an arc turns by half a chord's angle against a straight.
			if math.Abs(l.Length()-length) < 2e-3*length && math.Abs(all-turning) < 0.02*(turning+1) && math.Abs(signed-way) < 0.1 {
				return
			}
		}
		rt.Fatalf("%s of %v mm is %.2f mm long and turns by %.2f, signed %.2f rad; closed forms %q", e, size, l.Length(), all, signed, tried)
	})
}

// The radius of a curve is that asked for: all points of each arc lie at that distance
// from the centre of the circle through its first, middle and last point.
func TestRadiusOfExercises(t *testing.T) {
	for _, e := range []Exercise{SingleLoops, TurningLeft, TurningRight} {
		for _, size := range []float64{6, 8, 12, 18, 20, 35, 60} {
			l, err := e.line(size)
			if err != nil {
				t.Fatal(err)
			}
			pl := l.Path()
			arcs := 0
			for i := 1; i < len(pl)-2; i++ {
				// Inside an arc the chords are alike, and the turns at both ends of one.
				a, b := geom.TurnAngle(pl[i-1], pl[i], pl[i+1]), geom.TurnAngle(pl[i], pl[i+1], pl[i+2])
				if math.Abs(a) < 1e-6 || math.Abs(a-b) > 1e-6 || math.Abs(geom.Dist(pl[i-1], pl[i])-geom.Dist(pl[i], pl[i+1])) > 1e-6 {
					continue
				}
				arcs++
				r := r2.Norm(r2.Sub(pl[i+1], pl[i])) / (2 * math.Sin(math.Abs(a)/2))
				if math.Abs(r-size) > 1e-6*size {
					t.Fatalf("%s of %v mm: radius %v at point %d", e, size, r, i)
				}
				if left := a < 0; (e == TurningLeft && !left) || (e == TurningRight && left) {
					t.Fatalf("%s of %v mm turns the other way at point %d", e, size, i)
				}
			}
			if arcs < 8 {
				t.Errorf("%s of %v mm: only %d points inside arcs", e, size, arcs)
			}
		}
	}
}

// Left is the mirror image of right, and both are smooth; only corners have corners,
// each a right angle.
func TestExercisesMirrorAndFlow(t *testing.T) {
	left, _ := TurningLeft.line(11)
	right, _ := TurningRight.line(11)
	_, hi := right.Path().Bounds()
	for i, p := range left.Path() {
		if q := right.Path()[i]; geom.Dist(p, geom.Pt(q.X, hi.Y-q.Y)) > 1e-9 {
			t.Fatalf("point %d: %v on the left, %v on the right", i, p, q)
		}
	}
	for _, e := range Exercises {
		m, err := e.Rehearsal(40)
		if err != nil {
			t.Fatal(err)
		}
		l, err := m.Line(1)
		if err != nil {
			t.Fatal(err)
		}
		if (e == Corners) != (len(l.Corners) > 0) {
			t.Errorf("%s: %d corners", e, len(l.Corners))
		}
		if lo, _ := l.Path().Bounds(); geom.Dist(lo, geom.Pt(0, 0)) > 1e-9 {
			t.Errorf("%s starts at %v", e, lo)
		}
	}
}

func TestExercisesRefuseOtherSizes(t *testing.T) {
	for _, e := range append([]Exercise{"sideways"}, Exercises...) {
		for _, size := range []float64{-1, 0, 2.9, 251, math.Inf(1), math.NaN()} {
			if _, err := e.Rehearsal(size); err == nil {
				t.Errorf("%s accepts %v mm", e, size)
			}
		}
	}
}
