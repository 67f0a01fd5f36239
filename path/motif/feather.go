package motif

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

var feather1 = Motif{
	ID: "feather", Continuous: true,
	Params: []Param{
		{ID: "size", Unit: "mm", Min: 5, Max: 100, Step: 1, Usual: 15},
		{ID: "angle", Unit: "degrees", Min: 30, Max: 70, Step: 5, Usual: 45},
		{ID: "bend", Unit: "%", Min: -20, Max: 20, Step: 5, Usual: 0},
		{ID: "way", Max: 2, Step: 1, Choices: []string{"own", "upright", "level"}},
	},
	fit: fitFeather,
}

// spine is the middle line of a feather: from foot along up, bent to the side like
// an S.
type spine struct {
	foot, up geom.Point
	length   float64
	bend     float64
}

// at returns the place at share t of the spine and the unit direction there.
func (s spine) at(t float64) (p, d geom.Point) {
	side := geom.Pt(-s.up.Y, s.up.X)
	off := s.bend * math.Sin(2*math.Pi*t)
	slope := s.bend * 2 * math.Pi * math.Cos(2*math.Pi*t) / s.length
	p = r2.Add(s.foot, r2.Add(r2.Scale(t*s.length, s.up), r2.Scale(off, side)))
	return p, r2.Unit(r2.Add(s.up, r2.Scale(slope, side)))
}

// newSpine lays the spine through the middle of the field: upright, along the long
// side of a rectangle, or from the right angle of a half square.
func newSpine(f field, v Values) spine {
	up := geom.Pt(0, -1)
	lo, hi := f.bounds()
	switch {
	case v["way"] == 2 || v["way"] == 0 && hi.X-lo.X > hi.Y-lo.Y+1e-6 && f.shape.Kind == Rectangle:
		up = geom.Pt(1, 0)
	case v["way"] == 0 && f.shape.Kind == HalfSquare:
		up = r2.Unit(geom.Pt(1, -1))
	}
	t0, t1 := f.clip(f.middle, up)
	return spine{foot: r2.Add(f.middle, r2.Scale(t0, up)), up: up, length: t1 - t0, bend: v["bend"] / 100 * f.radius}
}

func fitFeather(f field, v Values) ([]Piece, error) {
	size := v["size"]
	if err := f.fine("width-of-a-plume", size, 3000); err != nil {
		return nil, err
	}
	s := newSpine(f, v)
	angle := v["angle"] * math.Pi / 180
	step := size / math.Sin(angle)
	// The last plume stands round the top of the spine.
	reach := s.length - 1.2*size
	n := int(math.Ceil(reach/step - 1e-9))
	if reach < 1.5*step {
		most := s.length / (1.5/math.Sin(angle) + 1.2)
		return nil, f.tooLarge("width-of-a-plume", size, most)
	}
	if math.Abs(s.bend) > 0 && f.radius < 2*size {
		s.bend = 0
	}
	top := reach / s.length
	side := func(sign float64) (plumes []geom.Polyline) {
		for i := range n {
			p, q := s.edge(top, float64(i)/float64(n), angle, sign), s.edge(top, float64(i+1)/float64(n), angle, sign)
			plumes = append(plumes, f.longest(1.5*s.length, func(length float64) geom.Polyline { return plume(p, q, length) }))
		}
		return plumes
	}
	var path geom.Polyline
	for _, pl := range side(1) {
		path = append(path, pl...)
	}
	path = append(path, s.crown(f, top, size)...)
	left := side(-1)
	for i := n - 1; i >= 0; i-- {
		path = append(path, left[i].Reversed()...)
	}
	path = append(path, geom.Flatten(func(t float64) geom.Point { p, _ := s.at(t); return p }, 0, top, 8)...)
	return one("feather", path.Compact()), nil
}

// quill is the line between two plumes: where it leaves the spine, the unit
// direction in which it leaves and the one to which it bends, within about so many
// mm.
type quill struct {
	at, from, to geom.Point
	bend         float64
}

// point returns the place on the quill after about so many mm.
func (k quill) point(along float64) geom.Point {
	turned := k.bend * (1 - math.Exp(-along/k.bend))
	return r2.Add(k.at, r2.Add(r2.Scale(along, k.to), r2.Scale(turned, r2.Sub(k.from, k.to))))
}

// edge returns the quill at share t of the way to the topmost plume, at share top
// of the spine. Towards the foot the plumes stand off further, to fill the corners.
func (s spine) edge(top, t, angle, side float64) quill {
	p, d := s.at(top * t)
	low := math.Pow(1-t, 1.5)
	to := angle + 0.35 + low*(1.75-angle)
	from := angle*0.4 + low*(1.0-angle*0.3)
	return quill{p, r2.Rotate(d, side*from, geom.Point{}), r2.Rotate(d, side*to, geom.Point{}), s.length * 0.12}
}

// plume returns the line of one plume of a given length: out beside the lower
// quill, round its head, and back beside the upper one. It keeps off the quills by
// a share of its width that grows outwards, so that neighbours do not run on one
// line.
func plume(p, q quill, length float64) geom.Polyline {
	const off = 0.06
	beside := func(a, b quill) func(t float64) geom.Point {
		return func(t float64) geom.Point {
			return geom.Lerp(a.point(t*length), b.point(t*length), off*t)
		}
	}
	low, high := beside(p, q), beside(q, p)
	a, b := low(1), high(1)
	const step = 1e-3
	da, db := r2.Unit(r2.Sub(a, low(1-step))), r2.Unit(r2.Sub(b, high(1-step)))
	knob := 0.62 * geom.Dist(a, b)
	out := geom.Flatten(low, 0, 1, 2)
	out = append(out, geom.Bezier(a, r2.Add(a, r2.Scale(knob, da)), r2.Add(b, r2.Scale(knob, db)), b)...)
	return append(out, geom.Flatten(high, 1, 0, 2)...)
}

// longest returns the shape as long as has room in the field, to a thousandth of
// most, by halving.
func (f field) longest(most float64, shape func(length float64) geom.Polyline) geom.Polyline {
	lo, hi := 0.0, most
	for range 10 {
		if try := (lo + hi) / 2; f.holds(shape(try)) {
			lo = try
		} else {
			hi = try
		}
	}
	return shape(lo)
}

// holds tells whether all points of a line lie in the field.
func (f field) holds(pl geom.Polyline) bool {
	return !slices.ContainsFunc(pl, func(p geom.Point) bool { return f.depth(p) < 0 })
}

// crown returns the plume round the top of the spine, at share t of it.
func (s spine) crown(f field, t, size float64) geom.Polyline {
	p, d := s.at(t)
	right := geom.Pt(-d.Y, d.X)
	return f.longest((1-t)*s.length*1.2, func(high float64) geom.Polyline {
		w := math.Min(size*0.62, high*0.6)
		at := func(along, wide float64) geom.Point {
			return r2.Add(p, r2.Add(r2.Scale(along*high, d), r2.Scale(wide*w, right)))
		}
		return append(geom.Bezier(p, at(0.3, 0.5), at(1, 1.4), at(1, 0)),
			geom.Bezier(at(1, 0), at(1, -1.4), at(0.3, -0.5), p)...)
	})
}
