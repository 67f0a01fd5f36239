package motif

import (
	"math"

	"unthreaded/path/geom"
)

// The vine and the paisley as they were first drawn: rows squeezed into the shape, leaves far
// apart, rounds of a drop that meet in a knot.
var vine1 = Motif{
	ID: "vine", Continuous: true, rows: true,
	Params: []Param{
		heightParam(36), lengthParam(34),
		{ID: "width", Unit: "%", Min: 40, Max: 120, Step: 5, Usual: 110},
		{ID: "lean", Unit: "%", Min: 0, Max: 60, Step: 5, Usual: 35},
		mirrorParam, wayParam,
	},
	fit: func(f field, v Values) ([]Piece, error) {
		const room = 0.4
		bands, err := f.bands(rowPlan{height: v["height"], length: v["length"], room: room})
		if err != nil {
			return nil, err
		}
		return one("line", f.sewRows(bands, func(_ int, b band) []stretch {
			curves := vineRow(b.n, v["width"]/100, v["lean"]/100)
			if v["mirror"] == 1 {
				curves = flip(curves)
			}
			return curves
		})), nil
	},
}

// vineRow returns n repeats of a stem with one leaf up and one leaf down. The stem
// rises to where a leaf springs from its top, dips to where the next hangs.
func vineRow(n int, width, lean float64) []stretch {
	const swing = 0.09
	var out []stretch
	at := geom.Pt(0, 0)
	stem := func(u, v float64) {
		k := (u - at.X) * 0.4
		out = append(out, bend(at, geom.Pt(at.X+k, at.Y), geom.Pt(u-k, v), geom.Pt(u, v)))
		at = geom.Pt(u, v)
	}
	for i := range 2 * n {
		side := float64(2*(i%2) - 1) // up first
		stem(float64(i)/2+0.25, side*swing)
		out = append(out, leaf(at, geom.Pt(at.X+(lean-0.1)*0.5, side*0.47), width*0.2)...)
	}
	stem(float64(n), 0)
	return padded(out, n, 0.15) // the outer leaves are wide
}

// leaf returns the two sides of a leaf from its base out to its tip and back, wide
// repeats to either side of the middle at most about.
func leaf(base, tip geom.Point, wide float64) []stretch {
	side := func(w float64) (p, q geom.Point) {
		p = geom.Lerp(base, tip, 0.25)
		q = geom.Lerp(base, tip, 0.72)
		return geom.Pt(p.X+w*1.25, p.Y), geom.Pt(q.X+w*0.9, q.Y)
	}
	p, q := side(wide)
	r, s := side(-wide)
	return []stretch{bend(base, r, s, tip), bend(tip, q, p, base)}
}

var paisley1 = Motif{
	ID: "paisley", Continuous: true, rows: true,
	Params: []Param{
		heightParam(46), lengthParam(56),
		{ID: "count", Min: 0, Max: 4, Step: 1, Usual: 2},
		{ID: "curl", Unit: "%", Min: 0, Max: 100, Step: 10, Usual: 60},
		mirrorParam, wayParam,
	},
	fit: func(f field, v Values) ([]Piece, error) {
		const room = 0.3
		bands, err := f.bands(rowPlan{height: v["height"], length: v["length"], room: room})
		if err != nil {
			return nil, err
		}
		return one("line", f.sewRows(bands, func(_ int, b band) []stretch {
			curves := paisleyRow(b.n, int(v["count"]), v["curl"]/100)
			if v["mirror"] == 1 {
				curves = flip(curves)
			}
			return curves
		})), nil
	},
}

// paisleyRow returns n waves, the line of which goes round a set of drops at each
// trough, standing in the wave, and at each crest, hanging in it.
func paisleyRow(n, echoes int, curl float64) []stretch {
	// The first and the last quarter go round a drop too, and need as much room.
	const a, more = 0.48, 0.22
	var out []stretch
	at := geom.Pt(-more, 0)
	to := func(u, v float64) {
		k := (u - at.X) * 0.7
		out = append(out, bend(at, geom.Pt(at.X+k, at.Y), geom.Pt(u-k, v), geom.Pt(u, v)))
		at = geom.Pt(u, v)
	}
	for i := range 2 * n {
		side := float64(2*(i%2) - 1) // a crest first
		to(float64(i)/2+0.25, a*side)
		for k := range echoes + 1 {
			share := 1 - float64(k)/(float64(echoes)+1.9)
			out = append(out, drop(at, -side, share, curl)...)
		}
	}
	to(float64(n)+more, 0)
	return padded(out, n, more)
}

// padded squeezes n repeats so that so many more have room at either end.
func padded(curves []stretch, n int, more float64) []stretch {
	out := make([]stretch, len(curves))
	for i, c := range curves {
		out[i] = c
		out[i].f = func(t float64) geom.Point {
			p := c.f(t)
			return geom.Pt((p.X+more)*float64(n)/(float64(n)+2*more), p.Y)
		}
	}
	return out
}

// drop returns a drop with its tip at the given place, of 5/6 of the height of the
// row, or a share of that; it stands for way > 0 and hangs for way < 0. It leans
// back from the tip and then forward: the curl of a paisley.
func drop(tip geom.Point, way, share, curl float64) []stretch {
	at := func(u, v float64) geom.Point {
		off := curl * 0.13 * math.Sin(math.Pi*v*1.35) * share
		return geom.Pt(tip.X+(u-off)*share*way, tip.Y+v*way*share*0.83)
	}
	const w = 0.19
	return []stretch{
		bend(tip, at(w*0.35, 0.22), at(w, 0.46), at(w, 0.70)),
		bend(at(w, 0.70), at(w, 0.88), at(w*0.55, 1), at(0, 1)),
		bend(at(0, 1), at(-w*0.55, 1), at(-w, 0.88), at(-w, 0.70)),
		bend(at(-w, 0.70), at(-w, 0.46), at(-w*0.35, 0.22), tip),
	}
}
