package motif

import (
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mathext"
	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// published returns the arc length of a curve in the project's vectors (closed
// forms checked by quadrature; testdata/vectors/spiral_arclength.json), by the
// start of its name and its parameters.
func published(t *testing.T, curve string, params map[string]float64) float64 {
	t.Helper()
	data, err := os.ReadFile("../../testdata/vectors/spiral_arclength.json")
	if err != nil {
		t.Fatal(err)
	}
	var doc struct {
		ArcLength []map[string]any `json:"arc_length"`
	}
	if err := json.Unmarshal(data, &doc); err != nil {
		t.Fatal(err)
	}
	for _, v := range doc.ArcLength {
		name, _ := v["curve"].(string)
		match := strings.HasPrefix(name, curve)
		for k, want := range params {
			match = match && v[k] == want
		}
		if match {
			return v["length"].(float64)
		}
	}
	t.Fatalf("no curve %q with %v", curve, params)
	return 0
}

func nearly(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 5e-4*want {
		t.Errorf("%s: %v mm long, want %v", what, got, want)
	}
}

// The motifs at the size for which a length is published, scaled up so that
// flattening does not matter.
func TestRowsAgainstPublishedLengths(t *testing.T) {
	const scale = 50
	nearly(t, "loops R 1 d 2", Loops(3, 2*math.Pi*scale, 4*scale).Length(),
		3*scale*published(t, "prolate trochoid", map[string]float64{"R": 1, "d": 2}))
	nearly(t, "loops R 10 d 18", Loops(1, 20*math.Pi, 36).Length(), published(t, "prolate trochoid", map[string]float64{"R": 10, "d": 18}))
	nearly(t, "sine", Waves(4, 2*math.Pi*scale, 2*scale).Length(), 4*scale*published(t, "y=sin x", nil))
	nearly(t, "wave A 10 L 40", Waves(2, 40, 20).Length(), 2*published(t, "y=A sin", nil))
	nearly(t, "lemniscate", FigureEights(3, 2*scale).Length(), 3*scale*published(t, "lemniscate of Bernoulli", nil))
}

// The same for any size, by the complete elliptic integral of the second kind
// E(m) (Abramowitz & Stegun, Handbook of Mathematical Functions, 17.3; the
// lengths follow from it by substitution).
func TestRowsAgainstEllipticIntegrals(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(rt, "n")
		spacing := rapid.Float64Range(15, 80).Draw(rt, "spacing")
		height := spacing * rapid.Float64Range(0.4, 2.5).Draw(rt, "height")
		r, d := spacing/(2*math.Pi), height/2
		loop := 4 * (d + r) * mathext.CompleteE(4*r*d/(d+r)/(d+r))
		if got := Loops(n, spacing, height).Length(); math.Abs(got-float64(n)*loop) > 5e-4*got {
			rt.Fatalf("%d loops are %v mm long, want %v", n, got, float64(n)*loop)
		}
		k := math.Pi * height / spacing
		wave := 2 * spacing / math.Pi * math.Sqrt(1+k*k) * mathext.CompleteE(k*k/(1+k*k))
		if got := Waves(n, spacing, height).Length(); math.Abs(got-float64(n)*wave) > 5e-4*got {
			rt.Fatalf("%d waves are %v mm long, want %v", n, got, float64(n)*wave)
		}
	})
}

// Size and count as asked for, within 2 %, and no corner where the line is sewn in
// one flow.
func TestRowsHaveTheirSizeAndFlow(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(rt, "n")
		spacing := rapid.Float64Range(15, 80).Draw(rt, "spacing")
		height := spacing * rapid.Float64Range(0.5, 2).Draw(rt, "height")
		for what, c := range map[string]struct {
			path          geom.Polyline
			width, height float64
		}{
			"waves":         {Waves(n, spacing, height), float64(n) * spacing, height},
			"figure eights": {FigureEights(n, spacing), float64(n) * spacing, spacing / 2 / math.Sqrt2},
		} {
			lo, hi := c.path.Bounds()
			if math.Abs(hi.X-lo.X-c.width) > 0.02*c.width || math.Abs(hi.Y-lo.Y-c.height) > 0.02*c.height {
				rt.Fatalf("%s: %v x %v, want %v x %v", what, hi.X-lo.X, hi.Y-lo.Y, c.width, c.height)
			}
		}
		// A loop can stand out over its feet, which are n*spacing apart.
		loops := Loops(n, spacing, height)
		lo, hi := loops.Bounds()
		if feet := loops[len(loops)-1].X - loops[0].X; math.Abs(feet-float64(n)*spacing) > 0.02*spacing || math.Abs(hi.Y-lo.Y-height) > 0.02*height {
			rt.Fatalf("loops: feet %v apart, %v high, want %v, %v", feet, hi.Y-lo.Y, float64(n)*spacing, height)
		}
		for what, path := range map[string]geom.Polyline{
			"loops": loops, "waves": Waves(n, spacing, height), "figure eights": FigureEights(n, spacing),
		} {
			l, err := geom.NewLine(path)
			if err != nil {
				rt.Fatal(err)
			}
			if len(l.Corners) > 0 {
				rt.Fatalf("%s has corners at %v", what, l.Corners)
			}
		}
	})
}

// There is a loop: near its top the line runs backwards, once for each; it starts
// and ends at the bottom, running on.
func TestLoopsLoop(t *testing.T) {
	pl := Loops(4, 32, 38)
	back := 0
	for i := 2; i < len(pl); i++ {
		if pl[i].X < pl[i-1].X && pl[i-1].X >= pl[i-2].X {
			back++
		}
	}
	if back != 4 {
		t.Errorf("the line turns back %d times, want 4", back)
	}
	_, hi := pl.Bounds()
	for _, i := range []int{0, len(pl) - 2} {
		if p, q := pl[i], pl[i+1]; q.X <= p.X || math.Max(p.Y, q.Y) != hi.Y {
			t.Errorf("the row starts or ends from %v to %v, not along the bottom at %v", p, q, hi.Y)
		}
	}
}

// A row of eights is closed, and smooth there too: it leaves its start in the
// direction in which it arrives.
func TestEightsClose(t *testing.T) {
	l, err := geom.NewLine(FigureEights(3, 50))
	if err != nil {
		t.Fatal(err)
	}
	if !l.Closed() {
		t.Error("the row of eights is open")
	}
	if a, b := l.Tangent(0), l.Tangent(l.Length()); geom.Dist(a, b) > 0.1 {
		t.Errorf("leaves in direction %v, arrives in %v", a, b)
	}
}

// Twice the sum of the first 2n whole numbers, 2n(2n+1), times the spacing
// (arithmetic series); every line lies spacing from the next one within.
func TestSquareSpiral(t *testing.T) {
	for n := 1; n <= 6; n++ {
		const spacing = 9.0
		l, err := SquareSpiral(n, spacing)
		if err != nil {
			t.Fatal(err)
		}
		if want := spacing * float64(2*n*(2*n+1)); math.Abs(l.Length()-want) > 1e-9 {
			t.Errorf("%d turns are %v mm long, want %v", n, l.Length(), want)
		}
		if len(l.Dots) != 4*n+1 || len(l.Corners) != 4*n-1 {
			t.Errorf("%d turns: %d dots and %d corners, want %d and %d", n, len(l.Dots), len(l.Corners), 4*n+1, 4*n-1)
		}
		pl := l.Path()
		for i := 5; i < len(pl); i++ {
			a, b := pl[i-1:i+1], pl[i-5:i-3]
			if d := apartOf(a, b); math.Abs(d-spacing) > 0.02*spacing {
				t.Errorf("%d turns: lines %d and %d are %v apart, want %v", n, i, i-4, d, spacing)
			}
		}
	}
}
