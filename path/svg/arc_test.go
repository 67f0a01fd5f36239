package svg

import (
	"math"
	"testing"

	"unthreaded/path/geom"

	"pgregory.net/rapid"
)

// bySpec is the endpoint-to-centre conversion as SVG 1.1 (Second Edition), F.6.5 and
// F.6.6, prints it, step by step: the check of centre, which is arranged otherwise.
func bySpec(p1, p2 geom.Point, rx, ry, phi float64, large, sweep bool) (c geom.Point, rx2, ry2, theta, delta float64) {
	sin, cos := math.Sincos(phi)
	x := cos*(p1.X-p2.X)/2 + sin*(p1.Y-p2.Y)/2 // F.6.5.1
	y := -sin*(p1.X-p2.X)/2 + cos*(p1.Y-p2.Y)/2
	if l := x*x/(rx*rx) + y*y/(ry*ry); l > 1 { // F.6.6.2 and F.6.6.3
		rx, ry = math.Sqrt(l)*rx, math.Sqrt(l)*ry
	}
	root := (rx*rx*ry*ry - rx*rx*y*y - ry*ry*x*x) / (rx*rx*y*y + ry*ry*x*x) // F.6.5.2
	f := math.Sqrt(math.Max(0, root))
	if large == sweep {
		f = -f
	}
	cx, cy := f*rx*y/ry, -f*ry*x/rx
	c = geom.Pt(cos*cx-sin*cy+(p1.X+p2.X)/2, sin*cx+cos*cy+(p1.Y+p2.Y)/2) // F.6.5.3
	angle := func(ux, uy, vx, vy float64) float64 {                       // F.6.5.4
		a := math.Acos(math.Max(-1, math.Min(1, (ux*vx+uy*vy)/(math.Hypot(ux, uy)*math.Hypot(vx, vy)))))
		return math.Copysign(a, ux*vy-uy*vx)
	}
	theta = angle(1, 0, (x-cx)/rx, (y-cy)/ry)                   // F.6.5.5
	delta = angle((x-cx)/rx, (y-cy)/ry, (-x-cx)/rx, (-y-cy)/ry) // F.6.5.6
	if sweep && delta < 0 || !sweep && delta > 0 {
		delta -= math.Copysign(2*math.Pi, delta)
	}
	return c, rx, ry, theta, delta
}

// TestArcs draws random arcs: the ellipse is that of the formulas, the curves stay
// within ArcTolerance of it, and cover it from end to end in order.
func TestArcs(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		num := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
		p1, p2 := geom.Pt(num("x1", 0, 500), num("y1", 0, 500)), geom.Pt(num("x2", 0, 500), num("y2", 0, 500))
		if geom.Dist(p1, p2) < 0.1 {
			rt.Skip("a chord of nearly no length magnifies rounding in the formulas")
		}
		rx, ry, deg := num("rx", 1, 600), num("ry", 1, 600), num("degrees", -400, 400)
		large, sweep := rapid.Bool().Draw(rt, "large"), rapid.Bool().Draw(rt, "sweep")
		c, rx2, ry2, theta, delta := bySpec(p1, p2, rx, ry, radians(deg), large, sweep)

		left := MaxCurves
		p := &pen{m: identity, curves: &left}
		p.moveTo(p1)
		p.arcTo(rx, ry, deg, large, sweep, p2)
		strokes, err := p.end()
		// How far out the handles of its curves may lie.
		reach := math.Hypot(c.X, c.Y) + math.Sqrt2*math.Max(rx2, ry2)
		if err != nil && reach > MaxPlace {
			return // told that it lies off the page
		}
		if err != nil || len(strokes) != 1 {
			rt.Fatalf("%d strokes, %v", len(strokes), err)
		}
		path := strokes[0].path
		if path[0] != p1 || path[len(path)-1] != p2 {
			rt.Fatalf("from %v to %v, want %v to %v", path[0], path[len(path)-1], p1, p2)
		}
		e := ellipse{centre: c, rx: rx2, ry: ry2, phi: radians(deg)}
		// Rounding moves the centre most where the arc is as good as a half.
		slack := ArcTolerance + 1e-5*math.Max(rx2, ry2)
		for i := range path.Pieces() {
			for k, q := range sampled(path, i) {
				u := (float64(i) + float64(k)/chords) / float64(path.Pieces())
				on := e.at(theta + delta*u)
				// The parameter of the curve runs almost evenly, so look along the ellipse.
				if d := distance(e, q, theta+delta*u); d > slack {
					rt.Fatalf("piece %d: %v lies %.5f mm off the ellipse, by the even parameter %v", i, q, d, on)
				}
				if geom.Dist(on, q) > 0.02*math.Max(rx2, ry2) {
					rt.Fatalf("piece %d: %v is far along from %v", i, q, on)
				}
			}
		}
	})
}

// at returns the point at parameter t in radians.
func (e ellipse) at(t float64) geom.Point { return e.from(math.Cos(t), math.Sin(t)) }

// distance from q to the ellipse, or a little more: by a search round parameter t.
func distance(e ellipse, q geom.Point, t float64) float64 {
	lo, hi := t-0.02, t+0.02
	for range 60 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if geom.Dist(e.at(a), q) < geom.Dist(e.at(b), q) {
			hi = b
		} else {
			lo = a
		}
	}
	return math.Min(geom.Dist(e.at(t), q), geom.Dist(e.at((lo+hi)/2), q))
}

// TestArcExamples: SVG 1.1, 8.3.8 states in words what each flag picks, and F.6.6
// what becomes of radii that are too small or zero.
func TestArcExamples(t *testing.T) {
	for _, c := range []struct {
		data   string
		in     geom.Point // a place the arc passes
		pieces int
	}{
		{"M0 0A10 10 0 0 1 20 0", geom.Pt(10, -10), 2},                   // a half circle, clockwise
		{"M0 0A10 10 0 0 0 20 0", geom.Pt(10, 10), 2},                    // the other way
		{"M0 0A1 1 0 0 1 20 0", geom.Pt(10, -10), 2},                     // radii enlarged to the chord
		{"M0 0A1 2 0 0 1 20 0", geom.Pt(10, -20), 4},                     // in proportion
		{"M0 0A-10 10 0 0 1 20 0", geom.Pt(10, -10), 2},                  // the sign is dropped
		{"M0 0A0 10 0 0 1 20 0", geom.Pt(10, 0), 1},                      // a straight piece
		{"M0 0A10 10 0 1 1 10 10", geom.Pt(10+7.0710678, -7.0710678), 3}, // three quarters
		{"M0 0A10 10 0 0 1 10 10", geom.Pt(7.0710678, 10-7.0710678), 1},  // one quarter
	} {
		d := read(t, page(`<path d="`+c.data+`"/>`))
		if len(d.Lines) != 1 {
			t.Fatalf("%s: %d lines, %v", c.data, len(d.Lines), d.Unread)
		}
		pl := d.Lines[0].Path.Flatten()
		away := math.Inf(1)
		for i := 1; i < len(pl); i++ {
			_, q := geom.NearestOnSegment(c.in, pl[i-1], pl[i])
			away = math.Min(away, geom.Dist(c.in, q))
		}
		if away > ArcTolerance+geom.Sagitta {
			t.Errorf("%s: passes %v at %.4f mm", c.data, c.in, away)
		}
		if n := d.Lines[0].Path.Pieces(); n < c.pieces {
			t.Errorf("%s: %d curves, want at least %d", c.data, n, c.pieces)
		}
	}
}
