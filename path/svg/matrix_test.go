package svg

import (
	"math"
	"strings"
	"testing"

	"unthreaded/path/geom"

	"pgregory.net/rapid"
)

// TestSpecExamples: the matrices that SVG 1.1 (Second Edition) prints in 7.4 and 7.5
// for its examples, to the three digits that it prints.
func TestSpecExamples(t *testing.T) {
	for _, c := range []struct {
		text string
		want matrix
		tol  float64
	}{
		{"translate(50,90) rotate(-45) translate(130,160)", matrix{.707, -.707, .707, .707, 255.03, 111.21}, 0.05},
		{"translate(50,30) rotate(30)", matrix{math.Sqrt(3) / 2, .5, -.5, math.Sqrt(3) / 2, 50, 30}, 1e-12},
		{"translate(200,40) scale(1.5)", matrix{1.5, 0, 0, 1.5, 200, 40}, 0},
		{"skewX(30)", matrix{1, 0, math.Tan(math.Pi / 6), 1, 0, 0}, 1e-15},
		{"skewY(30)", matrix{1, math.Tan(math.Pi / 6), 0, 1, 0, 0}, 1e-15},
		{"rotate(90)rotate(90),rotate(90) , rotate(90)", identity, 0},
		{"rotate(-90 3 4)", matrix{0, -1, 1, 0, -1, 7}, 0}, // 7.6: translate(3,4) rotate(-90) translate(-3,-4)
		{"matrix(1,2,3,4,5,6)", matrix{1, 2, 3, 4, 5, 6}, 0},
		{"", identity, 0},
	} {
		m, err := transform(c.text)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
		}
		got, want := [6]float64{m.a, m.b, m.c, m.d, m.e, m.f}, [6]float64{c.want.a, c.want.b, c.want.c, c.want.d, c.want.e, c.want.f}
		for i := range got {
			if math.Abs(got[i]-want[i]) > c.tol {
				t.Errorf("%q: %v, want %v", c.text, got, want)
				break
			}
		}
	}
}

func TestBadTransforms(t *testing.T) {
	for text, want := range map[string]string{
		"rotate(1 2)":           "at character 1: rotate with 2 numbers",
		"rotate 30":             "where a function",
		"scale(1,)":             "at character 9: \")\" where a number",
		"spin(3)":               "spin with 1 numbers",
		"translate(1),":         "the end where a function",
		"translate(1) , , x(1)": "where a function",
		"matrix(1 2 3 4 5 6 7)": "more than 6",
		"scale(1e300)":          "larger than 1e+12",
		"scale(2":               "the end where a number",
	} {
		if _, err := transform(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: error %v, want %q", text, err, want)
		}
	}
}

// TestMatrixLaws: a product maps as one map after the other; the stretch is the
// longest image of a unit vector, found by trying 360; the inverse undoes.
func TestMatrixLaws(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		v := rapid.SliceOfN(rapid.Float64Range(-3, 3), 14, 14).Draw(rt, "numbers")
		m, n := matrix{v[0], v[1], v[2], v[3], v[4], v[5]}, matrix{v[6], v[7], v[8], v[9], v[10], v[11]}
		p := geom.Pt(v[12], v[13])
		if d := geom.Dist(m.times(n).apply(p), m.apply(n.apply(p))); d > 1e-12 {
			rt.Fatalf("the product is %v off", d)
		}
		longest := 0.0
		for k := range 3600 {
			sin, cos := math.Sincos(float64(k) * math.Pi / 3600)
			longest = math.Max(longest, math.Hypot(m.a*cos+m.c*sin, m.b*cos+m.d*sin))
		}
		if s := m.stretch(); s < longest-1e-12 || s > longest*(1+1e-6)+1e-12 {
			rt.Fatalf("stretch %v, want %v", s, longest)
		}
		if inv, ok := m.inverse(); ok && math.Abs(m.a*m.d-m.b*m.c) > 1e-3 {
			if d := geom.Dist(inv.apply(m.apply(p)), p); d > 1e-9 {
				rt.Fatalf("the inverse is %v off", d)
			}
		}
	})
}
