package machine

import (
	"encoding/json"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

func checkTurning(t *testing.T, c json.RawMessage) {
	var w struct {
		Path              string
		Closed            bool
		Index             int
		Total, Net, Wound *float64
		Tolerance         float64
	}
	read(t, c, &w)
	got := TurningOf(lineOf(t, w.Path))
	if got.Closed != w.Closed || got.Index != w.Index {
		t.Errorf("closed %v with index %d, want %v with %d", got.Closed, got.Index, w.Closed, w.Index)
	}
	tol := max(w.Tolerance, 1e-9)
	for _, v := range []struct {
		what string
		got  float64
		want *float64
	}{{"total", got.Total, w.Total}, {"net", got.Net, w.Net}, {"wound", got.Wound, w.Wound}} {
		if v.want != nil && !(math.Abs(v.got-*v.want) <= tol) {
			t.Errorf("%s = %.6f, want %.6f within %g", v.what, v.got, *v.want, tol)
		}
	}
}

func checkBends(t *testing.T, c json.RawMessage) {
	var w struct {
		Path              string
		Radius, Straight  float64
		RadiusTolerance   float64 `json:"radius_tolerance"`
		StraightTolerance float64 `json:"straight_tolerance"`
	}
	read(t, c, &w)
	straight, smallest := bendsOf(lineOf(t, w.Path))
	near(t, "smallest radius", smallest, w.Radius, w.RadiusTolerance)
	if !(math.Abs(straight-w.Straight) <= w.StraightTolerance) {
		t.Errorf("%.3f mm straight, want %.3f within %g", straight, w.Straight, w.StraightTolerance)
	}
}

// drawLine draws a chain of straight pieces and arcs.
func drawLine(rt *rapid.T) geom.Line {
	pl := geom.Polyline{geom.Pt(0, 0)}
	heading := rapid.Float64Range(-3, 3).Draw(rt, "heading")
	for range rapid.IntRange(1, 6).Draw(rt, "parts") {
		at := pl[len(pl)-1]
		if rapid.Bool().Draw(rt, "arc") {
			r := rapid.Float64Range(2, 200).Draw(rt, "radius")
			side := float64(rapid.SampledFrom([]int{-1, 1}).Draw(rt, "side"))
			bend := side * rapid.Float64Range(0.1, 6).Draw(rt, "bend")
			centre := r2.Add(at, r2.Scale(r*side, geom.Pt(-math.Sin(heading), math.Cos(heading))))
			from := heading - side*math.Pi/2
			pl = append(pl, geom.Arc(centre, r, from, from+bend)[1:]...)
			heading += bend
			continue
		}
		heading += rapid.Float64Range(-3, 3).Draw(rt, "turn")
		d := rapid.Float64Range(1, 300).Draw(rt, "d")
		pl = append(pl, geom.Pt(at.X+d*math.Cos(heading), at.Y+d*math.Sin(heading)))
	}
	l, err := geom.NewLine(pl)
	if err != nil {
		rt.Fatal(err)
	}
	return l
}

// Moving and turning a line changes nothing; a mirror and the way back change the
// sign of the net turning; a split shares it out.
func TestTurningInvariants(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := drawLine(rt)
		got := TurningOf(l)
		mapped := func(f func(geom.Point) geom.Point) Turning {
			m, err := geom.NewLine(l.Path().Map(f))
			if err != nil {
				rt.Fatal(err)
			}
			return TurningOf(m)
		}
		same := func(what string, a, b, tol float64) {
			if !(math.Abs(a-b) <= tol) {
				rt.Fatalf("%s: %v and %v", what, a, b)
			}
		}
		moved := mapped(func(p geom.Point) geom.Point { return r2.Rotate(r2.Add(p, geom.Pt(9, -4)), 1, geom.Point{}) })
		same("net, moved", moved.Net, got.Net, 1e-6)
		same("total, moved", moved.Total, got.Total, 1e-6)
		mirror := mapped(func(p geom.Point) geom.Point { return geom.Pt(-p.X, p.Y) })
		same("net, mirrored", mirror.Net, -got.Net, 1e-6)
		same("wound, mirrored", mirror.Wound, got.Wound, 1e-6)
		back, err := geom.NewLine(l.Path().Reversed())
		if err != nil {
			rt.Fatal(err)
		}
		same("net, back", TurningOf(back).Net, -got.Net, 1e-6)
		if got.Wound > got.Total+1e-9 || math.Abs(got.Net) > got.Wound+1e-9 {
			rt.Fatalf("net %v, wound %v, total %v", got.Net, got.Wound, got.Total)
		}
		s := rapid.Float64Range(0.01, 0.99).Draw(rt, "s") * l.Length()
		a, errA := geom.NewLine(l.Section(0, s))
		b, errB := geom.NewLine(l.Section(s, l.Length()))
		if errA != nil || errB != nil {
			return
		}
		pa, pb := a.Path(), b.Path()
		between := math.Abs(geom.TurnAngle(pa[len(pa)-2], pb[0], pb[1]))
		same("split", TurningOf(a).Total+TurningOf(b).Total+between, got.Total, 1e-4)
	})
}

// Of a line made of one straight piece and one arc that carries on smoothly, both
// are measured as they were made.
func TestBendsOfLineAndArc(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := rapid.Float64Range(40, 400).Draw(rt, "d")
		r := rapid.Float64Range(4, 100).Draw(rt, "radius")
		bend := rapid.Float64Range(2*BendReach/r+0.3, 6).Draw(rt, "bend")
		pl := append(geom.Polyline{geom.Pt(-d, 0)}, geom.Arc(geom.Pt(0, r), r, -math.Pi/2, -math.Pi/2+bend)...)
		l, err := geom.NewLine(pl)
		if err != nil {
			rt.Fatal(err)
		}
		straight, smallest := bendsOf(l)
		if math.Abs(smallest-r) > 0.08*r {
			rt.Fatalf("radius %v read as %v", r, smallest)
		}
		if straight > d+1e-6 || straight < d-BendReach-2*bendStep {
			rt.Fatalf("%v mm straight of %v", straight, d)
		}
	})
}

// Cutting a line where the tangent turns by a right angle leaves the pivots: a
// square has three on its way, and a dot on a corner is no further halt.
func TestPivotsAndHalts(t *testing.T) {
	l := lineOf(t, "M 0 0 L 100 0 L 100 100 L 0 100 Z")
	l, err := l.WithDots([]float64{0, 50, 100, 200.5, 400})
	if err != nil {
		t.Fatal(err)
	}
	if got := len(pivots(l)); got != 3 {
		t.Errorf("%d pivots, want 3", got)
	}
	if got := len(halts(l)); got != 4 {
		t.Errorf("%d halts, want 4", got)
	}
	// A hairpin of two right angles 0.4 mm apart is one pivot.
	if got := len(pivots(lineOf(t, "M 0 0 L 50 0 L 50 0.4 L 0 0.4"))); got != 1 {
		t.Errorf("%d pivots at a hairpin, want 1", got)
	}
}
