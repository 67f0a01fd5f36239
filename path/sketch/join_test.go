package sketch

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

func line(text string) geom.Spline { return geom.Straight(geom.MustParse(text)) }

// Whichever ends meet, the joined line holds both.
func TestJoinEnds(t *testing.T) {
	a := line("M 0 0 L 10 0")
	for _, b := range []string{"M 10 0.5 L 20 9", "M 20 9 L 10 0.5", "M 0 0.5 L -9 9", "M -9 9 L 0 0.5"} {
		s, err := JoinEnds(a, line(b), 1)
		if err != nil || s.Pieces() != 2 || s.Tangent(0, 0).X*s.Tangent(1, 1).X < 0 {
			t.Errorf("%s: %v (%v)", b, s, err)
		}
	}
	for name, b := range map[string]geom.Spline{"far": line("M 12 0 L 20 0"), "closed": line("M 10 0 L 20 0 L 20 9 Z"), "none": nil} {
		if _, err := JoinEnds(a, b, 1); err == nil {
			t.Errorf("%s: joined", name)
		}
	}
}

func TestRow(t *testing.T) {
	wave, dash, ring := line("M 0 0 L 5 5 L 10 0"), line("M 2 8 L 4 8"), line("M 0 0 L 3 0 L 3 3 Z")
	out, err := Row([]geom.Spline{wave, dash, ring}, 3, geom.Pt(10, 0), 0.1)
	if err != nil || len(out) != 1+3+3 {
		t.Fatalf("%d lines (%v), expected the wave as one, three dashes, three rings", len(out), err)
	}
	if got := geom.Format(out[0].Flatten()); got != "M 0 0 L 5 5 L 10 0 L 15 5 L 20 0 L 25 5 L 30 0" {
		t.Errorf("the wave is %s", got)
	}
	if got := geom.Format(out[3].Flatten()); got != "M 22 8 L 24 8" {
		t.Errorf("the third dash is %s", got)
	}
	for _, n := range []int{0, -1, maxCopies + 1} {
		if _, err := Row([]geom.Spline{wave}, n, geom.Pt(10, 0), 1); err == nil {
			t.Errorf("%d copies were made", n)
		}
	}
}

func TestSnapEnds(t *testing.T) {
	targets := []geom.Point{geom.Pt(0, 1), geom.Pt(30, 3), geom.Pt(30, -2)}
	out, start, end, err := SnapEnds(line("M 0 0 L 30 0"), targets, 2.5)
	if err != nil || out[0] != targets[0] || out[3] != targets[2] || start != (Snapped{0, 1}) || end != (Snapped{2, 2}) {
		t.Errorf("snapped to %v: %+v %+v (%v)", out, start, end, err)
	}
	if !isStraight(out, 0) {
		t.Error("the straight line is bent")
	}
	out, start, end, _ = SnapEnds(line("M 0 0 L 1 0"), []geom.Point{geom.Pt(-0.4, 0)}, 5)
	if start.Target != 0 || end.Target != -1 || out[3] != geom.Pt(1, 0) {
		t.Errorf("both ends of a short line: %+v %+v", start, end)
	}
	out, start, end, _ = SnapEnds(line("M 0 0 L 9 0"), nil, 5)
	if start.Target != -1 || end.Target != -1 || !same(out, line("M 0 0 L 9 0")) {
		t.Errorf("without targets: %v", out)
	}
}

// Rigid moves keep lengths; a mirror undoes itself and changes the sense of turning;
// moves done one after the other are their product.
func TestAffine(t *testing.T) {
	c := rapid.Float64Range(-100, 100)
	rapid.Check(t, func(rt *rapid.T) {
		p, q, r := geom.Pt(c.Draw(rt, "px"), c.Draw(rt, "py")), geom.Pt(c.Draw(rt, "qx"), c.Draw(rt, "qy")), geom.Pt(1, 2)
		a := geom.Pt(c.Draw(rt, "ax"), c.Draw(rt, "ay"))
		moves := []Affine{Rotate(c.Draw(rt, "angle"), a), MirrorUpright(a.X), MirrorLevel(a.Y), Translate(a.X, a.Y)}
		for _, m := range moves[1:3] {
			if geom.Dist(m.Apply(a), a) > 1e-9 || geom.Dist(m.Apply(m.Apply(p)), p) > 1e-9 {
				rt.Fatalf("mirrored twice: %v from %v", m.Apply(m.Apply(p)), p)
			}
		}
		for i, m := range moves {
			if d := math.Abs(geom.Dist(m.Apply(p), m.Apply(q)) - geom.Dist(p, q)); d > 1e-9 {
				rt.Fatalf("move %d changes a distance by %v", i, d)
			}
			was, is := geom.TurnAngle(p, q, r), geom.TurnAngle(m.Apply(p), m.Apply(q), m.Apply(r))
			det := m.A*m.D - m.B*m.C
			if math.Abs(was) < 3 && geom.Dist(p, q) > 1 && geom.Dist(q, r) > 1 && math.Abs(is-det*was) > 1e-6 {
				rt.Fatalf("move %d, determinant %v: turn %v becomes %v", i, det, was, is)
			}
			both := moves[0].Then(m).Apply(p)
			if d := geom.Dist(both, m.Apply(moves[0].Apply(p))); d > 1e-9 {
				rt.Fatalf("move 0 then %d is %v mm off", i, d)
			}
		}
	})
	quarter := Rotate(math.Pi/2, geom.Pt(1, 1)).Apply(geom.Pt(3, 1))
	if geom.Dist(quarter, geom.Pt(1, 3)) > 1e-12 {
		t.Errorf("a quarter turn clockwise takes (3, 1) about (1, 1) to %v", quarter)
	}
}

// The box of fitted lines touches the box less the margin one way and is centred.
func TestFitBox(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := drawSpline(rt, 1)
		lo, hi := geom.Pt(10, 20), geom.Pt(110, 80)
		m, err := FitBox([]geom.Spline{s}, lo, hi, 5)
		if err != nil {
			rt.Fatal(err)
		}
		a, b := s.Map(m.Apply).Bounds()
		touch := math.Min(math.Abs(b.X-a.X-90), math.Abs(b.Y-a.Y-50))
		if touch > 1e-6 || b.X-a.X > 90+1e-6 || b.Y-a.Y > 50+1e-6 || geom.Dist(geom.Lerp(a, b, 0.5), geom.Pt(60, 50)) > 1e-6 {
			rt.Fatalf("fitted from %v to %v", a, b)
		}
	})
	if _, err := FitBox([]geom.Spline{line("M 0 0 L 1 1")}, geom.Pt(0, 0), geom.Pt(10, 10), 5); err == nil {
		t.Error("lines were fitted into nothing")
	}
}
