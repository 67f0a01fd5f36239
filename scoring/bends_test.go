package scoring

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"unthreaded/path/geom"
)

// spiral_arclength.json, closed forms: lengths to 1e-4 of the size (curves are
// flattened to geom.Sagitta). Small curves are enlarged to a hand's size.
func TestLengths(t *testing.T) {
	var f struct {
		ArcLength []map[string]json.RawMessage `json:"arc_length"`
	}
	vectors(t, "spiral_arclength.json", &f)
	if len(f.ArcLength) == 0 {
		t.Fatal("spiral_arclength.json lacks curves")
	}
	for _, c := range f.ArcLength {
		var name string
		if err := json.Unmarshal(c["curve"], &name); err != nil {
			t.Fatal(err)
		}
		make, ok := curves[name]
		if !ok {
			t.Fatalf("%s: this test does not know the curve", name)
		}
		at, t0, t1 := make(c)
		want := number(c, "length")
		scale := math.Max(1, 500/want)
		l := mustLine(t, geom.Flatten(func(u float64) geom.Point {
			p := at(u)
			return geom.Pt(scale*p.X, scale*p.Y)
		}, t0, t1, 64))
		near(t, name+": length", l.Length()/scale, want, 1e-4*want)
	}
}

// spiral_arclength.json: the curvature of an Archimedean spiral, to 4 %, a unit
// being 60 mm, and its places at even arc lengths, to 0.03 mm.
func TestBendsAndPlacesOfASpiral(t *testing.T) {
	var f struct {
		Curvature struct {
			Values []struct{ Theta, B, Kappa float64 }
		} `json:"archimedean_curvature"`
		Equal struct {
			B      float64
			End    float64 `json:"theta_end"`
			Points []struct{ S, X, Y float64 }
		} `json:"equal_arc_points"`
	}
	vectors(t, "spiral_arclength.json", &f)
	if len(f.Curvature.Values) == 0 || len(f.Equal.Points) == 0 {
		t.Fatal("spiral_arclength.json lacks places of a spiral")
	}
	for _, c := range f.Curvature.Values {
		// Around the place, and not at the end, so that the circle fits in.
		at := polar(func(th float64) float64 { return 60 * c.B * th })
		l := mustLine(t, geom.Flatten(at, 0, c.Theta+1, 40))
		s := mustLine(t, geom.Flatten(at, 0, c.Theta, 40)).Length()
		near(t, fmt.Sprintf("curvature at %v", c.Theta), 60*newBends(l).at(s), c.Kappa, 0.04*c.Kappa)
	}
	l := mustLine(t, geom.Flatten(polar(func(th float64) float64 { return f.Equal.B * th }), 0, f.Equal.End, 60))
	for _, p := range f.Equal.Points {
		if d := geom.Dist(l.At(p.S), geom.Pt(p.X, p.Y)); d > 0.03 {
			t.Errorf("at %v mm the spiral is %.4f mm from (%v, %v)", p.S, d, p.X, p.Y)
		}
	}
}

// number returns a parameter of a curve, 0 if it has none of that name.
func number(c fields, key string) float64 {
	var v float64
	if err := json.Unmarshal(c[key], &v); err != nil {
		return 0
	}
	return v
}

// polar returns the curve r(theta).
func polar(r func(th float64) float64) func(float64) geom.Point {
	return func(th float64) geom.Point { return geom.Pt(r(th)*math.Cos(th), r(th)*math.Sin(th)) }
}

type fields = map[string]json.RawMessage

// fixed is a curve without parameters over one turn.
func fixed(at func(u float64) geom.Point) func(fields) (func(float64) geom.Point, float64, float64) {
	return func(fields) (func(float64) geom.Point, float64, float64) { return at, 0, 2 * math.Pi }
}

// curves are the curves that a case may name.
var curves = map[string]func(c fields) (at func(float64) geom.Point, t0, t1 float64){
	"archimedean r=b theta":   archimedean,
	"archimedean r=a+b theta": archimedean,
	"logarithmic r=r0 e^(k theta)": func(c fields) (func(float64) geom.Point, float64, float64) {
		return polar(func(th float64) float64 { return number(c, "r0") * math.Exp(number(c, "k")*th) }), 0, number(c, "theta1")
	},
	"ellipse perimeter 4 a E(m), m=1-b^2/a^2": func(c fields) (func(float64) geom.Point, float64, float64) {
		return func(u float64) geom.Point { return geom.Pt(number(c, "a")*math.Cos(u), number(c, "b")*math.Sin(u)) }, 0, 2 * math.Pi
	},
	"y=A sin(2 pi x/L), A=10,L=40, one period": func(fields) (func(float64) geom.Point, float64, float64) {
		return func(u float64) geom.Point { return geom.Pt(u, 10*math.Sin(2*math.Pi*u/40)) }, 0, 40
	},
	"prolate trochoid x=R t - d sin t, y=R - d cos t (row of loops when d>R), one period": func(c fields) (func(float64) geom.Point, float64, float64) {
		r, d := number(c, "R"), number(c, "d")
		return func(u float64) geom.Point { return geom.Pt(r*u-d*math.Sin(u), -d*math.Cos(u)) }, 0, 2 * math.Pi
	},
	"cubic Bezier":        bezier,
	"y=sin x, one period": fixed(func(u float64) geom.Point { return geom.Pt(u, math.Sin(u)) }),
	"cycloid x=r(t-sin t), y=r(1-cos t), one arch, r=1": fixed(func(u float64) geom.Point { return geom.Pt(u-math.Sin(u), 1-math.Cos(u)) }),
	"cardioid r=a(1+cos theta), a=1, whole":             fixed(polar(func(th float64) float64 { return 1 + math.Cos(th) })),
	"rose r=cos(2 theta), whole":                        fixed(polar(func(th float64) float64 { return math.Cos(2 * th) })),
	"figure eight x=sin t, y=sin t cos t, whole":        fixed(func(u float64) geom.Point { return geom.Pt(math.Sin(u), math.Sin(u)*math.Cos(u)) }),
	"lemniscate of Bernoulli half-width a=1, whole": fixed(func(u float64) geom.Point {
		d := 1 + math.Pow(math.Sin(u), 2)
		return geom.Pt(math.Cos(u)/d, math.Sin(u)*math.Cos(u)/d)
	}),
}

func archimedean(c fields) (at func(float64) geom.Point, t0, t1 float64) {
	return polar(func(th float64) float64 { return number(c, "a") + number(c, "b")*th }), number(c, "theta0"), number(c, "theta1")
}

func bezier(c fields) (at func(float64) geom.Point, t0, t1 float64) {
	var p [4][2]float64
	if err := json.Unmarshal(c["P"], &p); err != nil {
		panic(err)
	}
	return func(u float64) geom.Point {
		v := 1 - u
		w := [4]float64{v * v * v, 3 * u * v * v, 3 * u * u * v, u * u * u}
		var q geom.Point
		for i := range w {
			q = geom.Pt(q.X+w[i]*p[i][0], q.Y+w[i]*p[i][1])
		}
		return q
	}, 0, 1
}
