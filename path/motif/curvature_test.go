package motif

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// A circle has its radius and turns by 2 pi; an ellipse bends most at the end of
// its long axis, with radius b^2/a (do Carmo, Differential Geometry of Curves and
// Surfaces, 1-5; from memory); an Archimedean spiral r = b t has the curvature
// (2+t^2)/(b (1+t^2)^(3/2)) (Weisstein, "Archimedes' Spiral", MathWorld; from
// memory), and turns by t + atan t from its middle to t.
func TestCurvatureAgainstClosedForms(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		r := rapid.Float64Range(5, 500).Draw(rt, "r")
		c := Piece{Path: ring(geom.Pt(3, 4), r)}.Curvature()
		if math.Abs(c.Radius-r) > 0.05*r || math.Abs(c.Turning-2*math.Pi) > 1e-6 || c.Corners != 0 {
			rt.Fatalf("circle of radius %v: %+v", r, c)
		}
		a, b := r*rapid.Float64Range(1, 2).Draw(rt, "a/b"), r
		ellipse := geom.Flatten(func(t float64) geom.Point { return geom.Pt(a*math.Cos(t), b*math.Sin(t)) }, 0, 2*math.Pi, 16)
		c = Piece{Path: ellipse}.Curvature()
		if least := b * b / a; math.Abs(c.Radius-least) > 0.12*least || math.Abs(c.Turning-2*math.Pi) > 0.2 {
			rt.Fatalf("ellipse %v x %v: %+v, want radius %v", a, b, c, least)
		}
		pitch, t0, t1 := r/10+1, 4.0, 20.0
		spiral := geom.Flatten(func(t float64) geom.Point { return geom.Pt(pitch*t*math.Cos(t), pitch*t*math.Sin(t)) }, t0, t1, 64)
		c = Piece{Path: spiral}.Curvature()
		least := pitch * math.Pow(1+t0*t0, 1.5) / (2 + t0*t0)
		turning := t1 + math.Atan(t1) - t0 - math.Atan(t0)
		if math.Abs(c.Radius-least) > 0.15*least || math.Abs(c.Turning-turning) > 0.02*turning {
			rt.Fatalf("spiral of pitch %v: %+v, want radius %v, turning %v", pitch, c, least, turning)
		}
	})
}

// The outer angles of a closed polygon without crossing sum to 2 pi, of a square
// spiral to pi/2 a corner.
func TestCornersAreCounted(t *testing.T) {
	for _, k := range Shapes() {
		s := Shape{Kind: k, W: 100, H: 60}
		c := Piece{Path: s.Outline()}.Curvature()
		if c.Corners != len(s.corners()) || math.Abs(c.Turning-2*math.Pi) > 1e-6 {
			t.Errorf("%s: %+v, want %d corners and 2 pi", k, c, len(s.corners()))
		}
	}
	l, err := SquareSpiral(3, 10)
	if err != nil {
		t.Fatal(err)
	}
	if c := (Piece{Path: l.Path()}).Curvature(); c.Corners != 11 || math.Abs(c.Turning-11*math.Pi/2) > 1e-6 || !math.IsInf(c.Radius, 1) {
		t.Errorf("square spiral: %+v, want 11 corners", c)
	}
}

// The tangent of the smooth patterns is continuous: no vertex turns by more than
// the flattening of a bend of the radius that the line itself has.
func TestSmoothPatternsHaveNoKink(t *testing.T) {
	for _, p := range Ready() {
		for _, s := range usualShapes() {
			if !p.Smooth || p.Lack(s) != "" {
				continue
			}
			pieces, _, err := usualFit(p, s)
			if err != nil {
				continue
			}
			for _, q := range pieces {
				c := q.Curvature()
				turns, _ := bends(q.Path)
				for i, a := range turns {
					if math.Abs(a) > 0.35 {
						t.Errorf("%s in %v: %s turns by %.2f at point %d of %d (smallest radius %.2f mm)",
							p.ID, s, q.Name, a, i+1, len(turns), c.Radius)
						break
					}
				}
			}
		}
	}
}
