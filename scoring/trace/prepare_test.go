package trace

import (
	"encoding/binary"
	"math"
	"strings"
	"testing"

	"unthreaded/path/geom"
)

func prepared(t testing.TB, tr Trace) Prepared {
	t.Helper()
	p, err := Prepare(tr)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// straight moves along x at v mm/s and is sampled at the given times.
func straight(v float64, times ...float64) Trace {
	var tr Trace
	for _, t := range times {
		tr.Samples = append(tr.Samples, Sample{T: t, P: geom.Pt(v*t, 1), Pressure: 0.5})
	}
	return tr
}

func steps(n int, step float64) []float64 {
	t := make([]float64, n)
	for i := range t {
		t[i] = float64(i) * step
	}
	return t
}

// An even movement stays even whatever the steps of its clock, and a filter that
// lets straight lines through leaves it where it was.
func TestEvenMovementStaysEven(t *testing.T) {
	uneven := []float64{0, 0.004, 0.021, 0.03, 0.055, 0.06, 0.1, 0.12, 0.14, 0.19, 0.2, 0.24, 0.27, 0.3}
	for _, times := range [][]float64{steps(100, 1.0/60), steps(400, 1.0/240), uneven} {
		p := prepared(t, straight(25, times...))
		for i := range p.Points {
			if at := min(p.Time(i), times[len(times)-1]); math.Abs(p.Points[i].X-25*at) > 0.07 {
				t.Errorf("point %d lies at %.4f mm, want %.4f", i, p.Points[i].X, 25*at)
			}
		}
		for i := 3; i < len(p.Speed)-6; i++ {
			near(t, "speed", p.Speed[i], 25, 0.5)
		}
	}
}

// A circle at 60, 120 and 240 Hz has the same length and speed: 25 mm/s.
func TestRatesAgree(t *testing.T) {
	for _, rate := range []float64{60, 120, 240, 1000} {
		p := prepared(t, circling(int(10*rate)+1, rate))
		near(t, "length of the path", p.Arc[len(p.Arc)-1], 250, 0.3)
		for i := 30; i < len(p.Speed)-30; i++ {
			near(t, "speed", p.Speed[i], 25, 0.1)
		}
		near(t, "place after 3.21 s", geom.Dist(p.At(3.21), geom.Pt(40*math.Cos(3.21*25/40), 40*math.Sin(3.21*25/40))), 0, 0.01)
	}
}

func TestTimesAreSortedAndMerged(t *testing.T) {
	p := prepared(t, straight(25, 0, 0.01, 0.01, 0.03, 0.02, 0.04, 0.05))
	if p.Merged != 1 || p.Reordered != 1 {
		t.Errorf("%d merged and %d reordered, want 1 and 1", p.Merged, p.Reordered)
	}
	near(t, "place at 0.02 s", p.At(0.02).X, 0.5, 0.02)
}

// Over 60 ms without a sample is a gap if the hand moved meanwhile; a hand that
// rests sends no samples, and there it rests.
func TestGapsAndRests(t *testing.T) {
	times := append(steps(25, 0.01), 0.5, 0.51, 0.52, 0.53, 0.54, 0.55)
	p := prepared(t, straight(100, times...))
	if len(p.Gaps) != 1 {
		t.Fatalf("%d gaps, want 1", len(p.Gaps))
	}
	g := p.Gaps[0]
	near(t, "gap from", g.From, 0.24, 1e-9)
	near(t, "gap to", g.To, 0.5, 1e-9)
	near(t, "moved", g.Moved, 26, 1e-9)
	if runs := p.Runs(); len(runs) != 2 || runs[0][1] != g.First || runs[1][0] != g.End {
		t.Errorf("runs %v around the gap %+v", runs, g)
	}
	for i := g.First; i < g.End; i++ {
		near(t, "speed across the gap", p.Speed[i], 100, 1e-6)
	}
	falls := p.Falls(600)
	for k, f := range falls {
		if want := k == 3 || k == 4 || k == 5; f.Gap != want {
			t.Errorf("fall %d at %.2f s: gap %v, want %v", k, f.T, f.Gap, want)
		}
	}
	rest := straight(0, times...)
	if p := prepared(t, rest); len(p.Gaps) != 0 || p.Speed[40] > 1e-9 {
		t.Errorf("a resting hand: %d gaps, speed %v", len(p.Gaps), p.Speed[40])
	}
}

// 10 stitches to the inch at 600 stitches a minute is an inch a second, 1 in =
// 25.4 mm (international yard and pound agreement, 1959).
func TestFallsOfAnEvenHand(t *testing.T) {
	p := prepared(t, straight(25.4, steps(241, 1.0/120)...))
	falls := p.Falls(600)
	if len(falls) != 21 || falls[0].Length != 0 || falls[0].T != 0 {
		t.Fatalf("%d falls, the first %+v; want 21, the first at the start", len(falls), falls[0])
	}
	for k := 1; k < len(falls); k++ {
		near(t, "stitch", falls[k].Length, 2.54, 0.01)
		near(t, "place", falls[k].P.X, 2.54*float64(k), 0.03)
	}
	for _, spm := range []float64{0, -1, math.NaN(), math.Inf(1), MaxSPM + 1} {
		if p.Falls(spm) != nil {
			t.Errorf("falls at %v stitches a minute", spm)
		}
	}
}

func TestBadTracesNameTheSample(t *testing.T) {
	for want, tr := range map[string]Trace{
		"the trace has no samples":                  {},
		"sample 1: place (NaN, 0) is not finite":    {Samples: []Sample{{}, {T: 1, P: geom.Pt(math.NaN(), 0)}}},
		"all 2 samples have the same time":          {Samples: []Sample{{}, {}}},
		"the trace lasts 4000 s, more than 1800":    straight(1, 0, 4000),
		"sample 1: (1e+09, 0) mm at 1 s is beyond":  {Samples: []Sample{{}, {T: 1, P: geom.Pt(1e9, 0)}}},
		"sample 0: (0, 0) mm at 1e+300 s is beyond": {Samples: []Sample{{T: 1e300}, {}}},
	} {
		if _, err := Prepare(tr); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want %q", err, want)
		}
	}
}

// fromBytes reads a trace from 12 bytes a sample, for fuzzing.
func fromBytes(data []byte) (tr Trace) {
	for ; len(data) >= 12; data = data[12:] {
		f := func(i int) float64 { return float64(math.Float32frombits(binary.LittleEndian.Uint32(data[i:]))) }
		tr.Samples = append(tr.Samples, Sample{T: f(0), P: geom.Pt(f(4), f(8)), Pressure: 0.5})
	}
	return tr
}

func FuzzPrepare(f *testing.F) {
	var seed []byte
	for _, v := range []float32{0, 1, 2, 0.01, 3, 4, 0.01, 5, 6, 0.2, 50, 60, 0.05, 7, 8} {
		seed = binary.LittleEndian.AppendUint32(seed, math.Float32bits(v))
	}
	f.Add(seed, 600.0, 0.26)
	f.Fuzz(func(t *testing.T, data []byte, spm, pixel float64) {
		tr := fromBytes(data)
		tr.PixelMM = pixel
		p, err := Prepare(tr)
		if err != nil {
			return
		}
		if len(p.Speed) != len(p.Points) || len(p.Arc) != len(p.Points) {
			t.Fatalf("%d points, %d speeds, %d arcs", len(p.Points), len(p.Speed), len(p.Arc))
		}
		for i, q := range p.Points {
			if !geom.Finite(q) || !(p.Speed[i] >= 0) || math.IsInf(p.Speed[i], 0) {
				t.Fatalf("point %d: %v at %v mm/s", i, q, p.Speed[i])
			}
		}
		last := 0
		for _, r := range p.Runs() {
			if r[0] < last || r[1] <= r[0] || r[1] > len(p.Points) {
				t.Fatalf("runs %v of %d points", p.Runs(), len(p.Points))
			}
			last = r[1]
		}
		if n := len(p.Falls(min(spm, 3000))); n > 90_001 {
			t.Fatalf("%d falls in half an hour", n)
		}
	})
}
