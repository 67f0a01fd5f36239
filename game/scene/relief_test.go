package scene

import (
	"testing"

	"unthreaded/game/look"
	"unthreaded/path/geom"
)

// Open cloth rises above dense quilting; beside a single upright line its left bank turns from
// light at the upper left, its right bank faces it; and the edge lies flat.
func TestReliefRisesWhereItIsOpen(t *testing.T) {
	pal := look.Of(look.Fabrics[0])
	lo, hi := geom.Pt(10, 20), geom.Pt(210, 120)
	one := Relief(lo, hi, [][]geom.Point{{geom.Pt(110, 20), geom.Pt(110, 120)}}, 1, pal)
	img := one[0].Image
	white := func(x, y int) int { c := img.RGBAAt(x, y); return int(c.R) - int(c.A-c.R) } // light less shade
	if left, right := white(97, 50), white(103, 50); left >= 0 || right <= 0 {
		t.Errorf("left of the line the light is %d, right of it %d", left, right)
	}
	if c := img.RGBAAt(50, 50); c.A > 4 {
		t.Errorf("open cloth far from all lines has %v", c)
	}
	g := newHeights(100, 50)
	for x := 50; x < 100; x += 4 {
		g.sew(geom.Pt(float64(x), 0), geom.Pt(float64(x), 50))
	}
	g.distances()
	g.rise(8)
	if open, dense := g.at[25*100+25], g.at[25*100+77]; open < 3*dense {
		t.Errorf("open cloth stands %.2f high, dense %.2f", open, dense)
	}
	if Relief(lo, lo, nil, 1, pal) != nil || Relief(lo, hi, nil, 0, pal) != nil {
		t.Error("nothing has a relief")
	}
}

// The distance by chamfer is at most 6 % from the true one (Borgefors 1986 gives 5.8 % for
// these two steps as an upper bound; from memory).
func TestReliefDistances(t *testing.T) {
	g := newHeights(121, 121)
	for i := range g.at {
		g.at[i] = 1000
	}
	g.at[60*121+60] = 0
	g.distances()
	for i, d := range g.at {
		far := geom.Dist(geom.Pt(60, 60), geom.Pt(float64(i%121), float64(i/121)))
		if off := float64(d) - far; off > 0.06*far+1e-3 || off < -0.06*far-1e-3 {
			t.Fatalf("at %d, %d: %.2f instead of %.2f", i%121, i/121, d, far)
		}
	}
}

func BenchmarkRelief(b *testing.B) {
	var lines [][]geom.Point
	for y := 0; y < 600; y += 5 {
		lines = append(lines, []geom.Point{geom.Pt(0, float64(y)), geom.Pt(520, float64(y)+3)})
	}
	pal := look.Of(look.Fabrics[0])
	for b.Loop() {
		Relief(geom.Pt(0, 0), geom.Pt(520, 620), lines, 0.5, pal)
	}
}
