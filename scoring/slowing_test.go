package scoring

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// ellipseLine is an ellipse drawn from angle 0 for so many radians.
func ellipseLine(t testing.TB, a, b, angle float64) geom.Line {
	return mustLine(t, geom.Flatten(func(u float64) geom.Point { return geom.Pt(a*math.Cos(u), b*math.Sin(u)) }, 0, angle, int(angle*6)+1))
}

// phase integrates the angle of a hand that goes round the ellipse a x b at v = k
// kappa^-beta, by the classical Runge-Kutta method, and returns it at 1/fs s steps.
func phase(a, b, k, beta, fs float64, n int) []float64 {
	rate := func(p float64) float64 {
		r := math.Hypot(a*math.Sin(p), b*math.Cos(p))
		return k * math.Pow(a*b/(r*r*r), -beta) / r
	}
	const sub = 8
	h := 1 / fs / sub
	out := make([]float64, n)
	for i, p := 0, 0.0; i < n; i++ {
		out[i] = p
		for range sub {
			k1 := rate(p)
			k2 := rate(p + h/2*k1)
			k3 := rate(p + h/2*k2)
			k4 := rate(p + h*k3)
			p += h / 6 * (k1 + 2*k2 + 2*k3 + k4)
		}
	}
	return out
}

type lawCase struct {
	ID    string
	Input struct {
		A, B, Omega, FS, K, Beta float64
		N                        int
		First                    []float64 `json:"phase_first5"`
	}
	Beta float64 `json:"beta_exact"`
	K    float64 `json:"K_exact"`
}

// angles returns the angle on the ellipse at each sample, and the true exponent
// and K of the movement.
func (c lawCase) angles(t *testing.T) (angle []float64, beta, k float64) {
	in := c.Input
	if !strings.HasPrefix(c.ID, "ellipse_harmonic") {
		angle = phase(in.A, in.B, in.K, in.Beta, in.FS, in.N)
		for i, want := range in.First {
			near(t, c.ID+": phase", angle[i], want, 1e-9)
		}
		return angle, in.Beta, in.K
	}
	for i := range in.N {
		angle = append(angle, in.Omega*float64(i)/in.FS)
	}
	return angle, c.Beta, c.K
}

// powerlaw.json: ellipses drawn by harmonic motion (exponent 1/3 exactly, K in
// closed form) and by hands that keep to v = K kappa^-beta. Through preparing,
// matching and the curvature of the line the exponent is met to 0.004 and K to
// 2 %. Units of 1 mm and less are enlarged 50 times, K with them.
func TestPowerLaw(t *testing.T) {
	var f struct {
		Cases   []lawCase
		MinJerk []struct{ Nu, Beta float64 } `json:"min_jerk_beta"`
	}
	vectors(t, "powerlaw.json", &f)
	if len(f.Cases) == 0 || len(f.MinJerk) == 0 {
		t.Fatal("powerlaw.json lacks cases")
	}
	for _, c := range f.Cases {
		in, scale := c.Input, 1.0
		if in.A < 10 {
			scale = 50
		}
		angle, beta, k := c.angles(t)
		k *= math.Pow(scale, 1-beta)
		a, b := scale*in.A, scale*in.B
		tr := hand(func(t float64) geom.Point {
			u := angle[min(in.N-1, int(math.Round(t*in.FS)))]
			return geom.Pt(a*math.Cos(u), b*math.Sin(u))
		}, float64(in.N-1)/in.FS, in.FS)
		s := score(t, ellipseLine(t, a, b, angle[in.N-1]), tr, plan()).Slowing
		near(t, c.ID+": exponent", s.Exponent.Value, beta, 0.004)
		near(t, c.ID+": K", s.scale, k, 0.02*k)
		near(t, c.ID+": untrained", s.Untrained.Value, untrainedExponent(2), 0.05)
	}
	for _, c := range f.MinJerk {
		near(t, fmt.Sprintf("untrained at %v swings a turn", c.Nu), untrainedExponent(c.Nu), c.Beta, 1e-12)
	}
}

type noisyCase struct {
	FS       float64
	Beta     float64 `json:"true_beta"`
	Jitter   float64 `json:"jitter_sd_px"`
	Measured float64 `json:"beta_from_measured_curvature"`
}

// trace goes round an ellipse of 100 x 50 pixels of 1 mm three times and a
// quarter, shaken and rounded to whole pixels.
func (c noisyCase) trace(rng *rand.Rand) trace.Trace {
	k := 200 * math.Pow(100*50/math.Pow(75, 3), c.Beta)
	angle := phase(100, 50, k, c.Beta, c.FS, int(8*c.FS))
	n := 0
	for n < len(angle) && angle[n] < 6.5*math.Pi {
		n++
	}
	tr := hand(func(t float64) geom.Point {
		u := angle[int(math.Round(t*c.FS))]
		return geom.Pt(
			math.Round(100*math.Cos(u)+c.Jitter*rng.NormFloat64()),
			math.Round(50*math.Sin(u)+c.Jitter*rng.NormFloat64()))
	}, float64(n-1)/c.FS, c.FS)
	tr.PixelMM = 1
	return tr
}

// powerlaw.json: an ellipse at exactly even speed, rounded to whole pixels and
// shaken, yields exponents up to 0.34 from the raw curvature of the movement. From
// the curvature of the line the true one comes out, within 0.01.
func TestNoiseFeignsNoLaw(t *testing.T) {
	var f struct {
		Comparison struct{ Rows []noisyCase } `json:"ideal_curvature_comparison"`
	}
	vectors(t, "powerlaw.json", &f)
	if len(f.Comparison.Rows) == 0 {
		t.Fatal("powerlaw.json holds no rows with noise")
	}
	l := ellipseLine(t, 100, 50, 6.5*math.Pi)
	rng := rand.New(rand.NewPCG(1, 2))
	var feigned float64
	for _, c := range f.Comparison.Rows {
		s := score(t, l, c.trace(rng), plan()).Slowing
		near(t, fmt.Sprintf("exponent at %v Hz, jitter %v, true %v", c.FS, c.Jitter, c.Beta), s.Exponent.Value, c.Beta, 0.01)
		feigned = math.Max(feigned, math.Abs(c.Measured-c.Beta))
	}
	if feigned < 0.3 {
		t.Errorf("the file should show that raw curvature feigns a law; its worst error is %v", feigned)
	}
}

// The untrained exponent of a spiral is 2/3 and that of three lobes 0.238 (Huh
// and Sejnowski, PNAS 112, 2015), of a line whose log curvature swings 3 times a
// turn; straight lines and circles have none.
func TestUntrainedExponentOfALine(t *testing.T) {
	of := func(pl geom.Polyline) Figure {
		l := mustLine(t, pl)
		r := &run{line: l, bends: newBends(l)}
		return r.untrained()
	}
	near(t, "spiral", of(spiral(t).Path()).Value, 2.0/3, 0.02)
	// Direction theta, curvature exp(cos 3 theta)/40: integrate d s = d theta/kappa.
	var lobes geom.Polyline
	p := geom.Point{}
	const h = 1e-3
	for th := 0.0; th < 4*math.Pi; th += h {
		lobes = append(lobes, p)
		step := h * 40 * math.Exp(-math.Cos(3*th))
		p = geom.Pt(p.X+step*math.Cos(th+h/2), p.Y+step*math.Sin(th+h/2))
	}
	near(t, "three lobes", of(lobes).Value, untrainedExponent(3), 0.01)
	for name, pl := range map[string]geom.Polyline{
		"straight": geom.MustParse("M 0 0 L 100 0"), "circle": geom.Arc(geom.Point{}, 30, 0, 6),
	} {
		if f := of(pl); f.Defined || f.Why == "" {
			t.Errorf("%s: untrained exponent %+v, want none and the reason", name, f)
		}
	}
}
