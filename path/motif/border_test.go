package motif

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// Every border motif keeps within the border and its margin, is made of closed lines or
// ruler lines, is stretched by no more than an eighth where a side has four repeats or more
// (common practice: more shows), and is the same on opposite corners: turned by half a
// turn, the border is its own picture (of feathers, whose heads go round one way, only the
// edges are). Smooth ones have no kink, at the mitres either.
func TestBordersTurnTheirCorners(t *testing.T) {
	if len(Borders()) < 5 {
		t.Errorf("%d motifs have a border", len(Borders()))
	}
	for _, m := range Borders() {
		rapid.Check(t, func(rt *rapid.T) {
			b := Border{Width: rapid.Float64Range(40, 120).Draw(rt, "width")}
			b.W = b.Width * rapid.Float64Range(4, 12).Draw(rt, "w")
			b.H = b.Width * rapid.Float64Range(4, 12).Draw(rt, "h")
			margin := rapid.Float64Range(0, 6).Draw(rt, "margin")
			l, err := m.Around(b, margin, nil)
			if err != nil {
				rt.Fatalf("%v: %v", b, err)
			}
			for i, n := range l.Repeats {
				if math.Abs(l.Stretch-1) > 0.13 && min(l.Repeats[0], l.Repeats[1]) >= 4 {
					rt.Errorf("%s, %v: side %d has %d repeats stretched to %.2f", m.ID, b, i, n, l.Stretch)
				}
			}
			for _, p := range l.Pieces {
				if err := p.Path.Validate(); err != nil {
					rt.Fatalf("%s: %v", m.ID, err)
				}
				if m.Smooth {
					// A kink at a mitre would be one vertex; also where the line comes round.
					turns, _ := bends(p.Path)
					for i, a := range turns {
						if math.Abs(a) > 0.35 {
							rt.Errorf("%s, %v: %s turns by %.2f at %v", m.ID, b, p.Name, a, p.Path[(i+1)%len(p.Path)])
						}
					}
				}
				if !p.Ruler && p.Path[0] != p.Path[len(p.Path)-1] && m.ID != "feather" {
					rt.Errorf("%s, %s does not come round", m.ID, p.Name)
				}
				for _, q := range p.Path {
					edge := math.Min(math.Min(q.X, b.W-q.X), math.Min(q.Y, b.H-q.Y))
					if edge < margin-1e-3*b.Width || edge > b.Width-margin+1e-3*b.Width {
						rt.Fatalf("%s, %v, margin %v: %s is at %v, %.2f mm from the edge", m.ID, b, margin, p.Name, q, edge)
					}
				}
			}
			if m.ID == "feather" {
				return
			}
			turned := make([]Piece, len(l.Pieces))
			for i, p := range l.Pieces {
				turned[i] = Piece{Path: p.Path.Map(func(q geom.Point) geom.Point { return geom.Pt(b.W-q.X, b.H-q.Y) })}
			}
			if !coversSame(l.Pieces, turned) {
				rt.Errorf("%s, %v: turned by half a turn it is another", m.ID, b)
			}
		})
	}
}

// coversSame tells that every fifth point of each of two sets of lines lies within 0.2 mm of
// a point of the other.
func coversSame(a, b []Piece) bool {
	in := newBuckets(geom.Pt(0, 0), geom.Pt(1500, 1500), 4)
	var pts []geom.Point
	for _, p := range b {
		l, err := geom.NewLine(p.Path)
		if err != nil {
			return false
		}
		for _, q := range l.Resample(0.2) {
			in.add(len(pts), q)
			pts = append(pts, q)
		}
	}
	for _, p := range a {
		for k := 0; k < len(p.Path); k += 5 {
			near := math.Inf(1)
			in.near(p.Path[k], func(i int) { near = math.Min(near, geom.Dist(p.Path[k], pts[i])) })
			if near > 0.3 {
				return false
			}
		}
	}
	return true
}

// From edge to edge: each row goes from the left edge to the right in whole repeats,
// stretched by no more than half a repeat of the row allows; rows are alike, keep clear of
// each other, lie evenly and fill the top.
func TestEdgeToEdge(t *testing.T) {
	const w, h = 1200, 900
	for _, m := range Ready() {
		l, err := m.EdgeToEdge(w, h, Values{"size": 90})
		if m.figure == nil {
			if err == nil {
				t.Errorf("%s goes from edge to edge", m.ID)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", m.ID, err)
			continue
		}
		if most := 1 + 0.5/float64(l.Repeats[0]) + 1e-9; l.Stretch > most || l.Stretch < 2-most {
			t.Errorf("%s: %d repeats, stretched to %.3f", m.ID, l.Repeats[0], l.Stretch)
		}
		if len(l.Pieces) != l.Repeats[1] {
			t.Errorf("%s: %d lines in %d rows", m.ID, len(l.Pieces), l.Repeats[1])
		}
		first, _ := l.Pieces[0].Path.Bounds()
		foot, pitch := 0.0, 0.0
		for i, p := range l.Pieces {
			a, z := p.Path[0], p.Path[len(p.Path)-1]
			if math.Abs(a.X) > 1e-6 || math.Abs(z.X-w) > 1e-6 || math.Abs(a.Y-z.Y) > 1e-6 {
				t.Errorf("%s, row %d goes from %v to %v", m.ID, i+1, a, z)
			}
			lo, hi := p.Path.Bounds()
			if i > 0 && lo.Y <= foot {
				t.Errorf("%s: row %d begins at %.1f mm, the one above ends at %.1f", m.ID, i+1, lo.Y, foot)
			}
			if i == 1 {
				pitch = lo.Y - first.Y
			}
			if want := first.Y + float64(i)*pitch; math.Abs(lo.Y-want) > 1e-6 {
				t.Errorf("%s: row %d begins at %.1f mm, evenly it were %.1f", m.ID, i+1, lo.Y, want)
			}
			foot = hi.Y
		}
		if first.Y > 0.04*h || foot < 0.96*h {
			t.Errorf("%s: rows from %.0f to %.0f mm of %d", m.ID, first.Y, foot, h)
		}
	}
}

// A repeat of a sine-generated curve is J0(w) of its length long (Langbein & Leopold, USGS
// Prof. Paper 422-H, 1966; J0 by math.J0), and as high over its length as tabled there for
// meanders; the height over the repeat was worked out with another program: 0.40 at 60
// degrees, 0.80 at 90, 1.05 at 100.
func TestSineGenerated(t *testing.T) {
	for w, want := range map[float64]float64{60: 0.40, 90: 0.80, 100: 1.05, 108: 1.36} {
		g := sineGenerated(w*degree, 1)
		if math.Abs(g.slim-want) > 0.01 {
			t.Errorf("%v degrees: %.3f as high as long, want %.2f", w, g.slim, want)
		}
		path := geom.Flatten(func(u float64) geom.Point {
			p := g.curves[0].f(u)
			return geom.Pt(p.X*100, p.Y*50*g.slim)
		}, 0, 1, 64)
		if got := 100 / path.Length(); math.Abs(got-math.J0(w*degree)) > 1e-3 {
			t.Errorf("%v degrees: a repeat is %.4f of its length, want J0 = %.4f", w, got, math.J0(w*degree))
		}
	}
}

// Equal circles round a centre, n of them touching: r = Rc sin(pi/n) (from the isosceles
// triangle of two neighbours and the centre).
func TestGarlandOfACircle(t *testing.T) {
	const out = 70.0
	ring := func(r float64) (geom.Line, bool) {
		l, err := geom.NewLine(spinWise(geom.Pt(0, 0), out-r))
		return l, err == nil
	}
	heads, ok := (quills{}).garland(ring, 12)
	if !ok {
		t.Fatal("no garland")
	}
	n := float64(len(heads))
	want := out * math.Sin(math.Pi/n) / (1 + math.Sin(math.Pi/n))
	if math.Abs(heads[0].r-want) > 0.02*want {
		t.Errorf("%v heads have a radius of %v, want %v", n, heads[0].r, want)
	}
}

func ExampleMotif_Around() {
	m, _ := Find("ribbon")
	l, err := m.Around(Border{W: 1000, H: 1300, Width: 90}, 8, Values{"size": 70})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d folds along the upper side, %d along the left, each %.0f %% of its usual length\n", l.Repeats[0], l.Repeats[1], 100*l.Stretch)
	// Output: 15 folds along the upper side, 20 along the left, each 98 % of its usual length
}

func ExampleMotif_EdgeToEdge() {
	m, _ := Find("waves")
	l, err := m.EdgeToEdge(1000, 1300, Values{"size": 80})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d waves in each of %d rows, each %.0f %% of its usual length\n", l.Repeats[0], l.Repeats[1], 100*l.Stretch)
	// Output: 5 waves in each of 14 rows, each 104 % of its usual length
}
