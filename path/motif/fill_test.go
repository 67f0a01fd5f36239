package motif

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

func fitOne(t interface{ Fatal(...any) }, id string, s Shape, margin float64, v Values) []Piece {
	p, ok := Find(id)
	if !ok {
		t.Fatal("no pattern ", id)
	}
	pieces, err := p.Fit(s, margin, v)
	if err != nil {
		t.Fatal(err)
	}
	return pieces
}

// crossing returns two segments of a closed line that meet without being
// neighbours, by brute force over all pairs whose boxes overlap, or -1, -1.
func crossing(pl geom.Polyline) (int, int) {
	n := len(pl) - 1
	for i := range n {
		lo, hi := pl[i : i+2].Bounds()
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			l, h := pl[j : j+2].Bounds()
			if l.X <= hi.X && lo.X <= h.X && l.Y <= hi.Y && lo.Y <= h.Y &&
				turnOf(pl[i], pl[i+1], pl[j])*turnOf(pl[i], pl[i+1], pl[j+1]) <= 0 &&
				turnOf(pl[j], pl[j+1], pl[i])*turnOf(pl[j], pl[j+1], pl[i+1]) <= 0 {
				return i, j
			}
		}
	}
	return -1, -1
}

func TestStippleNeverCrosses(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := Shape{Kind: rapid.SampledFrom(Shapes()).Draw(rt, "kind"), W: rapid.Float64Range(60, 80).Draw(rt, "w")}
		s.H = s.W * rapid.Float64Range(0.8, 1.2).Draw(rt, "h")
		v := Values{"spacing": rapid.Float64Range(5, 6).Draw(rt, "spacing"), "variation": float64(rapid.IntRange(1, 50).Draw(rt, "variation"))}
		pl := fitOne(rt, "stipple", s, 2, v)[0].Path
		if i, j := crossing(pl); i >= 0 {
			rt.Fatalf("%v, %v: segments %d and %d of %d meet near %v", s, v, i, j, len(pl), pl[i])
		}
	})
}

// gap returns the largest distance in mm of a place in the field from the line, on
// a grid of step mm, and the mean.
func gap(f field, pl geom.Polyline, step float64) (worst, mean float64) {
	l, _ := geom.NewLine(pl)
	dots := l.Resample(step / 4)
	lo, hi := f.bounds()
	b := newBuckets(lo, hi, 12*step)
	for i, p := range dots {
		b.add(i, p)
	}
	count := 0
	for x := lo.X; x <= hi.X; x += step {
		for y := lo.Y; y <= hi.Y; y += step {
			p := geom.Pt(x, y)
			if f.depth(p) < 0 {
				continue
			}
			near := 12 * step
			b.near(p, func(i int) { near = math.Min(near, geom.Dist(p, dots[i])) })
			worst, mean, count = math.Max(worst, near), mean+near, count+1
		}
	}
	return worst, mean / float64(count)
}

// Lines one spacing apart leave no place further than half a spacing from a line,
// and a quarter on average; a meander's bends and ends leave more, but no place
// further than 1.4 spacings, and 0.33 on average. It is as long as such lines would
// be, area / spacing, within a tenth.
func TestStippleIsEven(t *testing.T) {
	shapes := Shapes()
	if testing.Short() {
		shapes = shapes[:2]
	}
	for _, k := range shapes {
		for variation := 1.0; variation <= 2; variation++ {
			s := Shape{Kind: k, W: 150, H: 90}
			const spacing = 6.0
			pl := fitOne(t, "stipple", s, 3, Values{"spacing": spacing, "variation": variation})[0].Path
			f := newField(s, 3)
			worst, mean := gap(f, pl, 1)
			length := pl.Length() / (f.area() / spacing)
			t.Logf("%s, variation %v: largest gap %.2f spacings, mean %.2f, length %.2f of area/spacing", k, variation, worst/spacing, mean/spacing, length)
			// The tips of triangles are narrower than the line can turn in.
			most := 1.4
			if k == HalfSquare || k == SettingTriangle {
				most = 1.6
			}
			if worst > most*spacing || mean > 0.33*spacing {
				t.Errorf("%s, variation %v: largest gap %.2f spacings, mean %.2f", k, variation, worst/spacing, mean/spacing)
			}
			if math.Abs(length-1) > 0.1 {
				t.Errorf("%s, variation %v: %.2f of area/spacing long", k, variation, length)
			}
		}
	}
}

// Pebbles: each circle is sewn once, so the line is 2 pi times the sum of the radii
// long and turns by 2 pi a circle; no two circles cover each other.
func TestPebblesAreWholeCircles(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := Shape{Kind: rapid.SampledFrom(Shapes()).Draw(rt, "kind"), W: 120, H: 90}
		v := Values{"size": 15, "least": 50, "variation": float64(rapid.IntRange(1, 50).Draw(rt, "variation"))}
		h := newField(s, 4).pack(15, 0.5, dice(v))
		var round float64
		for i, p := range h.pebbles {
			round += 2 * math.Pi * p.radius
			for _, q := range h.pebbles[:i] {
				if geom.Dist(p.at, q.at) < p.radius+q.radius-1e-6 {
					rt.Fatalf("%s: pebbles cover each other at %v and %v", s.Kind, p.at, q.at)
				}
			}
		}
		got := fitOne(rt, "pebbles", s, 4, v)[0]
		if l := got.Path.Length(); math.Abs(l-round) > 2e-3*round {
			rt.Fatalf("%s: %v mm long, the circles measure %v", s.Kind, l, round)
		}
		if turn, want := got.Curvature().Turning, 2*math.Pi*float64(len(h.pebbles)); math.Abs(turn-want) > 0.05*want {
			rt.Fatalf("%s: turns by %v, want %v", s.Kind, turn, want)
		}
	})
}

// Delaunay: no point lies in the circle of a triangle, here of any three
// neighbours of one another (brute force over all points); with all points on the
// hull counted, 3n - 3 - h sides (Euler's formula).
func TestDelaunayIsEmpty(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(4, 40).Draw(rt, "n")
		pts := make([]geom.Point, n)
		for i := range pts {
			pts[i] = geom.Pt(rapid.Float64Range(0, 100).Draw(rt, "x")+float64(i)*1e-3, rapid.Float64Range(0, 100).Draw(rt, "y")+float64(i*i%7)*1e-3)
		}
		near := neighbours(pts)
		m := mesh{pts: pts, tris: make([]triangle, 1)}
		for a := range n {
			for k, b := range near[a] {
				c := near[a][(k+1)%len(near[a])]
				if turnOf(pts[a], pts[b], pts[c]) <= 1e-6 || !contains(near[b], c) {
					continue
				}
				m.tris[0].corner = [3]int{a, b, c}
				for q := range n {
					if q != a && q != b && q != c && geom.Dist(pts[q], pts[a]) > 1e-2 && inCircle(pts[a], pts[b], pts[c], pts[q]) < -1e-6 {
						rt.Fatalf("point %d lies in the circle of %d, %d, %d", q, a, b, c)
					}
				}
			}
		}
	})
}

func contains(list []int, x int) bool {
	for _, y := range list {
		if x == y {
			return true
		}
	}
	return false
}

// inCircle returns the distance of q from the circle through a, b, c, below 0
// inside, as a share of its radius.
func inCircle(a, b, c, q geom.Point) float64 {
	d := 2 * turnOf(a, b, c)
	bx, by, cx, cy := b.X-a.X, b.Y-a.Y, c.X-a.X, c.Y-a.Y
	u := geom.Pt(a.X+(cy*(bx*bx+by*by)-by*(cx*cx+cy*cy))/d, a.Y+(bx*(cx*cx+cy*cy)-cx*(bx*bx+by*by))/d)
	r := geom.Dist(u, a)
	return (geom.Dist(u, q) - r) / r
}
