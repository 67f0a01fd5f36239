package align

import (
	"math"
	"testing"

	"unthreaded/path/geom"
)

func mustLine(t testing.TB, pl geom.Polyline) geom.Line {
	t.Helper()
	l, err := geom.NewLine(pl)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func follow(t testing.TB, line geom.Line, pts geom.Polyline) Match {
	t.Helper()
	m, err := Follow(line, pts)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// archimedes returns r = b theta from theta0 to theta1 round c.
func archimedes(c geom.Point, b, theta0, theta1 float64) geom.Polyline {
	return geom.Flatten(func(th float64) geom.Point {
		return geom.Pt(c.X+b*th*math.Cos(th), c.Y+b*th*math.Sin(th))
	}, theta0, theta1, 1+int(math.Abs(theta1-theta0)*2))
}

// motifs are lines on which the nearest point goes wrong.
func motifs(t testing.TB) map[string]geom.Line {
	out := map[string]geom.Line{}
	out["spiral, turns 5 mm apart"] = mustLine(t, archimedes(geom.Pt(0, 0), 5/(2*math.Pi), 0, 14*math.Pi))
	// In along one spiral, out along the one between its turns.
	in := archimedes(geom.Pt(0, 0), 10/(2*math.Pi), 0, 10*math.Pi).Reversed()
	back := archimedes(geom.Pt(0, 0), -10/(2*math.Pi), 0, 10*math.Pi)
	out["double spiral, lines 5 mm apart"] = mustLine(t, append(in, back...))
	out["row of loops"] = mustLine(t, geom.Flatten(func(u float64) geom.Point {
		return geom.Pt(10*u-18*math.Sin(u), 10-18*math.Cos(u))
	}, 0, 8*math.Pi, 64))
	out["figure of eight, closed"] = mustLine(t, geom.Flatten(func(u float64) geom.Point {
		return geom.Pt(60*math.Sin(u), 60*math.Sin(u)*math.Cos(u))
	}, 0, 2*math.Pi, 32))
	out["stem out and back"] = mustLine(t, geom.MustParse("M 0 0 L 80 0 L 80 60 L 80 0 L 160 0"))
	out["zigzag"] = mustLine(t, geom.MustParse("M 0 0 L 20 50 L 40 0 L 60 50 L 80 0 L 100 50 L 120 0"))
	return out
}

// wander returns the line every step mm, moved sideways by a slow wave.
func wander(l geom.Line, step, amount float64) (pts geom.Polyline, s []float64) {
	for a := 0.0; a <= l.Length(); a += step {
		p, t := l.At(a), l.Tangent(a)
		e := amount * math.Sin(a/17)
		pts = append(pts, geom.Pt(p.X-e*t.Y, p.Y+e*t.X))
		s = append(s, a)
	}
	return pts, s
}

// A hand that keeps to the line within 3 mm is matched to where it was, however
// close the next turn lies.
func TestFollowsMotifsInOrder(t *testing.T) {
	for name, l := range motifs(t) {
		for _, amount := range []float64{0, 1, 2, 3} {
			pts, s := wander(l, 0.4, amount)
			m := follow(t, l, pts)
			worst, at := 0.0, 0.0
			for i := range s {
				if d := math.Abs(m.Place[i] - s[i]); d > worst {
					worst, at = d, s[i]
				}
			}
			if worst > 2*Step+2*amount || len(m.Jumps) > 0 {
				t.Errorf("%s, %v mm aside: matched %.2f mm away at %.1f mm, %d jumps; want within %v and none",
					name, amount, worst, at, len(m.Jumps), 2*Step+2*amount)
			}
		}
	}
}

// A hand that strays towards the next turn, and lies nearer to it than to its own
// for 50 mm, is not taken to have jumped there and back.
func TestStrayingIsNoJump(t *testing.T) {
	l := motifs(t)["spiral, turns 5 mm apart"]
	for _, at := range []float64{300, 450, 600} {
		for _, side := range []float64{3.5, -3.5} {
			pts, s := wander(l, 0.4, 0)
			for i, a := range s {
				e := side * math.Exp(-math.Pow((a-at)/40, 8))
				tan := l.Tangent(a)
				pts[i] = geom.Pt(pts[i].X-e*tan.Y, pts[i].Y+e*tan.X)
			}
			m := follow(t, l, pts)
			for i := range s {
				if math.Abs(m.Place[i]-s[i]) > 5 {
					t.Fatalf("%v mm aside at %v mm: %.1f mm matched to %.1f mm", side, at, s[i], m.Place[i])
				}
			}
		}
	}
}

func BenchmarkFollow(b *testing.B) {
	l := mustLine(b, archimedes(geom.Pt(0, 0), 10/(2*math.Pi), 0, 16*math.Pi))
	b.Logf("line of %.0f mm", l.Length())
	for _, n := range []int{1200, 2400, 4800} {
		pts, _ := wander(l, l.Length()/float64(n), 1)
		b.Run(string(rune('0'+n/1200)), func(b *testing.B) {
			for b.Loop() {
				if _, err := Follow(l, pts); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
