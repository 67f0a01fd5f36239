package motif

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// In a strip they are as large as makes few rows.
var _ = add(Figures, 80, peels1.inStrips(stripSizes{"size": {share: 0.5, most: 30, pitch: 1}}))

var peels1 = Motif{
	ID: "orange-peel",
	Params: []Param{
		{ID: "size", Unit: "mm", Min: 6, Max: 200, Step: 1, Usual: 30},
		{ID: "grid", Max: 2, Step: 1, Choices: []string{"own", "squares", "triangles"}},
		{ID: "edge", Max: 1, Step: 1, Choices: []string{"whole", "cut"}},
	},
	fit: fitPeels,
}

// lattice is a grid through origin with steps a and b; triangles tells that there
// are lines along b-a too.
type lattice struct {
	origin, a, b geom.Point
	triangles    bool
}

func (l lattice) at(i, j int) geom.Point {
	return r2.Add(l.origin, r2.Add(r2.Scale(float64(i), l.a), r2.Scale(float64(j), l.b)))
}

// own returns the lattice that divides the field's own sides evenly into steps of
// at most size mm.
func (f field) own(size float64, grid int) lattice {
	kind := f.shape.Kind
	level := func(p geom.Point, w, h float64) lattice {
		return lattice{origin: p, a: geom.Pt(w/float64(parts(w, size)), 0), b: geom.Pt(0, h/float64(parts(h, size)))}
	}
	lo, hi := f.bounds()
	switch {
	case grid == 2 || grid == 0 && (kind == Hexagon || kind == Circle):
		side := f.radius / float64(parts(f.radius, size))
		if kind == Hexagon {
			side = geom.Dist(f.corners[0], f.corners[1])
			side /= float64(parts(side, size))
		}
		return lattice{f.middle, geom.Pt(side, 0), geom.Pt(side/2, side*math.Sqrt(3)/2), true}
	case grid == 0 && (kind == OnPoint || kind == SettingTriangle):
		// Along the two sides that meet at the top.
		apex, side := f.corners[0], geom.Dist(f.corners[0], f.corners[1])
		step := side / float64(parts(side, size)) / math.Sqrt2
		return lattice{apex, geom.Pt(step, step), geom.Pt(-step, step), false}
	case kind == Square || kind == Rectangle || kind == HalfSquare:
		return level(lo, hi.X-lo.X, hi.Y-lo.Y)
	}
	l := level(lo, hi.X-lo.X, hi.Y-lo.Y)
	l.origin = f.middle
	return l
}

// fitPeels returns the arcs to either side of each line of the grid, a quarter
// circle over squares and a sixth over triangles, so that arcs touch along the
// lines through a junction; cut at the rim.
func fitPeels(f field, v Values) ([]Piece, error) {
	size := v["size"]
	if err := f.fine("length-of-a-petal", size, 1000); err != nil {
		return nil, err
	}
	if size > 2*f.radius {
		return nil, f.tooLarge("length-of-a-petal", size, 2*f.radius)
	}
	l := f.own(size, int(v["grid"]))
	half := math.Pi / 4
	if l.triangles {
		half = math.Pi / 6
	}
	lines := f.petals(l, half, v["edge"] == 0)
	if len(lines) == 0 {
		return nil, f.tooLarge("length-of-a-petal", size, f.radius)
	}
	return f.cutAll("arc", lines, size, v["edge"] == 1), nil
}

// petals returns the arcs to either side of the lines of a grid that lie near the
// field, or only those that lie wholly in it.
func (f field) petals(l lattice, half float64, whole bool) []geom.Polyline {
	const touch = 1e-7 // a petal may touch the rim
	away := touch
	if !whole {
		away = 2 * math.Max(r2.Norm(l.a), r2.Norm(l.b))
	}
	lo, hi := f.bounds()
	n := int(math.Ceil((hi.X-lo.X+hi.Y-lo.Y)/math.Min(r2.Norm(l.a), r2.Norm(l.b)))) + 1
	var out []geom.Polyline
	for j := -n; j <= n; j++ {
		for i := -n; i <= n; i++ {
			p := l.at(i, j)
			if f.depth(p) < -away {
				continue
			}
			ends := []geom.Point{l.at(i+1, j), l.at(i, j+1)}
			if l.triangles {
				ends = append(ends, l.at(i-1, j+1))
			}
			for _, q := range ends {
				for _, pl := range []geom.Polyline{bow(p, q, half), bow(p, q, -half)} {
					if !whole || f.deepest(pl) >= -touch {
						out = append(out, pl)
					}
				}
			}
		}
	}
	return out
}

// bow returns the circular arc from p to q that sets out turned from the straight
// way by the angle half, in radians; its ends are exact.
func bow(p, q geom.Point, half float64) geom.Polyline {
	d := r2.Sub(q, p)
	radius := r2.Norm(d) / 2 / math.Sin(math.Abs(half))
	heading := math.Atan2(d.Y, d.X) + half
	// The centre lies at a right angle to the heading, on the side it turns to.
	side := math.Copysign(math.Pi/2, -half)
	centre := r2.Add(p, geom.Pt(radius*math.Cos(heading+side), radius*math.Sin(heading+side)))
	from := heading - side
	out := geom.Arc(centre, radius, from, from-2*half)
	out[0], out[len(out)-1] = p, q
	return out
}
