package motif

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// At first they were wound so little that they lay as discs with bare places between, the
// more so in the tips of triangles.
var _ = add(Flowing, 20, swirls2.inStrips(stripSizes{
	"size": {share: 1, most: 60, pitch: 1}, "spacing": {share: 0.12, most: 7.2, pitch: 1},
}).restricted(except(BareTips, HalfSquare, SettingTriangle)).measured(swirlParams(48, 6)).alongSides())

func swirlParams(size, spacing float64) []Param {
	return []Param{
		sizeParam(size),
		{ID: "spacing", Unit: "mm", Min: 3, Max: 40, Step: 0.5, Usual: spacing},
		livelinessOf(50), variationParam,
	}
}

var swirls2 = Motif{
	ID: "linked-swirls", row: &linkedSwirls, before: &swirls1, Continuous: true, Smooth: true,
	Params: swirlParams(40, 7), fit: fitHooks,
}

// fitHooks fills the field with swirls, each in a cell of its own: in along the rim of the
// cell, round and round, a hook in the middle, and out again between the lines.
func fitHooks(f field, v Values) ([]Piece, error) {
	size, e := v["size"], v["spacing"]
	if err := f.fine("size-of-a-swirl", size, 600); err != nil {
		return nil, err
	}
	if err := f.fine("spacing", e, 20000); err != nil {
		return nil, err
	}
	if e > size/4 {
		e = size / 4
	}
	cells := f.cells(size, v["liveliness"]/100, dice(v))
	if len(cells) == 0 {
		return nil, f.tooLarge("size-of-a-swirl", size, 1.6*f.radius)
	}
	var path geom.Polyline
	sense := 1.0
	for i, c := range cells {
		w := swirl{cell: c, e: e, sense: sense}
		w.in, w.out = w.gates(cells, i)
		if d := w.turn(); d > 1.8*math.Pi || d < 0.2*math.Pi {
			w.sense = -w.sense
		}
		line := w.line()
		// The other way round where there is no room for the hook between the way in and
		// a way out that lies nearly all round.
		if r := (Piece{Path: line}).Curvature().Radius; r < e/8 {
			other := w
			other.sense = -w.sense
			if l := other.line(); (Piece{Path: l}).Curvature().Radius > r {
				w, line = other, l
			}
		}
		if i > 0 {
			path = append(path, link(path, line, e)...)
		}
		path = append(path, line...)
		sense = -w.sense
	}
	return one("line", f.kept(path.Compact())), nil
}

// cell is a convex place of the field: its middle and its corners, clockwise to the eye.
type cell struct {
	middle  geom.Point
	corners []geom.Point
}

// cells divides the field into cells of about one size: rows of points half a step
// apart, shaken, moved to the middles of their cells a few times (Lloyd 1982), in the order
// of rows to and fro.
func (f field) cells(size, lively float64, rnd *rand.Rand) []cell {
	lo, hi := f.bounds()
	rows := max(1, int(math.Round((hi.Y-lo.Y)/(0.88*size))))
	var pts []geom.Point
	for j := range rows {
		y := lo.Y + (hi.Y-lo.Y)*(float64(j)+0.5)/float64(rows)
		x0, x1 := f.level(y)
		n := int(math.Round((x1 - x0) / size))
		if n == 0 && x1-x0 > 0.4*size {
			n = 1
		}
		for i := range n {
			k := float64(i) + 0.5
			if j%2 == 1 {
				k = float64(n) - k
			}
			shake := 0.3 * lively * size
			p := geom.Pt(x0+(x1-x0)*k/float64(n)+shake*(rnd.Float64()-0.5), y+shake*(rnd.Float64()-0.5))
			pts = append(pts, f.pull(p))
		}
	}
	var out []cell
	for k := range 9 {
		out = f.divided(pts)
		if k < 8 {
			for i, c := range out {
				pts[i] = geom.Lerp(pts[i], centroid(c.corners), 0.8)
			}
		}
	}
	return out
}

// divided returns the cells of points: all that is nearer to one than to the others.
func (f field) divided(pts []geom.Point) []cell {
	rim := f.corners
	if rim == nil {
		rim = f.outline().Compact()
		rim = rim[:len(rim)-1]
	}
	out := make([]cell, len(pts))
	for i, p := range pts {
		c := append([]geom.Point{}, rim...)
		for j, q := range pts {
			if j != i {
				c = halved(c, geom.Lerp(p, q, 0.5), r2.Sub(q, p))
			}
		}
		out[i] = cell{p, c}
	}
	return out
}

// halved returns what of a convex polygon lies on the near side of the line through at,
// square to away.
func halved(poly []geom.Point, at, away geom.Point) []geom.Point {
	var out []geom.Point
	for i, p := range poly {
		q := poly[(i+1)%len(poly)]
		a, b := r2.Dot(r2.Sub(p, at), away), r2.Dot(r2.Sub(q, at), away)
		if a <= 0 {
			out = append(out, p)
		}
		if a < 0 && b > 0 || a > 0 && b < 0 {
			out = append(out, geom.Lerp(p, q, a/(a-b)))
		}
	}
	return out
}

// centroid returns the middle of a polygon's area.
func centroid(poly []geom.Point) geom.Point {
	var sum geom.Point
	var twice float64
	for i, p := range poly {
		q := poly[(i+1)%len(poly)]
		c := r2.Cross(p, q)
		sum, twice = r2.Add(sum, r2.Scale(c/3, r2.Add(p, q))), twice+c
	}
	if twice == 0 {
		return poly[0]
	}
	return r2.Scale(1/twice, sum)
}

// swirl is one of the fill: e is the spacing of its lines in mm, in and out are the
// directions from its middle at which the line comes and goes, sense 1 to go clockwise to
// the eye on the way in.
type swirl struct {
	cell
	e       float64
	in, out float64
	sense   float64
}

// gates returns where the line comes from and goes to: towards the cells before and after,
// of the first and the last away from the other one.
func (w swirl) gates(cells []cell, i int) (in, out float64) {
	toward := func(j int) float64 {
		d := r2.Sub(cells[j].middle, w.middle)
		return math.Atan2(d.Y, d.X)
	}
	switch {
	case len(cells) == 1:
		return math.Pi, 0
	case i == 0:
		return toward(1) + math.Pi, toward(1)
	case i == len(cells)-1:
		return toward(i - 1), toward(i-1) + math.Pi
	}
	return toward(i - 1), toward(i + 1)
}

// turn returns the angle from the way in to the way out, the way round that the line goes.
func (w swirl) turn() float64 {
	return math.Mod(w.sense*(w.out-w.in)+4*math.Pi, 2*math.Pi)
}

// rim returns how far from the middle the outermost line runs in a direction: half a
// spacing within the cell, at most 1.25 times its least, averaged over 35 degrees either way.
func (w swirl) rim(angle float64) float64 {
	const looks = 8
	sum, weight := 0.0, 0.0
	for k := -looks; k <= looks; k++ {
		share := 1 - math.Abs(float64(k))/(looks+1)
		sum += share * w.toSide(angle+float64(k)/looks*35*degree)
		weight += share
	}
	return sum / weight
}

func (w swirl) toSide(angle float64) float64 {
	d := geom.Pt(math.Cos(angle), math.Sin(angle))
	far, least := math.Inf(1), math.Inf(1)
	for i, a := range w.corners {
		b := w.corners[(i+1)%len(w.corners)]
		side := r2.Sub(b, a)
		if r2.Norm(side) < 1e-9 {
			continue
		}
		normal := r2.Unit(geom.Pt(side.Y, -side.X))
		off := r2.Dot(normal, r2.Sub(a, w.middle))
		least = math.Min(least, off)
		if c := r2.Dot(normal, d); c > 1e-9 {
			far = math.Min(far, off/c)
		}
	}
	return math.Max(0.2*w.e, math.Min(far, 1.25*least)-w.e/2)
}

// line returns the swirl from its way in to its way out.
func (w swirl) line() geom.Polyline {
	if len(w.corners) < 3 {
		return geom.Polyline{w.middle}
	}
	mean := 0.0
	for k := range 24 {
		mean += w.rim(float64(k)*math.Pi/12) / 24
	}
	share := math.Min(0.45, w.e/mean) // a spacing, in radii
	d := w.turn()
	// How many lines lie outside the arm on the way in, after an angle u: one more
	// shortly before each pass of the way out and of the way in.
	const rise = 1.9
	lines := func(u float64) float64 {
		n := 0.0
		for k := range 12 {
			at := float64(k/2)*2*math.Pi + d
			if k%2 == 1 {
				at = float64(k/2+1) * 2 * math.Pi
			}
			n += smoothstep((u - at + rise) / rise)
		}
		return n
	}
	at := func(u, level float64) geom.Point {
		angle := w.in + w.sense*u
		// The nearer to the middle, the rounder.
		far := level * (mean + (w.rim(angle)-mean)*level*level)
		return r2.Add(w.middle, r2.Scale(far, geom.Pt(math.Cos(angle), math.Sin(angle))))
	}
	in := func(u float64) geom.Point { return at(u, 1-share*lines(u)) }
	out := func(u float64) geom.Point { return at(u, math.Min(1, 1-share*(lines(u)-1))) }
	// As far in as there is room for the hook.
	end := d
	for u := d; u < 9*math.Pi && 1-share*lines(u) > 0.9*share; u += 0.05 {
		end = u
	}
	parts := max(8, int(end*4))
	path := geom.Flatten(in, 0, end, parts)
	back := geom.Flatten(out, end, d, parts)
	path = append(path, hook(path, back)...)
	return append(path, back...)
}

func smoothstep(t float64) float64 {
	t = math.Max(0, math.Min(1, t))
	return t * t * (3 - 2*t)
}

// hook returns the way from the end of the arm in to the beginning of the arm out: about
// half a circle.
func hook(in, out geom.Polyline) geom.Polyline {
	p, q := in[len(in)-1], out[0]
	d := geom.Dist(p, q) * 0.75
	a, b := leaving(in), r2.Scale(-1, leaving(out.Reversed()))
	return geom.Bezier(p, r2.Add(p, r2.Scale(d, a)), r2.Sub(q, r2.Scale(d, b)), q)
}

// link returns the way from the end of one line to the beginning of the next, smoothly.
func link(from, to geom.Polyline, e float64) geom.Polyline {
	p, q := from[len(from)-1], to[0]
	d := math.Max(0.55*geom.Dist(p, q), 0.4*e)
	a, b := leaving(from), r2.Scale(-1, leaving(to.Reversed()))
	return geom.Bezier(p, r2.Add(p, r2.Scale(d, a)), r2.Sub(q, r2.Scale(d, b)), q)
}

// leaving returns the unit direction in which a line ends; zero for one without length.
func leaving(pl geom.Polyline) geom.Point {
	end := pl[len(pl)-1]
	for i := len(pl) - 2; i >= 0; i-- {
		if d := r2.Sub(end, pl[i]); r2.Norm(d) > 1e-6 {
			return r2.Unit(d)
		}
	}
	return geom.Point{}
}
