package motif

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

func spacingParam(lo, usual float64) Param {
	return Param{ID: "spacing", Unit: "mm", Min: lo, Max: 200, Step: 0.5, Usual: usual}
}

func angleParam(usual float64) Param {
	return Param{ID: "angle", Unit: "degrees", Min: -90, Max: 90, Step: 5, Usual: usual}
}

// edgeParam lets the ends of lines be joined where a margin keeps them off the
// seams; without a margin the seams are there to travel along.
var edgeParam = Param{ID: "edge", Max: 1, Step: 1, Choices: []string{"open", "sewn"}}

var _ = add(Ruled, 30, Motif{
	ID:     "straight-lines",
	Params: []Param{spacingParam(3, 12.5), angleParam(0), edgeParam},
	fit: func(f field, v Values) ([]Piece, error) {
		lines, err := f.ruled(v["spacing"], v["angle"])
		if err != nil {
			return nil, err
		}
		return rulerPieces(f, lines, v["edge"] == 1), nil
	},
})

var _ = add(Ruled, 40, Motif{
	ID:     "crosshatch",
	Params: []Param{spacingParam(4, 20), angleParam(0), edgeParam},
	fit:    func(f field, v Values) ([]Piece, error) { return fitCross(f, v, v["angle"], v["angle"]+90) },
})

var _ = add(Ruled, 50, Motif{
	ID: "hanging-diamonds",
	Params: []Param{
		spacingParam(4, 20),
		{ID: "slope", Unit: "degrees", Min: 20, Max: 75, Step: 5, Usual: 60},
		edgeParam,
	},
	fit: func(f field, v Values) ([]Piece, error) { return fitCross(f, v, v["slope"], -v["slope"]) },
})

func fitCross(f field, v Values, a, b float64) ([]Piece, error) {
	one, err := f.ruled(v["spacing"], a)
	if err != nil {
		return nil, err
	}
	other, err := f.ruled(v["spacing"], b)
	if err != nil {
		return nil, err
	}
	return rulerPieces(f, append(one, other...), v["edge"] == 1), nil
}

// ruled returns parallel lines from side to side of the field, exactly spacing mm
// apart and none on its rim, the middle of the field midway between two of them
// or on one, whichever makes more even gaps at the rim. slope is in degrees from the level, rising to
// the right.
func (f field) ruled(spacing, slope float64) ([]geom.Polyline, error) {
	if err := f.fine("spacing", spacing, 40000); err != nil {
		return nil, err
	}
	s, c := math.Sincos(-slope * math.Pi / 180)
	along, across := geom.Pt(c, s), geom.Pt(-s, c)
	lo, hi := f.reach(across)
	width := hi - lo
	n := int(math.Ceil(width/spacing-1e-9)) - 1
	if n < 1 {
		return nil, f.tooLarge("spacing", spacing, width-0.2)
	}
	first := lo + (width-float64(n-1)*spacing)/2
	var out []geom.Polyline
	for i := range n {
		p := r2.Scale(first+float64(i)*spacing, across)
		t0, t1 := f.clip(p, along)
		if t1-t0 < 1 {
			continue // in a corner, less than a stitch
		}
		out = append(out, geom.Polyline{r2.Add(p, r2.Scale(t0, along)), r2.Add(p, r2.Scale(t1, along))})
	}
	if len(out) == 0 {
		return nil, f.tooLarge("spacing", spacing, width/4)
	}
	return out, nil
}

// reach returns the least and the greatest distance of the field along direction
// d, of length 1, from the origin.
func (f field) reach(d geom.Point) (lo, hi float64) {
	if f.corners == nil {
		m := r2.Dot(f.middle, d)
		return m - f.radius, m + f.radius
	}
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range f.corners {
		lo, hi = math.Min(lo, r2.Dot(p, d)), math.Max(hi, r2.Dot(p, d))
	}
	return lo, hi
}

// rulerPieces returns straight lines as pieces, with the rim of the field if it is
// to be sewn and no seam.
func rulerPieces(f field, lines []geom.Polyline, rim bool) []Piece {
	var out []Piece
	for i, pl := range lines {
		out = append(out, Piece{Name: fmt.Sprintf("line %d", i+1), Path: pl, Ruler: true})
	}
	if rim && f.margin > 0 {
		out = append(out, Piece{Name: "rim", Path: f.outline(), Ruler: f.corners != nil})
	}
	return out
}
