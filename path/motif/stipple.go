package motif

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

var stipple1 = Motif{
	ID: "stipple", Continuous: true, Closed: true,
	Params: []Param{
		{ID: "spacing", Unit: "mm", Min: 2.5, Max: 60, Step: 0.5, Usual: 9},
		variationParam,
	},
	fit: fitStipple,
}

var variationParam = Param{ID: "variation", Min: 1, Max: 50, Step: 1, Usual: 1}

// dice returns the random numbers of a variation, the same on every machine.
func dice(v Values) *rand.Rand { return rand.New(rand.NewPCG(uint64(v["variation"]), 0x5717)) }

// apart is how many spacings neighbouring points of the tree of a stipple lie
// apart. It is set by measuring: with it the line is area/spacing long on average,
// as parallel lines one spacing apart are.
const apart = 1.80

// fitStipple spreads points evenly over the field, joins them by a random tree and
// walks round the tree, midway between it and the gaps between its branches. Each
// side of the walk stays in its own part of a triangle between the points, so the
// walk cannot cross itself; rounding it moves it by less than a quarter of a side,
// which the tests search for crossings. Cost O(points^1.5).
func fitStipple(f field, v Values) ([]Piece, error) {
	spacing := v["spacing"]
	if err := f.fine("spacing", spacing, 5000); err != nil {
		return nil, err
	}
	in, ok := f.inset(spacing / 2)
	if !ok || in.radius < spacing {
		return nil, f.tooLarge("spacing", spacing, f.radius/1.5)
	}
	rnd := dice(v)
	pts := in.spread(apart*spacing, rnd)
	n := len(pts)
	// Points all round, so that every point of the tree has triangles all round.
	rim := newField(f.shape, f.margin-(apart-0.5)*spacing).outline()
	l, err := geom.NewLine(rim)
	if err != nil {
		return nil, err
	}
	pts = append(pts, l.Resample(apart * spacing)[1:]...)
	near := neighbours(pts)
	return one("stipple", smoothRing(rounder(walkRound(pts, near, randomTree(pts, near, n, rnd), spacing/2)))), nil
}

// spread returns points about dist mm apart that fill the field: a shaken lattice
// whose points then push one another apart.
func (f field) spread(dist float64, rnd *rand.Rand) []geom.Point {
	lo, hi := f.bounds()
	row := dist * math.Sqrt(3) / 2
	rows := max(1, int(math.Round((hi.Y-lo.Y)/row)))
	var pts []geom.Point
	for j := 0; j <= rows; j++ {
		y := lo.Y + (hi.Y-lo.Y)*float64(j)/float64(rows)
		for x := lo.X - dist*rnd.Float64(); x < hi.X+dist; x += dist {
			p := geom.Pt(x+dist*0.5*(rnd.Float64()-0.5), y+row*0.5*(rnd.Float64()-0.5))
			if f.depth(p) > -dist/3 {
				pts = append(pts, f.pull(p))
			}
		}
	}
	for range 14 {
		f.relax(pts, dist*1.25)
	}
	return pts
}

// relax moves each point away from those within reach mm, and back into the field.
func (f field) relax(pts []geom.Point, reach float64) {
	lo, hi := f.bounds()
	b := newBuckets(lo, hi, reach)
	for i, p := range pts {
		b.add(i, p)
	}
	moved := make([]geom.Point, len(pts))
	for i, p := range pts {
		var push geom.Point
		b.near(p, func(j int) {
			d := geom.Dist(p, pts[j])
			if j != i && d < reach && d > 0 {
				push = r2.Add(push, r2.Scale((reach-d)/d, r2.Sub(p, pts[j])))
			}
		})
		moved[i] = f.pull(r2.Add(p, r2.Scale(0.28, push)))
	}
	copy(pts, moved)
}

// pull returns p or, where p lies outside, a place near it in the field.
func (f field) pull(p geom.Point) geom.Point {
	if f.depth(p) >= 0 {
		return p
	}
	if f.corners == nil {
		return r2.Add(f.middle, r2.Scale(f.radius, r2.Unit(r2.Sub(p, f.middle))))
	}
	best, least := p, math.Inf(1)
	for i, a := range f.corners {
		if _, q := geom.NearestOnSegment(p, a, f.corners[(i+1)%len(f.corners)]); geom.Dist(p, q) < least {
			best, least = q, geom.Dist(p, q)
		}
	}
	return best
}

// rounder returns a closed polygon with each corner moved towards the middle of its
// neighbours, by half.
func rounder(ring []geom.Point) []geom.Point {
	out, n := make([]geom.Point, len(ring)), len(ring)
	for i, p := range ring {
		out[i] = geom.Lerp(p, geom.Lerp(ring[(i+n-1)%n], ring[(i+1)%n], 0.5), 0.5)
	}
	return out
}

// smoothRing returns the closed smooth line that passes the middle of each side of
// a polygon along it: a quadratic B-spline.
func smoothRing(ring []geom.Point) geom.Polyline {
	n := len(ring)
	var out geom.Polyline
	for i, p := range ring {
		a := geom.Lerp(ring[(i+n-1)%n], p, 0.5)
		b := geom.Lerp(p, ring[(i+1)%n], 0.5)
		part := geom.Flatten(func(t float64) geom.Point {
			return geom.Lerp(geom.Lerp(a, p, t), geom.Lerp(p, b, t), t)
		}, 0, 1, 1)
		if i > 0 {
			part = part[1:]
		}
		out = append(out, part...)
	}
	out[len(out)-1] = out[0]
	return out
}
