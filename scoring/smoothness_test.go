package scoring

import (
	"math"
	"strings"
	"testing"
)

type smoothCase struct {
	ID     string
	FS     float64
	N      int
	Params struct {
		T, D, M, F, Off, T0, Ramp float64
		K                         int
		Sub                       [][3]float64
	}
	SPARCParams struct {
		PadLevel int
		FC       float64
		AmpTh    float64 `json:"amp_th"`
	} `json:"sparc_params"`
	Out struct {
		SPARC    float64
		PeaksPro int       `json:"peaks_prominence_5pct_of_max"`
		CV       float64   `json:"cv_population"`
		Sum      float64   `json:"input_sum"`
		First    []float64 `json:"input_first5"`
	}
}

// minJerk is the speed of a minimum-jerk reach of D in T (Flash and Hogan, 1985).
func minJerk(t, d, duration float64) float64 {
	u := t / duration
	if u < 0 || u > 1 {
		return 0
	}
	return d / duration * (30*u*u - 60*u*u*u + 30*u*u*u*u)
}

// sigmoid is the smooth step of the cruise cases.
func sigmoid(u float64) float64 {
	u = math.Max(0, math.Min(1, u))
	return u * u * u * (10 - 15*u + 6*u*u)
}

// profiles make the speed that the cases describe in words, at time s, by the
// beginning of their names; the first that fits counts.
var profiles = []struct {
	prefix string
	at     func(c smoothCase, s float64) float64
}{
	{"gauss_doc", func(_ smoothCase, s float64) float64 { return math.Exp(-5 * math.Pow(s-1, 2)) }},
	{"minjerk_T1_padded", func(c smoothCase, s float64) float64 { return minJerk(s-c.Params.T0, 1, c.Params.T) }},
	{"minjerk_T1_fs1000_pad8", func(_ smoothCase, s float64) float64 { return minJerk(s, 1, 1) }},
	{"minjerk_T", func(c smoothCase, s float64) float64 { return minJerk(s, c.Params.D, c.Params.T) }},
	{"minjerk_sin6Hz_10pct", func(_ smoothCase, s float64) float64 { return minJerk(s, 1, 1) * (1 + 0.1*math.Sin(12*math.Pi*s)) }},
	{"minjerk_sin6Hz_30pct", func(_ smoothCase, s float64) float64 { return minJerk(s, 1, 1) * (1 + 0.3*math.Sin(12*math.Pi*s)) }},
	{"minjerk_lcgnoise_0.02", func(c smoothCase, s float64) float64 { return minJerk(s, 1, 1) + 0.02*c.random(s) }},
	{"minjerk_lcgnoise_0.2", func(c smoothCase, s float64) float64 { return minJerk(s, 1, 1) + 0.2*c.random(s) }},
	{"submov_K", submovements},
	{"submov_unequal", func(c smoothCase, s float64) (v float64) {
		for _, m := range c.Params.Sub {
			v += minJerk(s-m[2], m[1], m[0])
		}
		return v
	}},
	{"const_", func(smoothCase, float64) float64 { return 1 }},
	{"sinmod_m0.3_f2_", func(_ smoothCase, s float64) float64 { return 1 + 0.3*math.Sin(4*math.Pi*s) }},
	{"sinmod_m0.1_f2_amp0.01", func(_ smoothCase, s float64) float64 { return 1 + 0.1*math.Sin(4*math.Pi*s) }},
	{"sinmod_", func(c smoothCase, s float64) float64 { return 1 + c.Params.M*math.Sin(2*math.Pi*c.Params.F*s) }},
	{"cruise_", func(c smoothCase, s float64) float64 {
		p := c.Params
		return sigmoid(s/p.Ramp) * sigmoid((p.T-s)/p.Ramp) * (1 + p.M*math.Sin(2*math.Pi*p.F*s))
	}},
}

func submovements(c smoothCase, s float64) (v float64) {
	for q := range c.Params.K {
		v += minJerk(s-float64(q)*c.Params.Off, 1, c.Params.T)
	}
	return v
}

// random is the value at time s of the linear congruential generator that the
// file names.
func (c smoothCase) random(s float64) float64 {
	seed := uint32(12345)
	for range 1 + int(math.Round(s*c.FS)) {
		seed = 1664525*seed + 1013904223
	}
	return float64(seed)/(1<<32) - 0.5
}

func (c smoothCase) input(t *testing.T) []float64 {
	for _, p := range profiles {
		if strings.HasPrefix(c.ID, p.prefix) {
			v := make([]float64, c.N)
			for k := range v {
				v[k] = p.at(c, float64(k)/c.FS)
			}
			return v
		}
	}
	t.Fatalf("%s: this test does not know how to make the input", c.ID)
	return nil
}

// smoothness.json: the reference code of the authors of SPARC (siva82kb/SPARC,
// ISC licence), cross-checked with their later one; prominent peaks by
// scipy.signal.find_peaks. Tolerance 1e-9; the inputs are checked by their sums.
func TestSmoothnessAgainstReferenceCode(t *testing.T) {
	var f struct{ Cases []smoothCase }
	vectors(t, "smoothness.json", &f)
	if len(f.Cases) == 0 {
		t.Fatal("smoothness.json holds no case")
	}
	usual := 0
	defer func() {
		if usual == 0 {
			t.Error("no case has the parameters that the authors recommend")
		}
	}()
	for _, c := range f.Cases {
		v := c.input(t)
		var sum, top float64
		for k, x := range v {
			sum += x
			top = math.Max(top, x)
			if k < len(c.Out.First) {
				near(t, c.ID+": input", x, c.Out.First[k], 1e-12)
			}
		}
		near(t, c.ID+": sum of the input", sum, c.Out.Sum, 1e-9*math.Abs(c.Out.Sum))
		p := c.SPARCParams
		near(t, c.ID+": SPARC", sparc(v, c.FS, p.PadLevel, p.FC, p.AmpTh), c.Out.SPARC, 1e-9)
		if p.PadLevel == 4 && p.FC == 10 && p.AmpTh == 0.05 {
			usual++
			near(t, c.ID+": SPARC as published", SPARC(v, c.FS), c.Out.SPARC, 1e-9)
		}
		if got := len(peaks(v, 0.05*top)); got != c.Out.PeaksPro {
			t.Errorf("%s: %d prominent peaks, want %d", c.ID, got, c.Out.PeaksPro)
		}
		if cv := quiet(v, 0); cv.Defined {
			near(t, c.ID+": CV", cv.Value, c.Out.CV, 1e-9)
		} else {
			t.Errorf("%s: no CV: %s", c.ID, cv.Why)
		}
	}
}
