package motif

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
)

// Whole diamonds leave steps along slanting seams.
var _ = add(Ruled, 70, diamonds1.inStrips(stripSizes{
	"height": {share: 1, most: 50, pitch: 1}, "length": {share: 2. / 3, most: 100. / 3, pitch: 1},
}).restricted(notForRows.and(notStraight)))

var diamonds1 = Motif{
	ID: "diamonds", rows: true,
	Params: []Param{heightParam(30), lengthParam(20), wayParam},
	fit:    fitDiamonds,
}

// fitDiamonds lays diamonds of one size, the box round the field divided evenly,
// point to point, and keeps the whole ones.
func fitDiamonds(f field, v Values) ([]Piece, error) {
	if err := f.fine("size-of-a-diamond", math.Sqrt(v["height"]*v["length"]), 20000); err != nil {
		return nil, err
	}
	lo, hi := f.bounds()
	cols, rows := parts(hi.X-lo.X, v["length"]), parts(hi.Y-lo.Y, v["height"])
	at := func(i, j float64) geom.Point {
		return geom.Pt(lo.X+(hi.X-lo.X)*i/float64(cols), lo.Y+(hi.Y-lo.Y)*j/float64(rows))
	}
	const touch = -1e-9
	var out []Piece
	for j := range rows {
		var upper, lower geom.Polyline
		for i := range cols {
			x, y := float64(i), float64(j)
			l, t, r, b := at(x, y+0.5), at(x+0.5, y), at(x+1, y+0.5), at(x+0.5, y+1)
			if math.Min(math.Min(f.depth(l), f.depth(r)), math.Min(f.depth(t), f.depth(b))) < touch {
				continue
			}
			if upper == nil {
				upper, lower = geom.Polyline{l}, geom.Polyline{l}
			}
			upper, lower = append(upper, t, r), append(lower, b, r)
		}
		if upper != nil {
			out = append(out, Piece{Name: fmt.Sprintf("row-%d upper-zigzag", j+1), Path: upper, Ruler: true},
				Piece{Name: fmt.Sprintf("row-%d lower-zigzag", j+1), Path: lower, Ruler: true})
		}
	}
	if out == nil {
		return nil, f.tooLarge("size-of-a-diamond", math.Max(v["height"], v["length"]), f.radius)
	}
	return out, nil
}

// Whole stars leave the corners of other shapes bare.
var starChain2 = starChain1.without(notForRows.and(notStraight))

// Stars as wide as a strip is high did not reach its ends.
var _ = add(Ruled, 80, starChain2.redrawn(func(f field, v Values) ([]Piece, error) {
	lo, hi := f.bounds()
	rows := math.Max(1, math.Round((hi.Y-lo.Y)/v["height"]))
	return fitStars(f, Values{"height": math.Min(v["height"], (hi.Y-lo.Y)/rows)})
}).sized(stripSizes{"height": {share: 1, most: 60, pitch: 1}}))

var starChain1 = Motif{
	ID: "star-chain", Closed: true, rows: true,
	Params: []Param{
		{ID: "height", Unit: "mm", Min: 8, Max: 400, Step: 1, Usual: 38},
		wayParam,
	},
	fit: fitStars,
}

// fitStars lays rows of stars of one size, each row in the middle of the width
// that its stars have.
func fitStars(f field, v Values) ([]Piece, error) {
	size := v["height"]
	if err := f.fine("size-of-a-star", size, 1500); err != nil {
		return nil, err
	}
	lo, hi := f.bounds()
	size = math.Min((hi.X-lo.X)/float64(parts(hi.X-lo.X, size)), hi.Y-lo.Y)
	top, bottom, ok := f.levels(size)
	if !ok || bottom-top < size {
		return nil, f.tooLarge("size-of-a-star", size, f.radius)
	}
	rows := int((bottom-top)/size + 1e-9)
	step := (bottom - top) / float64(rows)
	var out []Piece
	for i := range rows {
		y := top + step*(float64(i)+0.5)
		b := f.band(y-size/2, y+size/2, 0)
		l, r := math.Max(b.xl0, b.xl1), math.Min(b.xr0, b.xr1)
		n := int((r-l)/size + 1e-9)
		if n < 1 {
			continue
		}
		for _, p := range StarChain(Rect{l, y - size/2, r - l, size}, n) {
			p.Name = fmt.Sprintf("row %d, %s", i+1, p.Name)
			out = append(out, p)
		}
	}
	if len(out) == 0 {
		return nil, f.tooLarge("size-of-a-star", size, f.radius)
	}
	return out, nil
}
