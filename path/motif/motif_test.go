package motif

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// Every motif of the library can be rehearsed: as a row with any number of repeats up
// to its largest, more of them a longer line, at true size on a cloth no larger than a
// table (common practice: a rehearsal is of one row or block), without a jump that no
// piece of the motif has.
func TestEveryMotifIsRehearsed(t *testing.T) {
	seen := map[string]bool{}
	for _, ready := range ToRehearse() {
		m := ready.Rehearsal()
		if seen[m.ID] {
			t.Errorf("%s: ID stands twice", m.ID)
		}
		seen[m.ID] = true
		longest := 0.0
		for n := 1; n <= m.Max; n++ {
			l, err := m.Line(n)
			if err != nil {
				t.Fatalf("%s with %d repeats: %v", m.ID, n, err)
			}
			if l.Length() <= longest {
				t.Errorf("%s: %d repeats are %.0f mm long, one less %.0f mm", m.ID, n, l.Length(), longest)
			}
			longest = l.Length()
			if lo, _ := l.Path().Bounds(); geom.Dist(lo, geom.Pt(0, 0)) > 1e-9 {
				t.Errorf("%s: the row starts at %v, not at the origin", m.ID, lo)
			}
		}
		for _, n := range []int{0, m.Max + 1} {
			if _, err := m.Line(n); err == nil {
				t.Errorf("%s accepted %d repeats", m.ID, n)
			}
		}
		l, err := m.Line(m.Usual)
		if err != nil || l.Length() < 150 || l.Length() > 2500 {
			t.Errorf("%s: %d repeats are %.0f mm long, which is no rehearsal of about half a minute (%v)", m.ID, m.Usual, l.Length(), err)
		}
		n := m.Fit(102, 102)
		l, _ = m.Line(n)
		if _, hi := l.Path().Bounds(); hi.X > 102 && n > 1 {
			t.Errorf("%s: %d repeats are %.1f mm wide, 102 mm were given", m.ID, n, hi.X)
		}
	}
}

// Arc length of r = b theta from 0 to T: (b/2)(T sqrt(1+T^2) + asinh T), in every
// table of integrals (e.g. Bronshtein & Semendyayev, Handbook of Mathematics;
// cited from memory); the half circles add pi/2 times the gap.
func TestSwirlsAgainstTheClosedForm(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := SwirlShape{
			Diameter: rapid.Float64Range(20, 90).Draw(rt, "diameter"),
			Turns:    rapid.Float64Range(0.5, 3).Draw(rt, "turns"),
			Gap:      rapid.Float64Range(4, 20).Draw(rt, "gap"),
		}
		n := rapid.IntRange(1, 5).Draw(rt, "n")
		T, b := 2*math.Pi*s.Turns, s.Diameter/2/(2*math.Pi*s.Turns)
		want := float64(n)*b*(T*math.Sqrt(1+T*T)+math.Asinh(T)) + float64(n-1)*math.Pi/2*s.Gap
		pl := LinkedSwirls(n, s)
		if got := pl.Length(); math.Abs(got-want) > want*5e-4 {
			rt.Fatalf("%d swirls %+v: %v mm long, closed form %v", n, s, got, want)
		}
	})
}

// The tangent is continuous: no vertex of the flattened row turns like a corner,
// and the first and last direction are straight up or down.
func TestSwirlsFlow(t *testing.T) {
	for n := 1; n <= 4; n++ {
		l, err := linkedSwirls.line(n)
		if err != nil {
			t.Fatal(err)
		}
		if len(l.Corners) > 0 {
			t.Errorf("%d swirls have corners at %v", n, l.Corners)
		}
		if d := l.Tangent(0); math.Abs(d.X) > 0.03 || d.Y > 0 {
			t.Errorf("%d swirls start in direction %v, want straight up", n, d)
		}
		if d := l.Tangent(l.Length()); math.Abs(d.X) > 0.03 {
			t.Errorf("%d swirls end in direction %v, want upright", n, d)
		}
	}
}

// Lines of one swirl keep their distance pi*b: no point of one arm comes nearer
// than 90 % of it to the other arm, but for the turn in the middle.
func TestSwirlArmsKeepApart(t *testing.T) {
	s := SwirlShape{Diameter: 38, Turns: 1.25, Gap: 8}
	l, err := geom.NewLine(LinkedSwirls(1, s))
	if err != nil {
		t.Fatal(err)
	}
	half := l.Length() / 2
	apart := math.Pi * s.pitch()
	for a := 0.0; a < half-2*apart; a += 1 {
		for b := half + 2*apart; b < l.Length(); b += 1 {
			if d := geom.Dist(l.At(a), l.At(b)); d < 0.9*apart {
				t.Fatalf("arms %.2f mm apart at %.0f and %.0f mm, want about %.2f", d, a, b, apart)
			}
		}
	}
}

// Pythagoras: each ruler line is sqrt(spacing^2 + height^2) long.
func TestZigzag(t *testing.T) {
	l, err := Zigzag(3, 30, 40)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(l.Length()-6*50) > 1e-9 || len(l.Dots) != 7 || len(l.Corners) != 5 {
		t.Errorf("length %v, %d dots, %d corners; want 300, 7, 5", l.Length(), len(l.Dots), len(l.Corners))
	}
	for i := 1; i < len(l.Dots); i++ {
		d := r2.Sub(l.At(l.Dots[i]), l.At(l.Dots[i-1]))
		if math.Abs(math.Abs(d.Y)-40) > 1e-9 || math.Abs(d.X-30) > 1e-9 {
			t.Errorf("line %d runs by %v, want 30 across and 40 up or down", i, d)
		}
	}
}
