package photo

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
	"unthreaded/path/sketch"
)

type pairsFile struct {
	ProducedBy string `json:"produced_by"`
	Cases      []struct {
		Name     string       `json:"name"`
		From     [][2]float64 `json:"from"`
		To       [][2]float64 `json:"to"`
		Probe    [][2]float64 `json:"probe"`
		Image    [][2]float64 `json:"image"`
		LeastRMS float64      `json:"least_rms"`
	} `json:"cases"`
}

// eachFile calls f with every JSON file of a folder of testdata/sketch.
func eachFile(t *testing.T, folder string, f func(name string, text []byte)) {
	t.Helper()
	names, err := filepath.Glob(filepath.Join("..", "..", "testdata", "sketch", folder, "*.json"))
	if err != nil || len(names) == 0 {
		t.Fatalf("no files of %s: %v", folder, err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		f(filepath.Base(name), text)
	}
}

func points(xy [][2]float64) []geom.Point {
	var out []geom.Point
	for _, c := range xy {
		out = append(out, geom.Pt(c[0], c[1]))
	}
	return out
}

func rms(h Homography, from, to []geom.Point) float64 {
	sum := 0.0
	for i, p := range from {
		d := geom.Dist(h.Apply(p), to[i])
		sum += d * d / float64(len(from))
	}
	return math.Sqrt(sum)
}

// The map found takes other points where scikit-image's or numpy's takes them, and on
// noisy pairs comes within 5 % of the least distance that any map reaches.
func TestHomographyAgainstLibraries(t *testing.T) {
	eachFile(t, "homography", func(name string, text []byte) {
		var f pairsFile
		if err := json.Unmarshal(text, &f); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for _, c := range f.Cases {
			from, to := points(c.From), points(c.To)
			h, err := FindHomography(from, to)
			if err != nil {
				t.Errorf("%s, %s: %v", name, c.Name, err)
				continue
			}
			for i, p := range points(c.Probe) {
				want := geom.Pt(c.Image[i][0], c.Image[i][1])
				if d := geom.Dist(h.Apply(p), want); d > 1e-6 {
					t.Errorf("%s, %s: %v goes to %v, expected %v", name, c.Name, p, h.Apply(p), want)
				}
			}
			if got := rms(h, from, to); got > 1.05*c.LeastRMS+1e-9 {
				t.Errorf("%s, %s: pairs are %v pixels apart (rms), the least is %v", name, c.Name, got, c.LeastRMS)
			}
		}
	})
}

// heckbert is the map from the unit square to a quad in closed form: P. S. Heckbert,
// Fundamentals of Texture Mapping and Image Warping, Master's thesis, UC Berkeley
// (1989), section 2.2.3.
func heckbert(q [4]geom.Point) Homography {
	dx1, dx2, sx := q[1].X-q[2].X, q[3].X-q[2].X, q[0].X-q[1].X+q[2].X-q[3].X
	dy1, dy2, sy := q[1].Y-q[2].Y, q[3].Y-q[2].Y, q[0].Y-q[1].Y+q[2].Y-q[3].Y
	den := dx1*dy2 - dx2*dy1
	g, h := (sx*dy2-dx2*sy)/den, (dx1*sy-sx*dy1)/den
	return Homography{
		q[1].X - q[0].X + g*q[1].X, q[3].X - q[0].X + h*q[3].X, q[0].X,
		q[1].Y - q[0].Y + g*q[1].Y, q[3].Y - q[0].Y + h*q[3].Y, q[0].Y,
		g, h, 1,
	}
}

var unitSquare = []geom.Point{geom.Pt(0, 0), geom.Pt(1, 0), geom.Pt(1, 1), geom.Pt(0, 1)}

// Worked by hand with Heckbert's formulas: the trapezium (0,0) (4,0) (3,2) (1,2) has
// sums -2 and 0, differences (1,-2) and (-2,0), so g = 0, h = 1, and the map is
// x = (4u + 2v)/(1 + v), y = 4v/(1 + v): the centre of the square goes to (2, 4/3),
// where the diagonals of the trapezium cross.
func TestHomographyWorkedByHand(t *testing.T) {
	quad := []geom.Point{geom.Pt(0, 0), geom.Pt(4, 0), geom.Pt(3, 2), geom.Pt(1, 2)}
	h, err := FindHomography(unitSquare, quad)
	if err != nil {
		t.Fatal(err)
	}
	if got := h.Apply(geom.Pt(0.5, 0.5)); geom.Dist(got, geom.Pt(2, 4.0/3)) > 1e-12 {
		t.Errorf("the centre goes to %v, expected (2, 4/3)", got)
	}
	want := Homography{4, 2, 0, 0, 4, 0, 0, 1, 1}
	for i := range h {
		if math.Abs(h[i]-want[i]) > 1e-12 {
			t.Errorf("the map is %v, expected %v", h, want)
			break
		}
	}
}

// drawQuad draws a convex quad in the order that CheckQuad wants.
func drawQuad(rt *rapid.T) [4]geom.Point {
	c := rapid.Float64Range(0, 400)
	return [4]geom.Point{
		geom.Pt(c.Draw(rt, "x0"), c.Draw(rt, "y0")), geom.Pt(1000-c.Draw(rt, "x1"), c.Draw(rt, "y1")),
		geom.Pt(1000-c.Draw(rt, "x2"), 1000-c.Draw(rt, "y2")), geom.Pt(c.Draw(rt, "x3"), 1000-c.Draw(rt, "y3")),
	}
}

// Through four pairs the map is Heckbert's; its inverse undoes it; and cross-ratios
// of four points on a line are kept (Hartley & Zisserman, 2.5).
func TestHomographyInvariants(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		quad := drawQuad(rt)
		if sketch.CheckQuad(quad) != nil {
			return
		}
		h, err := FindHomography(unitSquare, quad[:])
		if err != nil {
			rt.Fatal(err)
		}
		back, err := h.Inverse()
		if err != nil {
			rt.Fatal(err)
		}
		p := geom.Pt(rapid.Float64Range(0, 1).Draw(rt, "u"), rapid.Float64Range(0, 1).Draw(rt, "v"))
		if d := geom.Dist(h.Apply(p), heckbert(quad).Apply(p)); d > 1e-6 {
			rt.Fatalf("%v goes to %v, %v from Heckbert's", p, h.Apply(p), d)
		}
		if d := geom.Dist(back.Apply(h.Apply(p)), p); d > 1e-8 {
			rt.Fatalf("%v comes back %v away", p, d)
		}
		var on [4]geom.Point
		for i, s := range []float64{0, 0.2, 0.5, 1} {
			on[i] = h.Apply(geom.Lerp(geom.Pt(0, 0), geom.Pt(1, 0.7), s))
		}
		cross := geom.Dist(on[0], on[2]) * geom.Dist(on[1], on[3]) / (geom.Dist(on[1], on[2]) * geom.Dist(on[0], on[3]))
		if want := 0.5 * 0.8 / (0.3 * 1); math.Abs(cross-want) > 1e-6 {
			rt.Fatalf("cross-ratio %v, expected %v", cross, want)
		}
	})
}

func TestDegeneratePairs(t *testing.T) {
	three := []geom.Point{geom.Pt(0, 0), geom.Pt(1, 1), geom.Pt(2, 2), geom.Pt(0, 5)}
	for name, c := range map[string][2][]geom.Point{
		"three pairs":            {unitSquare[:3], unitSquare[:3]},
		"numbers differ":         {unitSquare, unitSquare[:3]},
		"one place":              {unitSquare, {geom.Pt(1, 1), geom.Pt(1, 1), geom.Pt(1, 1), geom.Pt(1, 1)}},
		"three on one line":      {three, unitSquare},
		"three reach one line":   {unitSquare, three},
		"both on lines":          {three, three},
		"two pairs are one":      {{geom.Pt(0, 0), geom.Pt(0, 0), geom.Pt(1, 0), geom.Pt(1, 1)}, {geom.Pt(0, 0), geom.Pt(0, 0), geom.Pt(1, 0), geom.Pt(1, 1)}},
		"a place not a number":   {unitSquare, {geom.Pt(math.NaN(), 0), geom.Pt(1, 0), geom.Pt(1, 1), geom.Pt(0, 1)}},
		"a place out of reach":   {unitSquare, {geom.Pt(1e9, 0), geom.Pt(1, 0), geom.Pt(1, 1), geom.Pt(0, 1)}},
		"all points on one line": {{geom.Pt(0, 0), geom.Pt(1, 0), geom.Pt(2, 0), geom.Pt(3, 0), geom.Pt(4, 0)}, {geom.Pt(0, 0), geom.Pt(1, 0), geom.Pt(2, 0), geom.Pt(3, 0), geom.Pt(4, 0)}},
	} {
		if h, err := FindHomography(c[0], c[1]); err == nil {
			t.Errorf("%s: no error, map %v", name, h)
		}
	}
	if _, err := (Homography{1, 2, 3, 2, 4, 6, 0, 0, 1}).Inverse(); err == nil {
		t.Error("a singular map was inverted")
	}
}
