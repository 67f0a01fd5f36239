package motif

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// Every drawing stays inside its block less the margin, and every piece that
// states its true length is that long.
func TestLineWorkStaysInItsBlock(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		block := Rect{
			X: rapid.Float64Range(-200, 200).Draw(rt, "x"), Y: rapid.Float64Range(-200, 200).Draw(rt, "y"),
			W: rapid.Float64Range(60, 300).Draw(rt, "w"), H: rapid.Float64Range(60, 300).Draw(rt, "h"),
		}
		r := block.Inset(rapid.Float64Range(0, 20).Draw(rt, "margin"))
		size, count := rapid.Float64Range(5, 80).Draw(rt, "size"), rapid.IntRange(1, 9).Draw(rt, "count")
		for what, pieces := range map[string][]Piece{
			"orange peel":         OrangePeel(r, count, 3, ""),
			"crosshatch":          Crosshatch(r, size),
			"diagonal crosshatch": DiagonalCrosshatch(r, size),
			"clamshell":           Clamshell(r, size),
			"diamonds":            Diamonds(r, count),
			"star chain":          StarChain(r, count),
			"echoed square":       EchoSquares(r, size),
		} {
			for _, p := range pieces {
				if err := p.Path.Validate(); err != nil {
					rt.Fatalf("%s, %s: %v", what, p.Name, err)
				}
				lo, hi := p.Path.Bounds()
				if lo.X < r.X-1e-9 || lo.Y < r.Y-1e-9 || hi.X > r.X+r.W+1e-9 || hi.Y > r.Y+r.H+1e-9 {
					rt.Fatalf("%s, %s leaves %+v: %v to %v", what, p.Name, r, lo, hi)
				}
				if got := p.Path.Length(); p.Length > 0 && math.Abs(got-p.Length) > 1e-3*p.Length {
					rt.Fatalf("%s, %s is %v mm long, states %v", what, p.Name, got, p.Length)
				}
			}
		}
	})
}

// apartOf returns the distance between two parallel straight lines, or -1 if they
// are not parallel.
func apartOf(a, b geom.Polyline) float64 {
	u, v := r2.Unit(r2.Sub(a[1], a[0])), r2.Unit(r2.Sub(b[1], b[0]))
	if math.Abs(r2.Cross(u, v)) > 1e-9 {
		return -1
	}
	return math.Abs(r2.Cross(u, r2.Sub(b[0], a[0])))
}

// nearestParallel returns for each piece the distance to the nearest parallel one.
func nearestParallel(pieces []Piece) []float64 {
	var out []float64
	for i, p := range pieces {
		least := math.Inf(1)
		for k, q := range pieces {
			if d := apartOf(p.Path, q.Path); i != k && d >= 0 {
				least = math.Min(least, d)
			}
		}
		out = append(out, least)
	}
	return out
}

// In a square whose diagonal is a whole number of spacings the lines stand at the
// spacing that was asked for (45-45-90 triangle: side = spacing x sqrt 2); in any
// block at no more, and at the height of the cell's right triangle, w h/hypot(w, h).
func TestDiagonalSpacing(t *testing.T) {
	for _, spacing := range []float64{8, 12.7, 25.4} {
		for n := 2; n <= 6; n++ {
			side := float64(n) * spacing * math.Sqrt2
			pieces := DiagonalCrosshatch(Rect{3, 4, side, side}, spacing)
			if len(pieces) != 2*(2*n-1) {
				t.Errorf("spacing %v, %d to a side: %d lines, want %d", spacing, n, len(pieces), 2*(2*n-1))
			}
			for i, d := range nearestParallel(pieces) {
				if math.Abs(d-spacing) > 0.02*spacing {
					t.Errorf("spacing %v: %s is %v from its neighbour", spacing, pieces[i].Name, d)
				}
			}
		}
	}
	rapid.Check(t, func(rt *rapid.T) {
		r := Rect{0, 0, rapid.Float64Range(50, 300).Draw(rt, "w"), rapid.Float64Range(50, 300).Draw(rt, "h")}
		spacing := rapid.Float64Range(5, 60).Draw(rt, "spacing")
		w := r.W / math.Ceil(r.W/(spacing*math.Sqrt2)-1e-9)
		h := r.H / math.Ceil(r.H/(spacing*math.Sqrt2)-1e-9)
		for _, d := range nearestParallel(DiagonalCrosshatch(r, spacing)) {
			if want := w * h / math.Hypot(w, h); !math.IsInf(d, 1) && math.Abs(d-want) > 1e-6 || want > spacing*1.000001 {
				rt.Fatalf("lines %v apart, want %v, at most %v", d, want, spacing)
			}
		}
	})
}

// Half of a circle's circumference: pi d/2 for every shell of a row. The top of a
// shell is a point of the row above at which two shells meet.
func TestClamshell(t *testing.T) {
	r := Rect{10, 20, 120, 95}
	pieces := Clamshell(r, 30)
	if len(pieces) != 6 {
		t.Fatalf("%d rows of radius 15 in a height of 95, want 6", len(pieces))
	}
	for j, p := range pieces {
		if math.Abs(p.Path.Length()-4*math.Pi*15) > 0.1 {
			t.Errorf("%s is %v mm long, want four half circles of radius 15: %v", p.Name, p.Path.Length(), 4*math.Pi*15)
		}
		lo, hi := p.Path.Bounds()
		if math.Abs(hi.Y-lo.Y-15) > 1e-9 || math.Abs(lo.Y-(20+2.5+15*float64(j))) > 1e-9 {
			t.Errorf("%s lies from %v to %v", p.Name, lo.Y, hi.Y)
		}
		if j == 0 {
			continue
		}
		above := map[geom.Point]bool{}
		for _, q := range pieces[j-1].Path {
			above[q] = true
		}
		tops := 0
		for _, q := range p.Path {
			if math.Abs(q.Y-lo.Y) < 1e-9 {
				tops++
				if !above[q] {
					t.Errorf("%s: the top at %v touches nothing above", p.Name, q)
				}
			}
		}
		if want := 4 + j%2; tops != want {
			t.Errorf("%s has %d tops, want %d", p.Name, tops, want)
		}
	}
}

// Every side of a diamond is the hypotenuse over half its width and half its
// height (Pythagoras); the two zigzags have the points between them in common.
func TestDiamonds(t *testing.T) {
	pieces := Diamonds(Rect{0, 0, 300, 80}, 5)
	upper, lower := pieces[0].Path, pieces[1].Path
	for i := range upper {
		if i > 0 && (math.Abs(geom.Dist(upper[i-1], upper[i])-50) > 1e-9 || math.Abs(geom.Dist(lower[i-1], lower[i])-50) > 1e-9) {
			t.Errorf("side %d is not 50 = sqrt(30^2+40^2) long", i)
		}
		if shared := upper[i] == lower[i]; shared != (i%2 == 0) {
			t.Errorf("point %d: shared is %v", i, shared)
		}
	}
	if pieces[0].Length != 500 {
		t.Errorf("the zigzag states %v mm, want 10 x 50", pieces[0].Length)
	}
}

// The regular octagon of circumradius R has its third vertex at 2R sin(3 pi/8) =
// R sqrt(2 + sqrt 2): half-angle formula. Neighbouring stars share one point.
func TestStarChain(t *testing.T) {
	pieces := StarChain(Rect{0, 0, 240, 100}, 4)
	for i, p := range pieces {
		for k := 1; k < len(p.Path); k++ {
			if d := geom.Dist(p.Path[k-1], p.Path[k]); math.Abs(d-30*math.Sqrt(2+math.Sqrt2)) > 1e-9 {
				t.Errorf("%s: line %d is %v mm long", p.Name, k, d)
			}
		}
		if len(p.Path) != 9 || geom.Dist(p.Path[0], p.Path[8]) > 1e-9 {
			t.Errorf("%s does not close after 8 lines", p.Name)
		}
		if i == 0 {
			continue
		}
		shared := 0
		for _, a := range p.Path[1:] {
			for _, b := range pieces[i-1].Path[1:] {
				if geom.Dist(a, b) < 1e-9 {
					shared++
				}
			}
		}
		if shared != 1 {
			t.Errorf("%s shares %d points with the one before, want 1", p.Name, shared)
		}
	}
}

// Perimeters of squares: 4 x (100, 75, 50, 25), each 8 x 12.5 shorter.
func TestEchoSquares(t *testing.T) {
	pieces := EchoSquares(Rect{0, 0, 120, 120}.Inset(10), 12.5)
	want := []float64{400, 300, 200, 100}
	if len(pieces) != len(want) {
		t.Fatalf("%d squares, want %d", len(pieces), len(want))
	}
	for i, p := range pieces {
		if p.Path.Length() != want[i] || p.Path[0] != p.Path[4] {
			t.Errorf("%s is %v mm round, want %v", p.Name, p.Path.Length(), want[i])
		}
	}
	if got := EchoSquares(Rect{0, 0, 30, 9}, 10); len(got) != 0 {
		t.Errorf("a block lower than the spacing has %d squares", len(got))
	}
}
