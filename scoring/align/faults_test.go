package align

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// walk goes along the line from place to place, forwards or back, at step mm a
// point, 0.8 mm to its right.
func walk(l geom.Line, step float64, stops ...float64) (pts geom.Polyline, s []float64) {
	for i := 1; i < len(stops); i++ {
		n := math.Ceil(math.Abs(stops[i]-stops[i-1]) / step)
		for k := 0.0; k < n; k++ {
			a := stops[i-1] + (stops[i]-stops[i-1])*k/n
			p, t := l.At(a), l.Tangent(a)
			pts = append(pts, geom.Pt(p.X-0.8*t.Y, p.Y+0.8*t.X))
			s = append(s, a)
		}
	}
	return pts, s
}

// A hand that goes back, repeats, or reverses is followed there and back.
func TestFollowsGoingBack(t *testing.T) {
	for name, l := range motifs(t) {
		n := l.Length()
		for _, stops := range [][]float64{
			{0, 0.5 * n, 0.3 * n, n}, // back over a part
			{0, 0.2 * n, 0.2*n - 8, 0.7 * n, 0.6 * n, n},
			{0, n, 0}, // out and back over all
			{n, 0},    // the wrong way
		} {
			pts, s := walk(l, 0.4, stops...)
			m := follow(t, l, pts)
			var far int
			for i := range s {
				if math.Abs(m.Place[i]-s[i]) > 4 && geom.Dist(l.At(m.Place[i]), l.At(s[i])) > 4 {
					far++
				}
			}
			if share := float64(far) / float64(len(s)); share > 0.01 {
				t.Errorf("%s, via %.0f: %.1f %% of the points matched elsewhere", name, stops, 100*share)
			}
			if !slices.IsSorted(m.S) {
				t.Errorf("%s, via %.0f: S falls", name, stops)
			}
		}
	}
}

// A part left out shows as missing from the passes, and the rest is matched. The
// hand goes straight from one place to the other.
func TestFollowsLeavingOut(t *testing.T) {
	for name, l := range motifs(t) {
		n := l.Length()
		for _, cut := range [][2]float64{{0.3, 0.45}, {0.55, 0.8}} {
			a, b := cut[0]*n, cut[1]*n
			pts, s := walk(l, 0.4, 0, a)
			from, to := l.At(a), l.At(b)
			for k := 0.0; k < math.Ceil(geom.Dist(from, to)/0.4); k++ {
				pts = append(pts, geom.Lerp(from, to, k*0.4/geom.Dist(from, to)))
			}
			mid := len(pts)
			rest, s2 := walk(l, 0.4, b, n)
			pts = append(pts, rest...)
			m := follow(t, l, pts)
			var wrong int
			for i := range s {
				if s[i] < a-25 && geom.Dist(l.At(m.Place[i]), l.At(s[i])) > 4 {
					wrong++
				}
			}
			for i := range s2 {
				if s2[i] > b+25 && math.Abs(m.Place[mid+i]-s2[i]) > 4 {
					wrong++
				}
			}
			if wrong > 0 {
				t.Errorf("%s, left out %.0f to %.0f: %d points matched elsewhere", name, a, b, wrong)
			}
		}
	}
}

// Twice round a closed line is two passes over all of it.
func TestTwiceRound(t *testing.T) {
	l := motifs(t)["figure of eight, closed"]
	pts, _ := walk(l, 0.4, 0, l.Length())
	again, _ := walk(l, 0.4, 0, l.Length())
	m := follow(t, l, append(pts, again...))
	passes := m.Passes(3)
	if len(passes) != 2 || len(m.Jumps) != 1 {
		t.Fatalf("%d passes and %d jumps, want 2 and 1: %v", len(passes), len(m.Jumps), passes)
	}
	for _, p := range passes {
		if p.From > 3 || p.To < l.Length()-3 {
			t.Errorf("a pass from %.1f to %.1f mm, want all of 0 to %.1f", p.From, p.To, l.Length())
		}
	}
}

func TestPassesTurnWhereTheHandTurns(t *testing.T) {
	l := mustLine(t, geom.MustParse("M 0 0 L 300 0"))
	pts, _ := walk(l, 0.5, 0, 120, 118, 200, 150, 300)
	got := fmt.Sprintf("%.0f", func() (ends []float64) {
		for _, p := range follow(t, l, pts).Passes(3) {
			ends = append(ends, p.From, p.To)
		}
		return
	}())
	if want := "[0 200 200 150 150 300]"; got != want {
		t.Errorf("passes %s, want %s: 2 mm back at 120 are no pass of their own", got, want)
	}
}

// Moving, turning and mirroring line and movement together changes nothing but
// the sign of the offset in the mirror; more points on the same pieces of the
// line change nothing either. A point straight ahead of its place or behind it, as the
// ends of a shifted movement can be, lies to neither side: its sign is a matter of
// rounding and is not compared.
func TestMatchInvariants(t *testing.T) {
	names := []string{"row of loops", "double spiral, lines 5 mm apart", "zigzag"}
	lines := motifs(t)
	rapid.Check(t, func(rt *rapid.T) {
		l := lines[rapid.SampledFrom(names).Draw(rt, "motif")]
		pts, _ := wander(l, 0.7, rapid.Float64Range(0, 2).Draw(rt, "aside"))
		angle, shift := rapid.Float64Range(-3, 3).Draw(rt, "angle"), rapid.Float64Range(-500, 500).Draw(rt, "shift")
		sign := rapid.SampledFrom([]float64{1, -1}).Draw(rt, "mirror")
		move := func(p geom.Point) geom.Point {
			return r2.Add(r2.Rotate(geom.Pt(p.X, sign*p.Y), angle, geom.Point{}), geom.Pt(shift, -shift/3))
		}
		m0 := follow(rt2{t, rt}, l, pts)
		m1 := follow(rt2{t, rt}, mustLine(t, dense(mustLine(t, l.Path().Map(move)), 0.9)), pts.Map(move))
		for i := range pts {
			o0, o1 := m0.Offset[i], sign*m1.Offset[i]
			if across := r2.Cross(l.Tangent(m0.Place[i]), r2.Sub(pts[i], l.At(m0.Place[i]))); math.Abs(across) < 1e-6 {
				o0, o1 = math.Abs(o0), math.Abs(o1)
			}
			if math.Abs(m0.Place[i]-m1.Place[i]) > 1e-3 || math.Abs(o0-o1) > 1e-3 {
				rt.Fatalf("point %d: %.4f mm along, %.4f aside; moved %.4f, %.4f",
					i, m0.Place[i], m0.Offset[i], m1.Place[i], m1.Offset[i])
			}
		}
	})
}

// rt2 lets functions that fail a test be called within a property.
type rt2 struct {
	testing.TB
	rt *rapid.T
}

func (r rt2) Fatal(args ...any) { r.rt.Fatal(args...) }
func (r rt2) Helper()           {}

func TestFollowNamesTheFault(t *testing.T) {
	l := mustLine(t, geom.MustParse("M 0 0 L 10 0"))
	for _, c := range []struct {
		line geom.Line
		pts  geom.Polyline
		want string
	}{
		{geom.Line{}, geom.Polyline{{}}, "there is no line to match against"},
		{l, nil, "there is no movement to match"},
		{l, geom.Polyline{{}, geom.Pt(math.Inf(1), 0)}, "point 1 of the movement is not a finite place: (+Inf, 0)"},
	} {
		if _, err := Follow(c.line, c.pts); err == nil || err.Error() != c.want {
			t.Errorf("error %v, want %q", err, c.want)
		}
	}
	far := follow(t, l, geom.Polyline{geom.Pt(500, 500), geom.Pt(510, 500)})
	if !far.Lost[0] || !far.Lost[1] {
		t.Error("points half a metre away were matched")
	}
}
