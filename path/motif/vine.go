package motif

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

var (
	vine2    = pointed(rowFill("vine", 34, nil, &vine1, vine))
	paisley2 = pointed(rowFill("paisley", 48, nil, &paisley1, paisley))
)

var (
	_ = add(Figures, 30, pointed(rowFill("vine", 34, nil, &vine2, func() figure { return vine().filling() })).
		sized(rowsInStrips(95, 1.08)).restricted(notStraight).round(aroundVine))
	_ = add(Figures, 40, pointed(rowFill("paisley", 48, nil, &paisley2, func() figure { return paisley().filling() })).
		sized(rowsInStrips(75, 1.1)).restricted(notStraight).round(nil)) // squeezed at the mitres
)

// pointed tells of a motif that its line has points.
func pointed(m Motif) Motif {
	m.Smooth = false
	return m
}

// inProportion returns curves as those of a figure of so much height over its length, from
// coordinates in repeats both ways, y 0 in its middle.
func inProportion(curves []stretch, slim float64) []stretch {
	out := make([]stretch, len(curves))
	for i, c := range curves {
		out[i] = c
		out[i].f = func(t float64) geom.Point {
			p := c.f(t)
			return geom.Pt(p.X, 2*p.Y/slim)
		}
	}
	return out
}

// vine returns one repeat of a waving stem with a leaf each quarter wave, up and down in
// turn. A leaf leans forward by 35 to 50 degrees from upright and is nearly half as wide as
// long (proportions as in nature and common practice).
func vine() figure {
	const (
		slim  = 0.95
		swing = 0.055 // of the stem, in repeats
		wide  = 0.26  // half the width of a leaf over its length
	)
	stem := func(t float64) geom.Point { return geom.Pt(t, swing*math.Cos(2*math.Pi*t)) }
	var curves []stretch
	from := 0.0
	for k := range 4 {
		at := (float64(k) + 0.12) / 4
		side := float64(2*(k%2) - 1) // up first
		base := stem(at)
		curves = append(curves, stretch{f: stem, t0: from, t1: at, pieces: 3})
		tip := geom.Pt(base.X+0.235, side*slim/2)
		curves = append(curves, leafAbout(base, tip, wide, side)...)
		from = at
	}
	curves = append(curves, stretch{f: stem, t0: from, t1: 1, pieces: 3})
	return figure{curves: inProportion(curves, slim), slim: slim, pitch: 1.08, level: 2 * swing / slim}
}

// leafAbout returns the two sides of a leaf from its base out to its tip and back, bowed
// towards side (1 down): half its width is so much of its length.
func leafAbout(base, tip geom.Point, wide, side float64) []stretch {
	along := r2.Sub(tip, base)
	across := geom.Pt(-along.Y, along.X)
	at := func(u, w float64) geom.Point {
		return r2.Add(base, r2.Add(r2.Scale(u, along), r2.Scale(w*side, across)))
	}
	const bow = 0.06
	return []stretch{
		bend(base, at(0.22, -1.55*wide-bow), at(0.72, -1.1*wide-bow), tip),
		bend(tip, at(0.72, 1.1*wide-bow), at(0.22, 1.55*wide-bow), base),
	}
}

// paisley returns one repeat of drops that stand side by side, each gone round twice, the
// second time about the first; between drops the line rises a little way. All rounds meet in
// the tip, at angles far enough apart that no knot of thread forms, and the tip is bent to
// the side.
func paisley() figure {
	const (
		slim   = 1.2
		h      = slim / 2
		curl   = 0.3
		rounds = 2
		gap    = 0.5 / (rounds + 0.5) // between rounds, and between drops
		rise   = 0.2
		middle = 0.5 - 0.3*curl // of a drop
	)
	foot := geom.Pt(middle+curl, h)
	drop := func(k int) []stretch {
		wide := gap * float64(k)
		high := slim - gap*float64(rounds-k)
		slant := (20 + 36*float64(k-1)) * degree // of its sides at the tip, from its middle
		at := func(u, v float64) geom.Point {    // v from 0 at the tip to 1
			y := v * high
			bow := math.Max(0, 1-y/(0.8*slim))
			return geom.Pt(middle+u*wide+curl*bow*bow, h-y)
		}
		out := math.Min(1.1, 0.26*math.Tan(slant)*high/wide)
		return []stretch{
			bendIn(at, geom.Pt(0, 0), geom.Pt(-out, 0.26), geom.Pt(-1, 0.34), geom.Pt(-1, 0.6)),
			bendIn(at, geom.Pt(-1, 0.6), geom.Pt(-1, 0.85), geom.Pt(-0.55, 1), geom.Pt(0, 1)),
			bendIn(at, geom.Pt(0, 1), geom.Pt(0.55, 1), geom.Pt(1, 0.85), geom.Pt(1, 0.6)),
			bendIn(at, geom.Pt(1, 0.6), geom.Pt(1, 0.34), geom.Pt(out, 0.26), geom.Pt(0, 0)),
		}
	}
	level := h - rise
	curves := []stretch{bend(geom.Pt(0, level), geom.Pt(0.25, level), geom.Pt(foot.X-0.3, h), foot)}
	for k := 1; k <= rounds; k++ {
		curves = append(curves, drop(k)...)
	}
	curves = append(curves, bend(foot, geom.Pt(foot.X+0.12, h), geom.Pt(0.88, level), geom.Pt(1, level)))
	return figure{curves: inProportion(curves, slim), slim: slim, pitch: 1.1, level: 2 * level / slim}
}

// bendIn returns a Bezier curve as at lays it.
func bendIn(at func(u, v float64) geom.Point, p0, p1, p2, p3 geom.Point) stretch {
	b := bend(p0, p1, p2, p3)
	return stretch{pieces: 4, t1: 1, f: func(t float64) geom.Point {
		p := b.f(t)
		return at(p.X, p.Y)
	}}
}
