package motif

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// stretch is one curve of a row in the coordinates of its band, for t in [t0, t1];
// pieces is as for geom.Flatten.
type stretch struct {
	f      func(t float64) geom.Point
	t0, t1 float64
	pieces int
}

// bend returns the cubic Bezier curve with the given control points.
func bend(p0, p1, p2, p3 geom.Point) stretch {
	return stretch{pieces: 2, t1: 1, f: func(t float64) geom.Point {
		u := 1 - t
		a, b, c, d := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
		return geom.Pt(a*p0.X+b*p1.X+c*p2.X+d*p3.X, a*p0.Y+b*p1.Y+c*p2.Y+d*p3.Y)
	}}
}

// rowLine is a row laid on the cloth: its line, and the unit directions in which
// it begins and ends.
type rowLine struct {
	path     geom.Polyline
	from, to geom.Point
}

// lay flattens the curves of a row in its band. They are flattened as they lie on
// the cloth, so that they are within geom.Sagitta of the true curves.
func (b band) lay(curves []stretch) rowLine {
	var r rowLine
	for _, c := range curves {
		on := func(t float64) geom.Point { return b.at(c.f(t)) }
		r.path = append(r.path, geom.Flatten(on, c.t0, c.t1, c.pieces)...)
	}
	first, last := curves[0], curves[len(curves)-1]
	const step = 1e-8 // of a curve: so near its end that it does not turn, far enough to subtract
	d0, d1 := (first.t1-first.t0)*step, (last.t1-last.t0)*step
	r.from = r2.Unit(r2.Sub(b.at(first.f(first.t0+d0)), b.at(first.f(first.t0))))
	r.to = r2.Unit(r2.Sub(b.at(last.f(last.t1)), b.at(last.f(last.t1-d1))))
	return r
}

// sewRows joins rows into one line: each ends with a smooth turn into the next.
func (f field) sewRows(bands []band, row func(i int, b band) []stretch) geom.Polyline {
	var out geom.Polyline
	var last rowLine
	for i, b := range bands {
		next := b.lay(row(i, b))
		if i > 0 {
			out = append(out, f.turn(last, next)...)
		}
		out = append(out, next.path...)
		last = next
	}
	return out
}

// turn returns the curve from the end of one row to the beginning of the next. Its
// control points lie in the field, and so does the curve.
func (f field) turn(a, b rowLine) geom.Polyline {
	p, q := a.path[len(a.path)-1], b.path[0]
	handle := 0.4 * geom.Dist(p, q)
	_, out := f.clip(p, a.to)
	_, in := f.clip(q, r2.Scale(-1, b.from))
	return geom.Bezier(p, r2.Add(p, r2.Scale(math.Max(0, math.Min(handle, out)), a.to)),
		r2.Sub(q, r2.Scale(math.Max(0, math.Min(handle, in)), b.from)), q)
}

// flip mirrors curves of a row top to bottom.
func flip(curves []stretch) []stretch {
	out := make([]stretch, len(curves))
	for i, c := range curves {
		out[i] = c
		out[i].f = func(t float64) geom.Point {
			p := c.f(t)
			return geom.Pt(p.X, -p.Y)
		}
	}
	return out
}

// lean slants curves of a row, so that their top lies further along than their
// bottom by a share of a repeat; the ends of the row stay where they are.
func lean(curves []stretch, share float64) []stretch {
	out := make([]stretch, len(curves))
	level := curves[0].f(curves[0].t0).Y
	for i, c := range curves {
		out[i] = c
		out[i].f = func(t float64) geom.Point {
			p := c.f(t)
			return geom.Pt(p.X-share*(p.Y-level), p.Y)
		}
	}
	return out
}

// The parameters which row motifs share.
func heightParam(usual float64) Param {
	return Param{ID: "height", Unit: "mm", Min: 5, Max: 400, Step: 1, Usual: usual}
}

func lengthParam(usual float64) Param {
	return Param{ID: "length", Unit: "mm", Min: 5, Max: 400, Step: 1, Usual: usual}
}

var mirrorParam = Param{ID: "mirror", Max: 1, Step: 1, Choices: []string{"upright", "mirrored"}}

// wayParam turns the rows of a square on point and of a tall rectangle.
var wayParam = Param{ID: "way", Max: 1, Step: 1, Choices: []string{"sides", "level"}}
