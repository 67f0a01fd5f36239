package motif

import (
	"math"

	"unthreaded/path/geom"
)

var swirls1 = Motif{
	ID: "linked-swirls", Continuous: true, Smooth: true, rows: true,
	Params: []Param{
		{ID: "height", Unit: "mm", Min: 8, Max: 400, Step: 1, Usual: 38},
		{ID: "turns", Min: 2, Max: 7, Step: 1, Usual: 3},
		mirrorParam, wayParam,
	},
	fit: fitSwirls,
}

// fitSwirls lays rows of swirls. A row begins going down, so that the line drops
// straight into it; one that ends going up first turns over.
func fitSwirls(f field, v Values) ([]Piece, error) {
	const gap = 0.16 // between swirls, as a share of their size
	size := v["height"]
	shape := SwirlShape{Diameter: 1, Turns: v["turns"]/2 + 0.25, Gap: gap}
	bands, err := f.bands(rowPlan{height: size, length: size * (1 + gap), room: 0.1})
	if err != nil {
		return nil, err
	}
	if v["mirror"] == 1 {
		for i := range bands {
			bands[i].back = !bands[i].back
		}
	}
	return one("line", f.sewRows(bands, func(i int, b band) []stretch {
		return swirlRow(b.n, shape, i == len(bands)-1)
	})), nil
}

// swirlRow returns n swirls, every other mirrored, the first entered going down.
// Unless it is the last row it ends going down too: where the last swirl ends
// going up, half a circle brings the line over.
func swirlRow(n int, s SwirlShape, last bool) []stretch {
	theta := 2 * math.Pi * s.Turns
	end := swirlPoint(s, theta, theta)
	reach, high := swirlExtent(s, theta)
	total := float64(n)*2*end.X + float64(n-1)*s.Gap
	over := n%2 == 0 && !last
	if over {
		total += s.Gap
	}
	// Swirls bulge a little beyond their ends.
	scale := float64(n) / (total + 2*(reach-end.X))
	flat := 0.5 / high
	var out []stretch
	for i := range n {
		up := float64(2*(i%2) - 1) // the first goes down
		centre := reach + float64(i)*(2*end.X+s.Gap)
		f := func(u float64) geom.Point {
			p := swirlPoint(s, theta, u)
			return geom.Pt((centre+p.X)*scale, up*p.Y*flat)
		}
		out = append(out, stretch{f: f, t0: -theta, t1: 0, pieces: 16}, stretch{f: f, t0: 0, t1: theta, pieces: 16})
		if i < n-1 || over {
			out = append(out, hop(f(theta), s.Gap*scale, up*s.Gap*flat))
		}
	}
	return out
}

// hop returns the half ellipse of the given width, over the row (high > 0) or
// under it, that goes up or down at its ends.
func hop(from geom.Point, width, high float64) stretch {
	return stretch{t0: math.Pi, t1: 0, pieces: 4, f: func(a float64) geom.Point {
		return geom.Pt(from.X+width/2*(1+math.Cos(a)), from.Y-high/2*math.Sin(a))
	}}
}

// swirlExtent returns how far a swirl reaches sideways and up or down from its
// middle, with half the gap for the hop between swirls. Its outer turn tells; it is
// looked at so closely that less than 1e-4 of the reach is missed, and that is
// added.
func swirlExtent(s SwirlShape, theta float64) (x, y float64) {
	const looks = 256
	for i := range looks + 1 {
		p := swirlPoint(s, theta, theta-2*math.Pi*float64(i)/looks)
		x, y = math.Max(x, math.Abs(p.X)), math.Max(y, math.Abs(p.Y))
	}
	end := swirlPoint(s, theta, theta)
	return x * (1 + 1e-4), math.Max(y, math.Abs(end.Y)+s.Gap/2) * (1 + 1e-4)
}
