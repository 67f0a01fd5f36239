package motif

import (
	"math"

	"unthreaded/path/geom"
)

var waves1 = Motif{
	ID: "waves", Continuous: true, Smooth: true, rows: true,
	Params: []Param{
		heightParam(26), lengthParam(32),
		{ID: "swell", Unit: "%", Min: 20, Max: 100, Step: 5, Usual: 80},
		{ID: "lean", Unit: "%", Min: -25, Max: 25, Step: 5},
		mirrorParam, wayParam,
	},
	fit: func(f field, v Values) ([]Piece, error) { return fitWaves(f, v, 0.3642) },
}

var ribbon1 = Motif{
	ID: "ribbon", Continuous: true, Smooth: true, rows: true,
	Params: []Param{
		heightParam(36), lengthParam(26),
		{ID: "swell", Unit: "%", Min: 20, Max: 100, Step: 5, Usual: 85},
		{ID: "fold", Unit: "%", Min: 60, Max: 180, Step: 5, Usual: 140},
		{ID: "lean", Unit: "%", Min: -25, Max: 25, Step: 5},
		mirrorParam, wayParam,
	},
	fit: func(f field, v Values) ([]Piece, error) { return fitWaves(f, v, v["fold"]/100) },
}

// fitWaves lays rows of waves. handle is the length of a handle at a crest in
// halves of a wave: 0.3642 is nearest to a sine line, from 1 on neighbouring lines
// overhang.
func fitWaves(f field, v Values, handle float64) ([]Piece, error) {
	const room = 0.4
	bands, err := f.bands(rowPlan{height: v["height"], length: v["length"], room: room})
	if err != nil {
		return nil, err
	}
	return one("line", f.sewRows(bands, func(_ int, b band) []stretch {
		curves := lean(waveRow(b.n, v["swell"]/200, handle), v["lean"]/100)
		if v["mirror"] == 1 {
			curves = flip(curves)
		}
		return curves
	})), nil
}

// waveRow returns n waves of half height a, which begin and end level, midway
// between crest and trough.
func waveRow(n int, a, handle float64) []stretch {
	at := geom.Pt(0, 0)
	var out []stretch
	to := func(u, v float64) {
		k := (u - at.X) * handle
		if v == 0 || at.Y == 0 { // the gentle first and last quarter
			k = (u - at.X) * math.Min(handle, 0.5)
		}
		out = append(out, bend(at, geom.Pt(at.X+k, at.Y), geom.Pt(u-k, v), geom.Pt(u, v)))
		at = geom.Pt(u, v)
	}
	for i := range 2 * n {
		to(float64(i)/2+0.25, a*float64(2*(i%2)-1))
	}
	to(float64(n), 0)
	return out
}
