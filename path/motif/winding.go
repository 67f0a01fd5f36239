package motif

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

var _ = add(Flowing, 40, spiral2.redrawn(func(f field, v Values) ([]Piece, error) {
	return fitWinding(f, v, evenly)
}).restricted(longInStrips))

var _ = add(Flowing, 30, doubleSpiral2.redrawn(func(f field, v Values) ([]Piece, error) {
	return fitWindings(f, v, evenly)
}).restricted(longInStrips))

// longInStrips: the rounds of a spiral are but long lines in a strip.
var longInStrips = except(LongLines, strip)

var spiral2 = Motif{
	ID: "spiral", before: &spiral1, Continuous: true, Smooth: true, Params: spiralParams,
	fit: func(f field, v Values) ([]Piece, error) { return fitWinding(f, v, atOnce) },
}

var doubleSpiral2 = Motif{
	ID: "double-spiral", before: &doubleSpiral1, Continuous: true, Smooth: true, Params: spiralParams,
	fit: func(f field, v Values) ([]Piece, error) { return fitWindings(f, v, atOnce) },
}

// descent is how many rounds side k of a line that winds inwards lies within the outline of n
// sides.
type descent func(k, n int) float64

// atOnce goes a round inwards at the corner at which one begins.
func atOnce(k, n int) float64 { return float64(k / n) }

// evenly does so, but round many corners a share at each: there a side has no room for the whole.
func evenly(k, n int) float64 {
	if n > 6 {
		return float64(k) / float64(n)
	}
	return atOnce(k, n)
}

// fitWinding returns a line that winds inwards.
func fitWinding(f field, v Values, in descent) ([]Piece, error) {
	if f.corners == nil {
		return fitSpiral(f, v)
	}
	spacing := v["spacing"]
	if err := f.fine("spacing", spacing, 20000); err != nil {
		return nil, err
	}
	w := newWinding(f, v)
	n := len(w.corners)
	least := 0.6
	if in(1, n) > 0 {
		least = 0.2
	}
	sides := w.sides(0, func(k int) float64 { return spacing * in(k, n) }, least*spacing)
	if len(sides) < n {
		return nil, f.tooLarge("spacing", spacing, f.radius/1.25)
	}
	return one("spiral", w.laid(w.round(sides))), nil
}

// fitWindings returns a line that winds inwards and out again between.
func fitWindings(f field, v Values, in descent) ([]Piece, error) {
	if f.corners == nil {
		return fitDoubleSpiral(f, v)
	}
	spacing := v["spacing"]
	if err := f.fine("spacing", spacing, 20000); err != nil {
		return nil, err
	}
	w := newWinding(f, v)
	w.growth *= 2 // a turn of an arm lies two spacings within the one before
	// Two arms that begin in corners half the way round from each other. Along each
	// side they lie one spacing apart in turn.
	n := len(w.corners)
	half := (n + 1) / 2
	smooth := in(1, n) > 0
	arm := func(first, low int) geom.Polyline {
		return w.sides(first, func(k int) float64 {
			if smooth {
				return 2 * spacing * in(k, n)
			}
			depth := 2 * spacing * in(k, n)
			if k%n >= low {
				depth += spacing
			}
			return depth
		}, 1.6*spacing)
	}
	a, b := arm(0, half), arm(half, n-half)
	m := min(len(a), len(b))
	if m <= n/2+1 {
		return nil, f.tooLarge("spacing", spacing, f.radius/2.4)
	}
	return one("spiral", w.laid(w.joined(a[:m], b[:m]))), nil
}

// cornerGrowth is by how much, in spacings, the radius of a corner grows from one turn to the
// next one outwards, for each choice of corners: lines one within the other are evenly apart
// at a growth of 1, but leave the corner of the block bare.
var cornerGrowth = [3]float64{0.55, 0.3, 0.1}

// winding is a line that winds inwards along the sides of a polygon, parallel to them.
type winding struct {
	field
	spacing, growth float64
	mirrored        bool
}

// newWinding begins in the corner that lies nearest to the direction "start" from the middle.
func newWinding(f field, v Values) winding {
	w := winding{field: f, spacing: v["spacing"], growth: cornerGrowth[int(v["corners"])], mirrored: v["mirror"] == 1}
	n := len(f.corners)
	corners := make([]geom.Point, n)
	for i, c := range f.corners {
		if corners[i] = c; w.mirrored {
			c = f.corners[n-1-i]
			corners[i] = geom.Pt(c.X, 2*f.middle.Y-c.Y)
		}
	}
	s, c := math.Sincos(v["start"] * degree)
	first, most := 0, math.Inf(-1)
	for i, p := range corners {
		if along := r2.Dot(r2.Unit(r2.Sub(p, f.middle)), geom.Pt(c, s)); along > most+1e-9 {
			first, most = i, along
		}
	}
	w.field = f.with(append(append([]geom.Point{}, corners[first:]...), corners[:first]...))
	return w
}

// laid returns a line as it lies on the cloth.
func (w winding) laid(pl geom.Polyline) geom.Polyline {
	if !w.mirrored {
		return pl
	}
	return pl.Map(func(p geom.Point) geom.Point { return geom.Pt(p.X, 2*w.middle.Y-p.Y) })
}

// sides returns the corners of the line that begins in a corner of the outline, side k of it
// depth(k) mm within that of the outline, for as long as a side is longer than least mm.
func (w winding) sides(first int, depth func(k int) float64, least float64) geom.Polyline {
	n := len(w.corners)
	side := func(k int) (p, way geom.Point) {
		i := (first + k) % n
		way = w.ways[i]
		return r2.Add(w.corners[i], r2.Scale(depth(k), geom.Pt(-way.Y, way.X))), way
	}
	path := geom.Polyline{w.corners[first]}
	for k := 0; depth(k) < w.radius; k++ {
		p, d := side(k)
		q, e := side(k + 1)
		end := r2.Add(p, r2.Scale(r2.Cross(r2.Sub(q, p), e)/r2.Cross(d, e), d))
		if r2.Dot(r2.Sub(end, path[len(path)-1]), d) < least || w.depth(end) < depth(k)-1e-6 {
			break
		}
		path = append(path, end)
	}
	return path
}

// joined returns two arms joined by the S in the middle that is roundest, and clear of them:
// tried are ends at a few places of their last sides, and a few sizes of the S.
func (w winding) joined(in, out geom.Polyline) geom.Polyline {
	var best geom.Polyline
	most := math.Inf(-1)
	for drop := 0; drop <= len(w.corners) && len(in)-drop > 2; drop++ {
		m := len(in) - drop
		for _, share := range []float64{0.1, 0.3, 0.5, 0.75, 1} {
			a, b := w.ending(in[:m], share), w.ending(out[:m], share).Reversed()
			for _, size := range []float64{0.25, 0.4, 0.55, 0.7, 0.9, 1.2} {
				s := essWith(a, b, size*geom.Dist(a[len(a)-1], b[0]))
				if good := w.quality(a, b, s) - 0.05*float64(drop); good > most {
					most = good
					best = append(append(append(geom.Polyline{}, a...), s...), b...)
				}
			}
		}
	}
	return best
}

// ending returns an arm, rounded, that ends after a share of its last side.
func (w winding) ending(sides geom.Polyline, share float64) geom.Polyline {
	m := len(sides)
	cut := append(append(geom.Polyline{}, sides[:m-1]...), geom.Lerp(sides[m-2], sides[m-1], share))
	return w.round(cut)
}

// quality returns how round an S between two arms is and how far it lies from them, in
// spacings, whichever is less; beyond 0.7 it matters no more.
func (w winding) quality(a, b, s geom.Polyline) float64 {
	bend := Piece{Path: s}.Curvature()
	least := math.Min(0.7*w.spacing, bend.Radius)
	if bend.Corners > 0 {
		least = 0
	}
	for _, arm := range []geom.Polyline{a, b} {
		l, err := geom.NewLine(arm)
		if err != nil {
			return 0
		}
		// The last turns are what it can come near to; at its own end it touches.
		from := math.Max(0, l.Length()-12*w.spacing)
		last, err := geom.NewLine(l.Section(from, l.Length()))
		if err != nil {
			return 0
		}
		for _, p := range last.Resample(w.spacing / 4) {
			for _, q := range s {
				if geom.Dist(q, s[0]) > w.spacing && geom.Dist(q, s[len(s)-1]) > w.spacing {
					least = math.Min(least, geom.Dist(p, q))
				}
			}
		}
	}
	return least / w.spacing
}

// round returns the line with its corners rounded, the outer ones most, those in the tips of
// triangles less: they leave more bare.
func (w winding) round(sides geom.Polyline) geom.Polyline {
	n := len(sides)
	return roundCorners(sides, func(i int, half float64) float64 {
		return w.spacing * (0.5 + w.growth*float64(n-2-i)/float64(len(w.corners))/math.Max(1, half*half))
	})
}

// roundCorners returns a line with an arc at each corner i, of radius(i, half) mm, or of what
// half the shorter side beside it has room for; half is the tangent of half the turn.
func roundCorners(pl geom.Polyline, radius func(i int, half float64) float64) geom.Polyline {
	out := geom.Polyline{pl[0]}
	for i := 1; i < len(pl)-1; i++ {
		a, b, c := pl[i-1], pl[i], pl[i+1]
		turn := geom.TurnAngle(a, b, c)
		half := math.Tan(math.Abs(turn) / 2)
		back := math.Min(radius(i, half)*half, math.Min(geom.Dist(a, b), geom.Dist(b, c))/2)
		way := r2.Unit(r2.Sub(b, a))
		// From the middle of the arc to its beginning.
		off := r2.Scale(math.Copysign(back/half, turn), geom.Pt(way.Y, -way.X))
		middle := r2.Sub(r2.Sub(b, r2.Scale(back, way)), off)
		from := math.Atan2(off.Y, off.X)
		out = append(out, geom.Arc(middle, back/half, from, from+turn)...)
	}
	return append(out, pl[len(pl)-1]).Compact()
}
