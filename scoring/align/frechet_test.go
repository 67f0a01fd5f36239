package align

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

func vectors(t testing.TB, name string, into any) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/vectors/" + name)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

func points(xy [][2]float64) geom.Polyline {
	pl := make(geom.Polyline, len(xy))
	for i, c := range xy {
		pl[i] = geom.Pt(c[0], c[1])
	}
	return pl
}

// geometry.json: Frechet distances by GEOS 3.11.1 and an independent
// implementation of Alt and Godau; distances of B's vertices from A by shapely
// 1.8.5. Tolerance 1e-9 of the size, 1e-6 for the search by halving.
func TestDistancesAgainstGEOS(t *testing.T) {
	var f struct {
		Pairs []struct {
			ID                string
			A, B              [][2]float64
			LengthA           float64   `json:"length_A"`
			DiscreteFrechet   float64   `json:"discrete_frechet"`
			ContinuousFrechet float64   `json:"continuous_frechet"`
			BtoA              []float64 `json:"vertex_B_to_polyline_A_distances"`
		}
	}
	vectors(t, "geometry.json", &f)
	if len(f.Pairs) == 0 {
		t.Fatal("geometry.json holds no pairs")
	}
	for _, c := range f.Pairs {
		a, b := points(c.A), points(c.B)
		if got := DiscreteFrechet(a, b); math.Abs(got-c.DiscreteFrechet) > 1e-9*c.DiscreteFrechet {
			t.Errorf("%s: discrete %.12g, want %.12g", c.ID, got, c.DiscreteFrechet)
		}
		if got := Frechet(a, b, 1e-8, 1e4); math.Abs(got-c.ContinuousFrechet) > 1e-6 {
			t.Errorf("%s: continuous %.12g, want %.12g", c.ID, got, c.ContinuousFrechet)
		}
		if l := mustLine(t, a); math.Abs(l.Length()-c.LengthA) > 1e-9*c.LengthA {
			t.Errorf("%s: length %v, want %v", c.ID, l.Length(), c.LengthA)
		} else {
			for i, want := range c.BtoA {
				s := project(l, b[i], 0, l.Length())
				if got := geom.Dist(b[i], l.At(s)); math.Abs(got-want) > 1e-9*(1+want) {
					t.Errorf("%s: vertex %d of B lies %.12g from A, want %.12g", c.ID, i, got, want)
				}
			}
		}
	}
}

// The continuous distance lies between those of the ends and the discrete one,
// which exceeds it by at most the longest piece (Eiter and Mannila 1994); with
// ever shorter pieces the discrete one approaches it.
func TestDiscreteBracketsContinuous(t *testing.T) {
	point := rapid.Custom(func(t *rapid.T) geom.Point {
		return geom.Pt(rapid.Float64Range(-20, 20).Draw(t, "x"), rapid.Float64Range(-20, 20).Draw(t, "y"))
	})
	rapid.Check(t, func(rt *rapid.T) {
		p := geom.Polyline(rapid.SliceOfN(point, 2, 7).Draw(rt, "p"))
		q := geom.Polyline(rapid.SliceOfN(point, 2, 7).Draw(rt, "q"))
		lp, errP := geom.NewLine(p)
		lq, errQ := geom.NewLine(q)
		if errP != nil || errQ != nil {
			return
		}
		cont := Frechet(p, q, 1e-9, 1e4)
		if back := Frechet(q, p, 1e-9, 1e4); math.Abs(cont-back) > 1e-6 {
			rt.Fatalf("%v one way, %v the other", cont, back)
		}
		rev := Frechet(p.Reversed(), q.Reversed(), 1e-9, 1e4)
		if math.Abs(cont-rev) > 1e-6 {
			rt.Fatalf("%v forwards, %v backwards", cont, rev)
		}
		if d := DiscreteFrechet(p, q); d < cont-1e-6 {
			rt.Fatalf("discrete %v below continuous %v", d, cont)
		}
		const step = 0.25
		fine := DiscreteFrechet(dense(lp, step), dense(lq, step))
		if fine < cont-1e-6 || fine > cont+step {
			rt.Fatalf("continuous %v, discrete with pieces of %v mm %v", cont, step, fine)
		}
	})
}

// dense returns the vertices of the line and points between, at most step apart.
func dense(l geom.Line, step float64) geom.Polyline {
	path := l.Path()
	out := geom.Polyline{path[0]}
	for i := 1; i < len(path); i++ {
		n := math.Ceil(geom.Dist(path[i-1], path[i]) / step)
		for k := 1.0; k <= n; k++ {
			out = append(out, geom.Lerp(path[i-1], path[i], k/n))
		}
	}
	return out
}
