package motif

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// A circle turns once round, its radius is everywhere the same, and nothing swings. A sine
// wave of n repeats changes its turn at each crossing of the axis but the outer two, 2n - 1
// times, and between them turns by twice the angle at which it crosses, atan(2 pi A/L).
func TestEffortOfKnownLines(t *testing.T) {
	s := Shape{Kind: Square, W: 200}
	e := s.Effort(one("circle", ring(geom.Pt(100, 100), 50)))
	if e.Threads != 1 || e.Points != 0 || e.Swings != 0 || math.Abs(e.Radius-50) > 0.5 || math.Abs(e.Turning-2*math.Pi) > 0.05 {
		t.Errorf("circle: %+v", e)
	}
	if want := 200 * 200 / (100 * math.Pi); math.Abs(e.Spacing-want) > 0.01*want {
		t.Errorf("the circle is %.2f mm from the next, want %.2f", e.Spacing, want)
	}
	const n, long, high = 5, 40.0, 20.0
	e = s.Effort(one("waves", Waves(n, long, high)))
	turn := (2*n - 1) * 2 * math.Atan(math.Pi*high/long)
	if e.Swings != 2*n-1 || math.Abs(e.Turning-turn) > 0.2*turn {
		t.Errorf("waves: %d swings, %.2f turned, want %d and from %.2f on", e.Swings, e.Turning, 2*n-1, turn)
	}
	// The crest of A sin(2 pi x/L) has the radius (L/2 pi)^2/A.
	if r := math.Pow(long/2/math.Pi, 2) / (high / 2); e.Radius < r || e.Radius > 1.3*r {
		t.Errorf("waves: radius %.2f mm, at the crest it is %.2f", e.Radius, r)
	}
}

// The bridges of Koenigsberg (Euler, Solutio problematis ad geometriam situs pertinentis,
// 1736) join four places by seven bridges, all four odd: two walks cross each once. A house
// with a cross and a roof is drawn in one.
func TestThreadsAgainstEuler(t *testing.T) {
	north, south, isle, east := geom.Pt(0, 0), geom.Pt(0, 100), geom.Pt(0, 50), geom.Pt(90, 50)
	bridge := func(p, q geom.Point, by float64) Piece {
		return Piece{Path: geom.Polyline{p, geom.Pt((p.X+q.X)/2+by, (p.Y+q.Y)/2), q}}
	}
	town := []Piece{
		bridge(north, isle, 5), bridge(north, isle, -5), bridge(south, isle, 5), bridge(south, isle, -5),
		bridge(north, east, 0), bridge(south, east, 0), bridge(isle, east, 0),
	}
	if n := threads(town); n != 2 {
		t.Errorf("%d walks over the bridges, Euler needs 2", n)
	}
	c := []geom.Point{{X: 0, Y: 60}, {X: 40, Y: 60}, {X: 40, Y: 20}, {X: 0, Y: 20}, {X: 20, Y: 0}}
	var house []Piece
	for _, k := range [][2]int{{0, 1}, {1, 2}, {2, 3}, {3, 0}, {0, 2}, {1, 3}, {2, 4}, {4, 3}} {
		house = append(house, Piece{Path: geom.Polyline{c[k[0]], c[k[1]]}})
	}
	if n := threads(house); n != 1 {
		t.Errorf("%d lines for the house, want 1", n)
	}
	apart := append(house, one("ring", ring(geom.Pt(200, 200), 20))...)
	if n := threads(apart); n != 2 {
		t.Errorf("%d lines for the house and a ring, want 2", n)
	}
}

// Sewn backwards a line asks the same. Twice as large and twice as fast, what comes per
// second is the same, where bends are longer than the few mm over which they are felt; twice as large at the same speed is never harder, but for its length.
func TestEffortKeepsItsMeaning(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		long := rapid.Float64Range(60, 120).Draw(rt, "long")
		path := []func(int, float64, float64) geom.Polyline{Waves, Loops}[rapid.IntRange(0, 1).Draw(rt, "kind")](rapid.IntRange(3, 6).Draw(rt, "n"), long, long*rapid.Float64Range(0.6, 1).Draw(rt, "high"))
		hand := rapid.Float64Range(5, 60).Draw(rt, "hand")
		s, twice := Shape{Kind: Square, W: 800}, Shape{Kind: Square, W: 1600}
		e, back := s.Effort(one("line", path)), s.Effort(one("line", path.Reversed()))
		if e.Swings != back.Swings || e.Points != back.Points || math.Abs(e.Turning-back.Turning) > 1e-6*e.Turning || math.Abs(e.Radius-back.Radius) > 0.02*e.Radius {
			rt.Fatalf("forwards %+v, backwards %+v", e, back)
		}
		large := twice.Effort(one("line", path.Map(func(p geom.Point) geom.Point { return geom.Pt(2*p.X, 2*p.Y) })))
		if a, b := e.Hard(hand).Score, large.Hard(2*hand).Score; math.Abs(a-b) > 0.05+0.05*a+(large.Length-e.Length)/longWork { // flattening differs
			rt.Fatalf("score %.3f, twice as large and as fast %.3f", a, b)
		}
		if a, b := e.Hard(hand), large.Hard(hand); b.Score > a.Score+(large.Length-e.Length)/longWork {
			rt.Fatalf("%+v, twice as large %+v", a, b)
		}
		if a, b := e.Hard(hand), e.Hard(hand/2); b.Score > a.Score {
			rt.Fatalf("at %.0f mm/s %+v, at half of it %+v", hand, a, b)
		}
		p := Pace{Hand: hand, Stop: 40, Halt: 3}
		if want := path.Length()/hand + 40; math.Abs(e.Time(p)-want) > 1e-6*want {
			rt.Fatalf("%.1f s, want %.1f", e.Time(p), want)
		}
	})
}

// The order in which motifs are commonly taught (common practice, from memory): each of a
// line is harder than those of the line before, in a block of 6 in at an inch a second.
func TestHardAsCommonlyTaught(t *testing.T) {
	s := Shape{Kind: Square, W: 152.4}
	easier := 0.0
	for _, ids := range [][]string{
		{"straight-lines", "spiral", "to-and-fro"},
		{"loops", "waves", "ribbon", "clamshell", "linked-swirls"},
		{"stipple", "feather"},
		{"pebbles"},
	} {
		harder := 0.0
		for _, id := range ids {
			h := s.Effort(fitOne(t, id, s, 3, nil)).Hard(25.4)
			if h.Score <= easier {
				t.Errorf("%s asks %.2f, no more than what is taught before, %.2f", id, h.Score, easier)
			}
			harder = math.Max(harder, h.Score)
		}
		easier = harder
	}
}

func ExampleEffort_Hard() {
	s := Shape{Kind: Square, W: 152.4}
	m, _ := Find("pebbles")
	pieces, _ := m.Fit(s, 3, Values{"size": 12})
	e := s.Effort(pieces)
	h := e.Hard(25.4)
	fmt.Printf("level %d, most of all %s; %d thread, %.0f minutes\n", h.Level, h.Demands[0], e.Threads, e.Time(Pace{Hand: 25.4, Stop: 40, Halt: 3})/60)
	// Output: level 5, most of all close-lines; 1 thread, 6 minutes
}

func BenchmarkEffort(b *testing.B) {
	s := Shape{Kind: Square, W: 150}
	pieces := fitOne(b, "stipple", s, 3, nil)
	for b.Loop() {
		s.Effort(pieces)
	}
}
