package motif

import (
	"math"

	"unthreaded/path/geom"
)

var loops1 = Motif{
	ID: "loops", Continuous: true, Smooth: true, rows: true,
	Params: []Param{
		heightParam(30), lengthParam(26),
		{ID: "swell", Unit: "%", Min: 30, Max: 100, Step: 5, Usual: 80},
		{ID: "width", Unit: "%", Min: 45, Max: 120, Step: 5, Usual: 75},
		{ID: "lean", Unit: "%", Min: -25, Max: 25, Step: 5},
		mirrorParam, wayParam,
	},
	fit: func(f field, v Values) ([]Piece, error) {
		const room = 0.4
		bands, err := f.bands(rowPlan{height: v["height"], length: v["length"], room: room})
		if err != nil {
			return nil, err
		}
		return one("line", f.sewRows(bands, func(_ int, b band) []stretch {
			curves := lean(loopRow(b.n, v["swell"]/200, v["width"]/200), v["lean"]/100)
			if v["mirror"] == 1 {
				curves = flip(curves)
			}
			return curves
		})), nil
	},
}

// loopRow returns n loops of half height a: a prolate trochoid, whose half width e
// (in repeats) is more than 1/(2 pi).
func loopRow(n int, a, e float64) []stretch {
	return []stretch{{t0: -math.Pi, t1: float64(2*n-1) * math.Pi, pieces: 8 * n, f: func(t float64) geom.Point {
		return geom.Pt((t+math.Pi)/(2*math.Pi)-e*math.Sin(t), -a*math.Cos(t))
	}}}
}

// Squeezed into triangles and circles, eights lean over.
var eights2 = eights1.without(notForRows)

var _ = add(Flowing, 60, eights2.inStrips(stripSizes{
	"height": {share: 1, most: 60, pitch: 1}, "length": {share: 1.5, most: 90, pitch: 1},
}).restricted(notStraight))

var eights1 = Motif{
	ID: "figure-eights", row: &rowOfEights, Continuous: true, Smooth: true, rows: true,
	Params: []Param{
		heightParam(24), lengthParam(38),
		{ID: "swell", Unit: "%", Min: 30, Max: 100, Step: 5, Usual: 90},
		mirrorParam, wayParam,
	},
	fit: func(f field, v Values) ([]Piece, error) {
		bands, err := f.bands(rowPlan{height: v["height"], length: v["length"], room: 0.1, there: true})
		if err != nil {
			return nil, err
		}
		if v["mirror"] == 1 {
			for i := range bands {
				bands[i].back = true
			}
		}
		return one("line", f.sewRows(bands, func(_ int, b band) []stretch { return eightsRow(b.n, v["swell"]/200) })), nil
	},
}

// eightsRow returns n lying lemniscates of Bernoulli of half height a, as one line
// from the near end out and home. It begins and ends going down.
func eightsRow(n int, a float64) []stretch {
	var out []stretch
	half := func(i int, from float64) {
		out = append(out, stretch{t0: from, t1: from - math.Pi, pieces: 8, f: func(t float64) geom.Point {
			s, c := math.Sincos(t)
			// The height of a lemniscate is a third of its width times sqrt(9/8).
			return geom.Pt(float64(i)+0.5+0.5*c/(1+s*s), -a*2*math.Sqrt2*s*c/(1+s*s))
		}})
	}
	for i := range n {
		half(i, math.Pi)
	}
	for i := n - 1; i >= 0; i-- {
		half(i, 0)
	}
	return out
}
