package motif

import (
	"math"

	"unthreaded/path/geom"
)

var _ = add(Figures, 22, Motif{
	ID: "feather-wreath", Continuous: true,
	lacks: aboutMiddle,
	Params: []Param{
		{ID: "size", Unit: "mm", Min: 5, Max: 100, Step: 1, Usual: 24},
		{ID: "inner", Unit: "%", Min: 40, Max: 70, Step: 5, Usual: 55},
		{ID: "mirror", Max: 1, Step: 1, Choices: []string{"clockwise", "anticlockwise"}},
	},
	fit: func(f field, v Values) ([]Piece, error) {
		if err := f.fine("width-of-a-plume", v["size"], 3000); err != nil {
			return nil, err
		}
		ring := func(r float64) (geom.Line, bool) {
			l, err := geom.NewLine(spinWise(f.middle, r))
			return l, err == nil && r > 1
		}
		middle := v["inner"] / 100 * f.radius
		spine, ok := ring(middle)
		if !ok {
			return nil, f.tooLarge("width-of-a-plume", v["size"], f.radius/3)
		}
		q := quills{spine: spine, taper: 1}
		outer, ok1 := q.garland(func(r float64) (geom.Line, bool) { return ring(f.radius - r) }, v["size"]/2)
		inner, ok2 := q.garland(func(r float64) (geom.Line, bool) { return ring(0.42*middle + r) }, v["size"]*0.36)
		if !ok1 || !ok2 {
			return nil, f.tooLarge("width-of-a-plume", v["size"], f.radius/3)
		}
		// The heads lead their knots by a quarter of a radian.
		path := q.wreath(outer, inner, 0.25*middle)
		if v["mirror"] == 1 {
			path = path.Map(func(p geom.Point) geom.Point { return geom.Pt(2*f.middle.X-p.X, p.Y) })
		}
		return one("wreath", path), nil
	},
})

// spinWise returns a circle from its right, clockwise to the eye.
func spinWise(centre geom.Point, r float64) geom.Polyline {
	pl := geom.Arc(centre, math.Max(r, 1e-3), 0, 2*math.Pi)
	pl[len(pl)-1] = pl[0]
	return pl
}

// garland returns heads of one size all along a closed rim, about r mm in radius, so that
// the last touches the first.
func (q quills) garland(rim func(r float64) (geom.Line, bool), r float64) ([]head, bool) {
	l, ok := rim(r)
	if !ok || l.Length() < 8*r {
		return nil, false
	}
	n := max(4, int(math.Round(l.Length()/(2*r))))
	if n > mostHeads {
		return nil, false
	}
	// march returns n heads, and where the one after them would come, less a round.
	march := func(r float64) (out []head, over float64) {
		l, ok := rim(r)
		if !ok {
			return nil, 1
		}
		s := 0.0
		for range n {
			at := l.At(s)
			out = append(out, head{at, r})
			next, found := ahead(l, s, func(p geom.Point) bool { return geom.Dist(p, at) >= 2*r })
			if !found {
				// The way goes on from the beginning.
				return out, 2*r - geom.Dist(at, l.At(0)) + 1e-9*float64(n-len(out)) + float64(n-len(out))
			}
			s = next
		}
		return out, s - l.Length()
	}
	lo, hi := 0.7*r, 1.4*r
	for range 40 {
		m := (lo + hi) / 2
		if out, over := march(m); len(out) < n || over > 0 {
			hi = m
		} else {
			lo = m
		}
	}
	out, _ := march(lo)
	return out, len(out) == n
}

// wreath returns plumes on both sides of a closed spine and the spine itself, as one line;
// the heads lie so many mm of spine ahead of their knots.
func (q quills) wreath(outer, inner []head, lead float64) geom.Polyline {
	var path geom.Polyline
	begin := 0.0
	for _, heads := range [][]head{outer, inner} {
		plumes, first := q.round(heads, lead)
		if path == nil {
			begin = first
		} else {
			path = append(path, q.along(begin, first)...)
			begin = first
		}
		for _, p := range plumes {
			path = append(path, p...)
		}
	}
	return append(path, q.along(begin, begin+q.spine.Length())...).Compact()
}

// along returns the closed spine from one arc length on to another, which may lie a round
// further.
func (q quills) along(a, b float64) geom.Polyline {
	total := q.spine.Length()
	a, b = math.Mod(a+2*total, total), b+math.Mod(a+2*total, total)-a
	for b < a {
		b += total
	}
	if b <= total {
		return q.spine.Section(a, b)
	}
	return append(q.spine.Section(a, total), q.spine.Section(0, math.Min(total, b-total))...)
}

// round returns the plumes of a garland, and the arc length of the first knot.
func (q quills) round(heads []head, lead float64) (out []geom.Polyline, first float64) {
	n, total := len(heads), q.spine.Length()
	touch := func(i int) geom.Point { return geom.Lerp(heads[(i+n-1)%n].at, heads[i%n].at, 0.5) }
	knot := func(i int) float64 {
		return math.Mod(nearestOn(q.spine, touch(i))-lead+2*total, total)
	}
	for i, h := range heads {
		low, high := q.flank(knot(i), touch(i), h), q.flank(knot(i+1), touch(i+1), h)
		line := append(geom.Polyline{}, low...)
		in := q.spine.At(nearestOn(q.spine, h.at))
		line = append(line, headArc(h, touch(i), touch(i+1), in)...)
		out = append(out, append(line, high.Reversed()...))
	}
	return out, knot(0)
}
