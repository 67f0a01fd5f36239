package geom

import "math"

// Sagitta is the largest distance in mm between a curve and the chords it is
// flattened to. It is far below a thread's width (about 0.2 mm) and keeps the
// turn at a vertex of a curve of radius r under 2*acos(1-Sagitta/r): 13 degrees
// at 0.8 mm, well below CornerTurn.
const Sagitta = 0.005

// maxDepth bounds the halving in Flatten: 2^16 chords for one curve.
const maxDepth = 16

// Flatten turns the curve f, given for t in [t0, t1], into a polyline whose
// chords lie within Sagitta of it. pieces is the number of parts that are looked
// at separately; it must be high enough that f bends one way within a part, or a
// symmetric wave could hide between the probes. Cost O(points).
func Flatten(f func(t float64) Point, t0, t1 float64, pieces int) Polyline {
	out := Polyline{f(t0)}
	for i := 0; i < pieces; i++ {
		a := t0 + (t1-t0)*float64(i)/float64(pieces)
		b := t0 + (t1-t0)*float64(i+1)/float64(pieces)
		out = flattenPart(out, f, a, b, out[len(out)-1], f(b), maxDepth)
	}
	return out
}

func flattenPart(out Polyline, f func(float64) Point, a, b float64, pa, pb Point, depth int) Polyline {
	m := (a + b) / 2
	pm := f(m)
	_, q := NearestOnSegment(pm, pa, pb)
	if depth == 0 || Dist(pm, q) <= Sagitta {
		return append(out, pb)
	}
	out = flattenPart(out, f, a, m, pa, pm, depth-1)
	return flattenPart(out, f, m, b, pm, pb, depth-1)
}

// Arc returns the flattened circular arc round centre with radius in mm from
// angle a0 to a1 in radians; y grows downwards, so growing angles run clockwise
// to the eye.
func Arc(centre Point, radius, a0, a1 float64) Polyline {
	f := func(a float64) Point {
		return Point{X: centre.X + radius*math.Cos(a), Y: centre.Y + radius*math.Sin(a)}
	}
	return Flatten(f, a0, a1, max(1, int(math.Ceil(math.Abs(a1-a0)/(math.Pi/2)))))
}

// Bezier returns the flattened cubic Bezier curve with the given control points.
func Bezier(p0, p1, p2, p3 Point) Polyline {
	f := func(t float64) Point {
		u := 1 - t
		a, b, c, d := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
		return Point{
			X: a*p0.X + b*p1.X + c*p2.X + d*p3.X,
			Y: a*p0.Y + b*p1.Y + c*p2.Y + d*p3.Y,
		}
	}
	return Flatten(f, 0, 1, 4)
}
