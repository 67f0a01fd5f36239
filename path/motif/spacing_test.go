package motif

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// Parallel ruler lines lie exactly one spacing apart, whatever the slope, and the
// chords of a circle at distance d from its middle are 2 sqrt(r^2-d^2) long
// (Pythagoras).
func TestRuledSpacing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := Shape{Kind: rapid.SampledFrom(Shapes()).Draw(rt, "kind"), W: 150, H: 100}
		spacing := rapid.Float64Range(3, 20).Draw(rt, "spacing")
		pieces := fitOne(rt, "straight-lines", s, 5, Values{"spacing": spacing, "angle": rapid.Float64Range(-90, 90).Draw(rt, "angle")})
		for i, p := range pieces {
			d := r2.Unit(r2.Sub(p.Path[1], p.Path[0]))
			if s.Kind == Circle {
				off := math.Abs(r2.Cross(d, r2.Sub(s.middle(), p.Path[0])))
				if want := 2 * math.Sqrt(70*70-off*off); math.Abs(p.Path.Length()-want) > 1e-6 {
					rt.Fatalf("%s is %v mm long, want %v", p.Name, p.Path.Length(), want)
				}
			}
			if i > 0 {
				apart := math.Abs(r2.Cross(d, r2.Sub(pieces[i-1].Path[0], p.Path[0])))
				if math.Abs(apart-spacing) > 1e-6 {
					rt.Fatalf("%v: lines %d and %d are %v mm apart, want %v", s, i, i+1, apart, spacing)
				}
			}
		}
	})
}

// rayHits returns the distances from p in direction d, of length 1, at which a line
// is met, in order.
func rayHits(pl geom.Polyline, p, d geom.Point) []float64 {
	var out []float64
	for k := range pl[1:] {
		a, b := r2.Cross(d, r2.Sub(pl[k], p)), r2.Cross(d, r2.Sub(pl[k+1], p))
		if (a < 0) != (b < 0) {
			out = append(out, r2.Dot(d, r2.Sub(geom.Lerp(pl[k], pl[k+1], a/(a-b)), p)))
		}
	}
	var ahead []float64
	for _, x := range out {
		if x > 0 {
			ahead = append(ahead, x)
		}
	}
	for i := range ahead {
		for j := i; j > 0 && ahead[j] < ahead[j-1]; j-- {
			ahead[j], ahead[j-1] = ahead[j-1], ahead[j]
		}
	}
	return ahead
}

// Square to a side, the turns of the spirals lie one spacing apart, within 2 %; in
// a double spiral the arms take turns. The middle, where an S joins the arms and
// rounds give out, is left out.
func TestSpiralSpacing(t *testing.T) {
	for _, id := range []string{"spiral", "double-spiral", "square-spiral", "echo-outline"} {
		for _, k := range []ShapeKind{Square, OnPoint, Rectangle, HalfSquare, SettingTriangle, Hexagon, Circle} {
			s := Shape{Kind: k, W: 300, H: 200}
			const spacing = 8.0
			pieces := fitOne(t, id, s, 0, Values{"spacing": spacing})
			var all []float64
			for _, p := range pieces {
				all = append(all, rayHits(p.Path, s.middle(), geom.Pt(0, 1))...)
			}
			if k == OnPoint {
				continue // straight down lies a corner
			}
			if id == "echo-outline" {
				for i, j := 0, len(all)-1; i < j; i, j = i+1, j-1 {
					all[i], all[j] = all[j], all[i]
				}
			}
			checked := 0
			for i := 1; i < len(all); i++ {
				if all[i-1] < 3*spacing {
					continue
				}
				checked++
				if got := all[i] - all[i-1]; math.Abs(got-spacing) > 0.02*spacing {
					t.Errorf("%s in a %s: %.3f mm between turns at %.1f mm, want %v", id, k, got, all[i], spacing)
				}
			}
			if checked < 3 {
				t.Errorf("%s in a %s: only %d turns to measure", id, k, checked)
			}
		}
	}
}

// An Archimedean spiral in a circle against the published arc length: from the
// outline to 0.35 turns from the middle with b = spacing / 2 pi, by the formula
// (b/2)(t sqrt(1+t^2) + asinh t) of testdata/vectors/spiral_arclength.json, whose
// values for b = 1 are checked first.
func TestSpiralAgainstPublishedLength(t *testing.T) {
	length := func(b, t float64) float64 { return b / 2 * (t*math.Sqrt(1+t*t) + math.Asinh(t)) }
	for _, theta := range []float64{2 * math.Pi, 8 * math.Pi} {
		want := published(t, "archimedean r=b theta", map[string]float64{"b": 1, "theta0": 0, "theta1": theta})
		nearly(t, "formula", length(1, theta), want)
	}
	const spacing = 8.0
	b := spacing / (2 * math.Pi)
	for _, id := range []string{"spiral", "square-spiral"} {
		got := fitOne(t, id, Shape{Kind: Circle, W: 200}, 0, Values{"spacing": spacing})[0].Path.Length()
		nearly(t, id, got, length(b, 100/b)-length(b, 0.35*2*math.Pi))
	}
}

// Perimeters of insets by handbook formula: the inset of a polygon whose sides all
// touch a circle of radius r is shorter by the share d/r; that of a rectangle by
// 8 d; circles by 2 pi d.
func TestEchoLengths(t *testing.T) {
	for _, k := range Shapes() {
		s := Shape{Kind: k, W: 120, H: 70}
		per := s.Outline().Length()
		for i, p := range fitOne(t, "echo-outline", s, 0, Values{"spacing": 6}) {
			d := 6 * float64(i)
			want := per * (1 - d/s.inradius())
			switch k {
			case Rectangle:
				want = 2*(120+70) - 8*d
			case Circle:
				want = 2 * math.Pi * (60 - d)
			}
			if got := p.Path.Length(); math.Abs(got-want) > 1e-3*want {
				t.Errorf("%s, %s: %v mm long, want %v", k, p.Name, got, want)
			}
		}
	}
}

// A lemniscate of Bernoulli drawn 1 wide and 1/(2 sqrt2) high is 5.244115108584/2
// long (testdata/vectors/spiral_arclength.json, lemniscate with a = 1): a strip
// whose row has that proportion holds true ones.
func TestEightsAreLemniscates(t *testing.T) {
	b := band{y1: 100, xr0: 3 * 100 * 2 * math.Sqrt2, xr1: 3 * 100 * 2 * math.Sqrt2, n: 3}
	r := b.lay(eightsRow(3, 0.5))
	width := b.width() / 3
	nearly(t, "three eights", r.path.Length(), 3*width/2*published(t, "lemniscate of Bernoulli", nil))
}

// Loops of a row are prolate trochoids: with R 10 and d 18 the published length.
func TestLoopsAreTrochoids(t *testing.T) {
	b := band{y1: 36, xr0: 20 * math.Pi, xr1: 20 * math.Pi, n: 1}
	r := b.lay(loopRow(1, 0.5, 18/(20*math.Pi)))
	nearly(t, "loop", r.path.Length(), published(t, "prolate trochoid", map[string]float64{"R": 10, "d": 18}))
}

// A row of half circles over a width W is pi W/2 long; the shells of a square as
// wide as whole shells have full rows below its top.
func TestClamshellLengths(t *testing.T) {
	pieces := fitOne(t, "clamshell", Shape{Kind: Square, W: 120}, 0, Values{"size": 30, "edge": 0})
	full := 0
	for _, p := range pieces {
		lo, hi := p.Path.Bounds()
		if hi.X-lo.X > 119.999 {
			full++
			nearly(t, p.Name, p.Path.Length(), 60*math.Pi)
		}
	}
	if full != 8 {
		t.Errorf("%d full rows, want 8 of 15 mm", full)
	}
}

// Orange peel over squares: arcs are quarter circles, pi a/(2 sqrt2) for a side a,
// over triangles sixths, pi a/3. Whole petals meet in junctions with an even number
// of arcs inside the block.
func TestPeelsMeet(t *testing.T) {
	for _, c := range []struct {
		s   Shape
		arc float64
	}{
		{Shape{Kind: Square, W: 120}, 30 * math.Pi / (2 * math.Sqrt2)},
		{Shape{Kind: OnPoint, W: 120}, 30 * math.Pi / (2 * math.Sqrt2)},
		{Shape{Kind: Hexagon, W: 60}, 30 * math.Pi / 3},
	} {
		ends := map[[2]int]int{}
		for _, p := range fitOne(t, "orange-peel", c.s, 0, Values{"size": 30}) {
			nearly(t, string(c.s.Kind)+" "+p.Name, p.Path.Length(), c.arc)
			for _, q := range []geom.Point{p.Path[0], p.Path[len(p.Path)-1]} {
				ends[[2]int{int(math.Round(q.X * 1e6)), int(math.Round(q.Y * 1e6))}]++
			}
		}
		for at, n := range ends {
			if n%2 != 0 {
				t.Errorf("%s: %d arcs meet at %v um", c.s.Kind, n, at)
			}
		}
	}
}

// Every arc of a fan ends on the rim of another fan at a point of that rim, on the
// outline, or at the foot of the block.
func TestFansEndOnFans(t *testing.T) {
	s := Shape{Kind: Square, W: 150}
	pieces := fitOne(t, "fans", s, 0, Values{"size": 30, "count": 4, "edge": 0})
	f := newField(s, 0)
	for i, p := range pieces {
		for _, end := range []geom.Point{p.Path[0], p.Path[len(p.Path)-1]} {
			near := math.Abs(f.depth(end))
			for j, q := range pieces {
				if j == i {
					continue
				}
				for _, at := range q.Path {
					near = math.Min(near, geom.Dist(at, end))
				}
			}
			if near > 1e-6 {
				t.Errorf("%s ends at %v, %v mm from any other line", p.Name, end, near)
			}
		}
	}
}

// The lines that to and fro joins are one spacing apart and its turns are half
// circles: in a square with n lines, (n-1) pi spacing / 2 of turns.
func TestToAndFroTurnsAreHalfCircles(t *testing.T) {
	got := fitOne(t, "to-and-fro", Shape{Kind: Square, W: 100}, 0, Values{"spacing": 10})[0]
	c := got.Curvature()
	if math.Abs(c.Radius-5) > 0.3 || math.Abs(c.Turning-8*math.Pi) > 1e-3 {
		t.Errorf("%+v, want radius 5 and 8 half turns", c)
	}
	// 9 lines; the two outer ones have one turn of radius 5 at one end, the others two.
	nearly(t, "to and fro", got.Path.Length(), 2*95+7*90+8*5*math.Pi)
}
