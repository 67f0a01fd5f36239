package motif

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// The measures that flowing motifs share.
func sizeParam(usual float64) Param {
	return Param{ID: "size", Unit: "mm", Min: 6, Max: 400, Step: 1, Usual: usual}
}

var (
	densityParam    = Param{ID: "density", Unit: "%", Min: 60, Max: 140, Step: 5, Usual: 100}
	livelinessParam = Param{ID: "liveliness", Unit: "%", Min: 0, Max: 100, Step: 10}
	turnParam       = Param{ID: "turn", Unit: "degrees", Min: 0, Max: 165, Step: 15}
)

// notForRows are the shapes in which rows do not fill the corners: squeezed into triangles
// they leave the tips bare.
var notForRows = except(BareTips, HalfSquare, SettingTriangle).and(except(Slanting, Circle))

// notStraight are more shapes in which rows squeezed beside seams look uneven.
var notStraight = except(Slanting, Hexagon, Octagon)

// rowFill returns a motif of rows of a figure, size mm high as usual.
func rowFill(id string, size float64, r *row, before *Motif, g func() figure) Motif {
	if r == nil {
		r = &row{max: 8, usual: 5, line: func(n int) (geom.Line, error) {
			fig := g()
			f := newField(Shape{Kind: Rectangle, W: float64(n) * size / fig.slim, H: size}, 0)
			path, err := fitRows(f, Values{"size": size, "density": 100}, fig)
			if err != nil {
				return geom.Line{}, err
			}
			return geom.NewLine(toOrigin(path))
		}}
	}
	m := Motif{
		ID: id, row: r, before: before, figure: g, Continuous: true, Smooth: true, rows: true, lacks: notForRows,
		Params: []Param{sizeParam(size), densityParam, livelinessParam, variationParam, turnParam, mirrorParam},
		fit: func(f field, v Values) ([]Piece, error) {
			path, err := fitRows(f, v, g())
			if err != nil {
				return nil, err
			}
			return one("line", path), nil
		},
	}
	if !g().fades {
		m.around = func(b Border, v Values) (Laid, error) { return aroundRows(b, v, g()) }
	}
	return m
}

// closest is the least distance of rows in heights: they do not touch.
const closest = 1.04

// fitRows lays rows of a figure with the measures that rowFill has.
func fitRows(f field, v Values, g figure) (geom.Polyline, error) {
	size := v["size"]
	if err := f.fine("height-of-a-row", size/math.Sqrt(math.Max(1, g.slim)), 1500); err != nil {
		return nil, err
	}
	if v["mirror"] == 1 {
		g = g.flipped()
	}
	g.pitch = math.Max(closest, g.pitch*100/v["density"])
	turned, back := f.turned(v["turn"] * math.Pi / 180)
	c := course{figure: g, half: size / 2, alive: v["liveliness"] / 100, noise: newWander(v["variation"])}
	path, ok := c.sew(turned)
	if !ok {
		return nil, f.tooLarge("height-of-a-row", size, mostRows(turned, c))
	}
	return f.kept(path.Map(back)), nil
}

// mostRows returns the largest height of a row that has room, by halving.
func mostRows(f field, c course) float64 {
	lo, hi := 0.0, 2*c.half
	for range 20 {
		m := (lo + hi) / 2
		c.half = m / 2
		if _, ok := c.sew(f); ok {
			lo = m
		} else {
			hi = m
		}
	}
	return lo
}

// turned returns the field turned by an angle round its middle, and the way back.
func (f field) turned(angle float64) (field, func(geom.Point) geom.Point) {
	if angle == 0 || f.corners == nil && f.radius == 0 {
		return f, func(p geom.Point) geom.Point { return p }
	}
	m := f.middle
	if f.corners != nil {
		corners := make([]geom.Point, len(f.corners))
		for i, c := range f.corners {
			corners[i] = r2.Rotate(c, angle, m)
		}
		f = f.with(corners)
	}
	return f, func(p geom.Point) geom.Point { return r2.Rotate(p, -angle, m) }
}

const degree = math.Pi / 180

// In a strip rows are at most so many mm high; more is divided into rows.
func rowsInStrips(most, pitch float64) stripSizes {
	return stripSizes{"size": {share: 1, most: most, pitch: pitch}}
}

var (
	waves2  = rowFill("waves", 18, &rowOfWaves, &waves1, func() figure { return sineGenerated(62*degree, 1.15) }).withoutKinks()
	ribbon2 = rowFill("ribbon", 32, nil, &ribbon1, func() figure { return sineGenerated(104*degree, 1.12) }).withoutKinks()
	// The loops once were small, far from each other, and left the sides of a block bare.
	loops2 = rowFill("loops", 24, &rowOfLoops, &loops1, func() figure { return trochoid(2.1, 1.1) }).withoutKinks()
)

var (
	_ = add(Flowing, 70, rowFill("waves", 18, &rowOfWaves, &waves2, func() figure { return sineGenerated(62*degree, 1.15).filling() }).
		easedRows().sized(rowsInStrips(45, 1.15)).restricted(notStraight))
	_ = add(Flowing, 80, rowFill("ribbon", 32, nil, &ribbon2, func() figure { return sineGenerated(104*degree, 1.12).filling() }).
		easedRows().sized(rowsInStrips(65, 1.12)).restricted(notStraight))
	_ = add(Flowing, 50, rowFill("loops", 24, &rowOfLoops, &loops2, func() figure { return trochoid(3, 1.08).filling() }).
		easedRows().sized(rowsInStrips(60, 1.08)).restricted(notStraight))
)

// The wishbone as it was first drawn: its loops were small, with sharp tops, and squeezed to
// points beside slanting seams. Then they were wider, on straight lines to and fro.
var (
	wishbone1 = rowFill("wishbone", 30, nil, nil, func() figure { return wishbone(1.0, 2.6, 1.06) })
	wishbone2 = rowFill("wishbone", 30, nil, &wishbone1, func() figure { return wishbone(1.5, 2.6, 1.06) }).withoutKinks().without(notStraight)
)

var _ = add(Flowing, 84, rowFill("wishbone", 44, nil, &wishbone2, func() figure { return sineLoops(155*degree, 1.06).filling() }).
	easedRows().sized(rowsInStrips(60, 1.06)).restricted(notStraight))
