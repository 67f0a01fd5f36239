package motif

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"unthreaded/path/geom"
)

// anyShape draws a shape of 10 to 3000 mm, most often of the size of a block.
func anyShape(t *rapid.T) Shape {
	side := rapid.OneOf(rapid.Float64Range(40, 400), rapid.Float64Range(MinShape, MaxShape))
	s := Shape{Kind: rapid.SampledFrom(Shapes()).Draw(t, "kind"), W: side.Draw(t, "w")}
	if s.Kind == Rectangle {
		s.H = side.Draw(t, "h")
	}
	return s
}

// Areas and inradii of the regular polygons by their side a: hexagon 3 sqrt3/2 a^2
// and sqrt3/2 a, octagon 2(1+sqrt2) a^2 and (1+sqrt2)/2 a; inradius of a triangle
// 2 x area / perimeter (Zwillinger, CRC Standard Mathematical Tables and Formulae,
// "Regular polygons", "Triangles"; from memory).
func TestAreasAgainstTheHandbook(t *testing.T) {
	const w = 100.0
	eighth := w / (1 + math.Sqrt2) // side of an octagon 100 across the flats
	for _, c := range []struct {
		s              Shape
		area, inradius float64
	}{
		{Shape{Kind: Square, W: w}, w * w, w / 2},
		{Shape{Kind: OnPoint, W: w}, w * w, w / 2},
		{Shape{Kind: Rectangle, W: w, H: 30}, 3000, 15},
		{Shape{Kind: HalfSquare, W: w}, w * w / 2, w * w / (2*w + w*math.Sqrt2)},
		{Shape{Kind: SettingTriangle, W: w}, w * w / 4, w * w / 2 / (w + w*math.Sqrt2)},
		{Shape{Kind: Hexagon, W: w}, 3 * math.Sqrt(3) / 2 * w * w, math.Sqrt(3) / 2 * w},
		{Shape{Kind: Octagon, W: w}, 2 * (1 + math.Sqrt2) * eighth * eighth, (1 + math.Sqrt2) / 2 * eighth},
		{Shape{Kind: Circle, W: w}, math.Pi * w * w / 4, w / 2},
	} {
		if got := c.s.Area(); math.Abs(got-c.area) > 1e-9*c.area {
			t.Errorf("%s: area %v mm^2, want %v", c.s.Kind, got, c.area)
		}
		if got := c.s.inradius(); math.Abs(got-c.inradius) > 1e-9*c.inradius {
			t.Errorf("%s: inradius %v mm, want %v", c.s.Kind, got, c.inradius)
		}
		pl := c.s.Outline()
		if got := area(pl[:len(pl)-1]); math.Abs(got-c.area) > 1e-3*c.area {
			t.Errorf("%s: the outline holds %v mm^2, want %v", c.s.Kind, got, c.area)
		}
		lo, hi := pl.Bounds()
		bw, bh := c.s.Box()
		if geom.Dist(lo, geom.Pt(0, 0)) > 1e-9 || geom.Dist(hi, geom.Pt(bw, bh)) > 1e-9 {
			t.Errorf("%s: the outline lies from %v to %v, its box is %v x %v", c.s.Kind, lo, hi, bw, bh)
		}
	}
}

// Every point of the inset lies the margin inside the outline, measured to the
// sides as segments, and each corner on two of its lines. By Steiner's formula the
// inset of a polygon with all sides on one circle has area (1 - d/r)^2 of it.
func TestInset(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := anyShape(rt)
		d := s.inradius() * rapid.Float64Range(0, 0.999).Draw(rt, "share")
		in, err := s.Inset(d)
		if err != nil {
			rt.Fatal(err)
		}
		outline := s.Outline()
		for i, p := range in {
			if !s.Contains(p) {
				rt.Fatalf("%v: point %d of the inset by %v lies outside", s, i, d)
			}
			near := math.Inf(1)
			for k := range outline[1:] {
				_, q := geom.NearestOnSegment(p, outline[k], outline[k+1])
				near = math.Min(near, geom.Dist(p, q))
			}
			if math.Abs(near-d) > 1e-6+2*geom.Sagitta {
				rt.Fatalf("%v: point %d of the inset lies %v mm inside, want %v", s, i, near, d)
			}
		}
		if _, err := s.Inset(s.inradius() * 1.0001); err == nil || !strings.Contains(err.Error(), "take less than") {
			rt.Fatalf("%v: a margin beyond the inradius gives %v", s, err)
		}
	})
}

// Contains against the winding of the outline about the point, by brute force.
func TestContainsAgainstWinding(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := anyShape(rt)
		w, h := s.Box()
		p := geom.Pt(w*rapid.Float64Range(-0.2, 1.2).Draw(rt, "x"), h*rapid.Float64Range(-0.2, 1.2).Draw(rt, "y"))
		pl, turn, near := s.Outline(), 0.0, math.Inf(1)
		for k := range pl[1:] {
			turn += geom.TurnAngle(geom.Pt(2*p.X-pl[k].X, 2*p.Y-pl[k].Y), p, pl[k+1])
			_, q := geom.NearestOnSegment(p, pl[k], pl[k+1])
			near = math.Min(near, geom.Dist(p, q))
		}
		if near > 0.01 && s.Contains(p) != (math.Abs(turn) > math.Pi) {
			rt.Fatalf("%v: Contains(%v) is %v, the outline winds %v about it", s, p, s.Contains(p), turn)
		}
	})
}

func TestShapeRanges(t *testing.T) {
	for _, c := range []struct {
		s    Shape
		says string
	}{
		{Shape{Kind: "star", W: 100}, `"star" is no shape`},
		{Shape{Kind: Square, W: 9.9}, "the width of the square is 9.9 mm: it takes 10 to 3000 mm"},
		{Shape{Kind: Circle, W: 3001}, "it takes 10 to 3000 mm"},
		{Shape{Kind: Rectangle, W: 100}, "the height of the rectangle is 0 mm"},
		{Shape{Kind: Hexagon, W: math.NaN()}, "it takes 10 to 3000 mm"},
		{Shape{Kind: Octagon, W: math.Inf(1)}, "it takes 10 to 3000 mm"},
	} {
		if err := c.s.Validate(); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v: %v, want an error that says %q", c.s, err, c.says)
		}
	}
	if _, err := (Shape{Kind: Square, W: 100}).Inset(-1); err == nil {
		t.Error("a negative margin passes")
	}
}

// A seam is a straight piece inside the block whose ends lie on the outline or on
// another seam; n patches need what the trade calls them by: four-patch and
// hourglass cut the block in 4, nine-patch in 9 (Euler: faces = crossings + lines
// + 1, for lines that end on the outline and no three crossing in one point).
func TestSeams(t *testing.T) {
	patches := map[SeamKind]int{FourPatch: 4, NinePatch: 9, Hourglass: 4, HalfSquareSeam: 2, Rails: 3, FlyingGeese: 3}
	for _, k := range Shapes() {
		s := Shape{Kind: k, W: 120, H: 60}
		outer := s.Outline()
		for _, seam := range s.SeamKinds() {
			pieces, err := s.Seams(seam)
			if err != nil {
				t.Errorf("%s, %s: %v", k, seam, err)
			}
			cuts := 1 + len(pieces)
			for i, p := range pieces {
				if !p.Seam || len(p.Path) != 2 || !s.Contains(p.Path[0]) || !s.Contains(p.Path[1]) {
					t.Errorf("%s, %s: piece %d is no seam inside: %v", k, seam, i, p)
				}
				for _, end := range p.Path {
					if !onAny(end, outer) && !onOther(end, pieces, i) {
						t.Errorf("%s, %s: piece %d ends loose at %v", k, seam, i, end)
					}
				}
				for _, q := range pieces[:i] {
					if properCross(p.Path[0], p.Path[1], q.Path[0], q.Path[1]) {
						cuts++
					}
				}
			}
			if want := patches[seam]; want > 0 && cuts != want {
				t.Errorf("%s, %s: %d patches, want %d", k, seam, cuts, want)
			}
		}
	}
	if _, err := (Shape{Kind: Circle, W: 100}).Seams(NinePatch); err == nil || !strings.Contains(err.Error(), "take one of") {
		t.Errorf("a nine-patch circle gives %v", err)
	}
	if _, err := (Shape{Kind: Square, W: 100}).Seams("knitted"); err == nil {
		t.Error("an unknown way of piecing passes")
	}
}

func onAny(p geom.Point, pl geom.Polyline) bool {
	for k := range pl[1:] {
		if _, q := geom.NearestOnSegment(p, pl[k], pl[k+1]); geom.Dist(p, q) < 2*geom.Sagitta {
			return true
		}
	}
	return false
}

func onOther(p geom.Point, pieces []Piece, not int) bool {
	for i, q := range pieces {
		if i != not && onAny(p, q.Path) {
			return true
		}
	}
	return false
}

// properCross tells whether segments a-b and c-d cross inside both.
func properCross(a, b, c, d geom.Point) bool {
	return turnOf(a, b, c)*turnOf(a, b, d) < 0 && turnOf(c, d, a)*turnOf(c, d, b) < 0
}
