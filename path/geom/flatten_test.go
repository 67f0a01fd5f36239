package geom

import (
	"math"
	"testing"
)

// Closed forms: circumference 2 pi r; a quarter-circle Bezier with
// k = 0.5522847498 has arc length 1.571016698074 (adaptive quadrature, see
// testdata/vectors/spiral_arclength.json).
func TestFlattenedLengths(t *testing.T) {
	near(t, "circle of radius 40", Arc(Pt(3, 4), 40, 0, 2*math.Pi).Length(), 2*math.Pi*40, 0.05)
	const k = 0.5522847498
	b := Bezier(Pt(100, 0), Pt(100, 100*k), Pt(100*k, 100), Pt(0, 100))
	near(t, "quarter-circle Bezier of radius 100", b.Length(), 157.1016698074, 0.02)
}

// Every point of the true circle lies within Sagitta of some chord, and no
// vertex turns enough to pass for a corner.
func TestFlattenKeepsItsPromises(t *testing.T) {
	for _, r := range []float64{0.8, 1.6, 10, 80} {
		pl := Arc(Pt(0, 0), r, 0.3, 0.3+2*math.Pi)
		for i := 1; i < len(pl); i++ {
			mid := Lerp(pl[i-1], pl[i], 0.5)
			if gap := r - math.Hypot(mid.X, mid.Y); gap > Sagitta*1.0001 {
				t.Errorf("radius %v: chord %d is %v mm off, want at most %v", r, i, gap, Sagitta)
			}
		}
		if l := mustLine(t, pl); len(l.Corners) > 0 {
			t.Errorf("radius %v: %d corners on a circle", r, len(l.Corners))
		}
	}
}

// The curvature of a circle is 1/r; of an Archimedean spiral r = b theta it is
// (theta^2+2)/(b (theta^2+1)^1.5) (testdata/vectors/spiral_arclength.json).
func TestCurvatureAgainstClosedForms(t *testing.T) {
	l := mustLine(t, Arc(Pt(0, 0), 25, 0, 2*math.Pi))
	for _, k := range l.Curvature(1, 2) {
		near(t, "circle curvature", k, 1.0/25, 2*Sagitta/4)
	}
	const b = 5.0
	f := func(th float64) Point { return Pt(b*th*math.Cos(th), b*th*math.Sin(th)) }
	sp := mustLine(t, Flatten(f, 0, 6*math.Pi, 24))
	length := func(th float64) float64 { return b / 2 * (th*math.Sqrt(1+th*th) + math.Asinh(th)) }
	near(t, "spiral length", sp.Length(), length(6*math.Pi), 0.05)
	kappa := sp.Curvature(0.5, 1.5)
	for th := 3.0; th < 18; th += 2.5 {
		want := (th*th + 2) / (b * math.Pow(th*th+1, 1.5))
		near(t, "spiral curvature", kappa[int(math.Round(length(th)/0.5))], want, 2*Sagitta/(1.5*1.5))
	}
}
