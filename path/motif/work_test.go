package motif

import (
	"math"
	"testing"

	"unthreaded/path/geom"
)

func TestEveryWork(t *testing.T) {
	seen := map[string]bool{}
	for _, w := range Works() {
		if seen[w.ID] {
			t.Errorf("the ID %q stands twice", w.ID)
		}
		seen[w.ID] = true
		names := map[string]bool{}
		for i, p := range w.Pieces() {
			if err := p.Path.Validate(); err != nil {
				t.Errorf("%s, piece %d: %v", w.ID, i, err)
			}
			if names[p.Block+"/"+p.Name] {
				t.Errorf("%s: the name %q stands twice in block %q", w.ID, p.Name, p.Block)
			}
			names[p.Block+"/"+p.Name] = true
			if w.Row != (p.Block != "") {
				t.Errorf("%s, piece %d: block %q in a row: %v", w.ID, i, p.Block, w.Row)
			}
		}
	}
}

// A quarter circle of radius a/sqrt2 is pi*a/(2*sqrt2) long (circumference
// 2*pi*r). A grid of m x n squares has 2mn + m + n sides, of which the 2(m + n) on
// the rim have one arc and the others two: 4mn in all, four to a square.
func TestOrangePeelAgainstTheCircle(t *testing.T) {
	const m, n, a = 3, 2, 40.0
	pieces := OrangePeel(Rect{0, 0, m * a, n * a}, m, n, "")
	if len(pieces) != 4*m*n {
		t.Fatalf("%d arcs, want %d", len(pieces), 4*m*n)
	}
	ends := map[geom.Point]int{}
	for _, p := range pieces {
		if got, want := p.Path.Length(), math.Pi*a/(2*math.Sqrt2); math.Abs(got-want) > 0.01 {
			t.Errorf("%s is %.4f mm long, want %.4f", p.Name, got, want)
		}
		lo, hi := p.Path.Bounds()
		if lo.X < -1e-9 || lo.Y < -1e-9 || hi.X > m*a+1e-9 || hi.Y > n*a+1e-9 {
			t.Errorf("%s leaves the block: %v to %v", p.Name, lo, hi)
		}
		ends[p.Path[0]]++
		ends[p.Path[len(p.Path)-1]]++
	}
	if len(ends) != (m+1)*(n+1) {
		t.Errorf("the arcs meet at %d places, want the %d corners of the grid", len(ends), (m+1)*(n+1))
	}
	for at, k := range ends {
		if k%2 != 0 {
			t.Errorf("%d arcs meet at %v, want an even number", k, at)
		}
	}
}

func TestCrosshatchSpacing(t *testing.T) {
	for _, spacing := range []float64{7, 20, 33, 120, 500} {
		r := Rect{5, 5, 120, 90}
		pieces := Crosshatch(r, spacing)
		want := int(math.Ceil(120/spacing)) - 1 + int(math.Ceil(90/spacing)) - 1
		if len(pieces) != want {
			t.Errorf("spacing %v: %d lines, want %d", spacing, len(pieces), want)
		}
		for i := 1; i < len(pieces); i++ {
			p, q := pieces[i-1].Path, pieces[i].Path
			if d := geom.Dist(p[0], q[0]); p[0].Y == q[0].Y && (d > spacing+1e-9 || d < spacing/2) {
				t.Errorf("spacing %v: lines %d and %d are %v mm apart", spacing, i, i+1, d)
			}
		}
	}
}
