package motif

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
)

var _ = add(Figures, 24, cable1.without(except(RunsAlong, Square, Rectangle)).round(aroundCable))

// rowOfCable is a strip three times as long as wide.
var rowOfCable = row{max: 1, usual: 1, line: func(int) (geom.Line, error) {
	pieces, err := fitCable(newField(Shape{Kind: Rectangle, W: 2 * patch, H: 2 * patch / 3}, 0), Values{"size": 2 * patch / 3, "density": 100, "strands": 2})
	if err != nil {
		return geom.Line{}, err
	}
	return geom.NewLine(toOrigin(joined(pieces)))
}}

var cable1 = Motif{
	row: &rowOfCable,
	ID:  "cable", Closed: false, Smooth: true, lacks: straightOnly, inStrip: 0.85,
	Params: []Param{
		sizeParam(34), densityParam,
		{ID: "strands", Min: 2, Max: 4, Step: 1, Usual: 2},
	},
	fit: fitCable,
}

// fitCable lays cables along the longer side: strands that swing from edge to edge, each a
// share of a repeat after the one before.
func fitCable(f field, v Values) ([]Piece, error) {
	lo, hi := f.bounds()
	w, h := hi.X-lo.X, hi.Y-lo.Y
	upright := h > w
	if upright {
		w, h = h, w
	}
	size := math.Min(v["size"], h)
	if err := f.fine("size", size, 3000); err != nil {
		return nil, err
	}
	rows := max(1, int((h+0.15*size)/(1.15*size)))
	repeat := cableRepeat(size, v)
	n := max(1, int(math.Round(w/repeat)))
	if n > 500 {
		return nil, &Refusal{TooLong, "repeats", f.shape, float64(n), 0, fmt.Errorf("%d repeats are too many for the %s: take a larger size", n, f.shape.describe())}
	}
	strands := int(v["strands"])
	var out []Piece
	for k := range rows {
		y := h * (float64(k) + 0.5) / float64(rows)
		for j := range strands {
			path := geom.Flatten(func(t float64) geom.Point {
				off := size / 2 * math.Sin(2*math.Pi*(t*float64(n)+float64(j)/float64(strands)))
				if upright {
					return geom.Pt(lo.X+y+off, lo.Y+w*t)
				}
				return geom.Pt(lo.X+w*t, lo.Y+y+off)
			}, 0, 1, 8*n)
			out = append(out, Piece{Name: fmt.Sprintf("cable %d, strand %d", k+1, j+1), Path: path})
		}
	}
	return out, nil
}

// cableRepeat is the length of a repeat of a cable: some two times its height.
func cableRepeat(size float64, v Values) float64 { return 1.9 * size * 100 / v["density"] }

var _ = add(Ruled, 42, Motif{
	ID: "piano-keys", lacks: straightOnly, around: aroundKeys,
	Params: []Param{spacingParam(3, 20)},
	fit: func(f field, v Values) ([]Piece, error) {
		lo, hi := f.bounds()
		angle := 90.0
		if hi.Y-lo.Y > hi.X-lo.X {
			angle = 0
		}
		lines, err := f.ruled(v["spacing"], angle)
		if err != nil {
			return nil, err
		}
		var out []Piece
		for i, pl := range lines {
			out = append(out, Piece{Name: fmt.Sprintf("key %d", i+1), Path: pl, Ruler: true})
		}
		return out, nil
	},
})

var _ = add(Ruled, 44, Motif{
	ID: "matchstick",
	Params: []Param{
		{ID: "spacing", Unit: "mm", Min: 2, Max: 40, Step: 0.5, Usual: 6},
		angleParam(90), livelinessOf(60), variationParam,
	},
	fit: fitMatchstick,
})

// The lines of matchstick quilting: from half to one and a half spacings apart, never two
// narrow ones beside one another, wavering by less than a fifth of a spacing over more
// than matchWave mm.
const matchWave = 40

// fitMatchstick lays lines of uneven spacing from seam to seam that waver a little, sewn
// with the walking foot.
func fitMatchstick(f field, v Values) ([]Piece, error) {
	s, alive := v["spacing"], v["liveliness"]/100
	if err := f.fine("spacing", s, 20000); err != nil {
		return nil, err
	}
	turned, back := f.turned(v["angle"] * degree)
	lo, hi := turned.bounds()
	rnd, noise := dice(v), newWander(v["variation"])
	var out []Piece
	last := 1.0
	for y := lo.Y + s/2; y < hi.Y-s/3; {
		x0, x1 := turned.level(y)
		if x1-x0 > s {
			path := geom.Flatten(func(x float64) geom.Point {
				return geom.Pt(x, y+0.18*s*alive*noise.at(x/matchWave/2+y))
			}, x0, x1, max(2, int((x1-x0)/20)))
			out = append(out, Piece{Name: fmt.Sprintf("line %d", len(out)+1), Path: turned.kept(path).Map(back).Compact()})
		}
		next := 1 + alive*(rnd.Float64()-0.5)
		if last < 0.7 {
			next = math.Max(next, 0.75+0.5*rnd.Float64()*alive)
		}
		last = next
		y += s * next
	}
	if len(out) == 0 {
		return nil, f.tooLarge("spacing", s, f.radius)
	}
	return out, nil
}
