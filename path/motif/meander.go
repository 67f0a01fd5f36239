package motif

import (
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

var meanderParams = []Param{
	{ID: "spacing", Unit: "mm", Min: 2.5, Max: 60, Step: 0.5, Usual: 9},
	livelinessOf(70), variationParam,
}

// livelinessOf returns the liveliness with another usual value.
func livelinessOf(usual float64) Param {
	p := livelinessParam
	p.Usual = usual
	return p
}

// In a strip a meander wanders between few strands.
var meanderInStrips = stripSizes{"spacing": {share: 0.15, most: 9, pitch: 0.5}}

var (
	_ = add(Flowing, 10, meanderMotif("stipple", &stipple1, 0, 0, nil).inStrips(meanderInStrips))
	_ = add(Flowing, 12, meanderMotif("meander-loops", nil, 6, 0.52, beadLoop).inStrips(meanderInStrips))
	_ = add(Flowing, 14, meanderMotif("meander-leaves", nil, 7, 0.6, beadLeaf).inStrips(meanderInStrips))
)

// meanderMotif returns a motif that wanders over the whole shape, with a figure every so
// many spacings (0: none).
func meanderMotif(id string, before *Motif, every float64, reach float64, fig func() []stretch) Motif {
	params := slices.Clone(meanderParams)
	if every > 0 {
		params[0].Usual = 10
		params = append(params, Param{ID: "apart", Min: 4, Max: 16, Step: 1, Usual: every})
	}
	return Motif{
		ID: id, before: before, Continuous: true, Closed: true,
		Params: params,
		fit: func(f field, v Values) ([]Piece, error) {
			t, err := f.meander(v, v["apart"], reach)
			if err != nil {
				return nil, err
			}
			path := smoothRing(t.pts)
			if fig != nil {
				path = t.decked(path, fig())
			}
			return one("line", f.kept(path)), nil
		},
	}
}

// A loop that the line makes on its way, and a leaf that it goes round from the stem to the
// tip and back over itself, in spacings: x along the line, y beside it.
func beadLoop() []stretch {
	const a, b, h = 0.75, 0.8, 0.98
	return []stretch{{t0: -1, t1: 1, pieces: 8, f: func(t float64) geom.Point {
		return geom.Pt(a*t-b*math.Sin(math.Pi*t), h*(1+math.Cos(math.Pi*t))/2)
	}}}
}

func beadLeaf() []stretch {
	const a, w, h = 0.8, 0.62, 1.3
	tip := geom.Pt(0, h)
	return []stretch{
		bend(geom.Pt(-a, 0), geom.Pt(a*0.75, 0), geom.Pt(w, 0.5*h), tip),
		bend(tip, geom.Pt(-w, 0.5*h), geom.Pt(-a*0.75, 0), geom.Pt(a, 0)),
	}
}

// decked returns the thread with a figure at each of its beads.
func (t *elastic) decked(path geom.Polyline, fig []stretch) geom.Polyline {
	l, err := geom.NewLine(path)
	if err != nil {
		return path
	}
	var out geom.Polyline
	from := 0.0
	for _, b := range t.beads {
		s0 := b.at * l.Length()
		way := r2.Unit(r2.Sub(l.At(s0+t.spacing/3), l.At(s0-t.spacing/3)))
		beside := r2.Scale(b.side*t.spacing, geom.Pt(way.Y, -way.X))
		put := func(p geom.Point) geom.Point {
			return r2.Add(l.At(s0+p.X*t.spacing), r2.Scale(p.Y, beside))
		}
		first, last := fig[0], fig[len(fig)-1]
		out = append(out, l.Section(from, s0+first.f(first.t0).X*t.spacing)...)
		for _, c := range fig {
			out = append(out, geom.Flatten(func(u float64) geom.Point { return put(c.f(u)) }, c.t0, c.t1, c.pieces)...)
		}
		from = s0 + last.f(last.t1).X*t.spacing
	}
	return append(out, l.Section(from, l.Length())...)
}

// The meander: points of a tree lie treeApart spacings apart, so that the walk round
// the tree is about as long as parallel lines one spacing apart; the thread then is drawn
// to just that length.
const treeApart = 1.5

// loosely is how far apart strands come to lie, in the spacings of the thread: measured.
const loosely = 1.22

// figuresTake is what is left of the length where figures take their share.
const figuresTake = 0.88

// meander returns a closed line that wanders over the field without crossing itself, one
// spacing from itself, with beads about every so many spacings (0: none) that have room for
// a figure of so much reach. It walks round a
// random tree and relaxes (common practice for even coverage by a tree: the peano walk
// of a spanning tree). Where a walk crosses itself another tree is taken. Cost about
// 0.1 s for a line of 5,000 spacings.
func (f field) meander(v Values, every, reach float64) (elastic, error) {
	if err := f.fine("spacing", v["spacing"], 5000); err != nil {
		return elastic{}, err
	}
	spacing := v["spacing"] / loosely
	in, ok := f.inset(0.8 * spacing)
	if !ok || in.radius < spacing/3 {
		return elastic{}, f.tooLarge("spacing", v["spacing"], loosely*f.radius/1.35)
	}
	seed := v["variation"]
	for try := range 6 {
		t := elastic{
			f: f, spacing: spacing, target: f.area() / spacing,
			wave: 0.4 * v["liveliness"] / 100, noise: newWander(seed),
		}
		t.pts = f.walk(in, spacing, v["liveliness"]/100, dice(Values{"variation": seed + 100*float64(try)}))
		n := rounds(len(t.pts))
		if every > 0 {
			t.relax(n / 2)
			t.string(every)
			t.target *= figuresTake
		}
		t.relax(n)
		t.settled(reach)
		t.pts = chaikin(t.pts)
		if try == 5 || !crosses(t.pts, spacing) {
			return t, nil
		}
	}
	return elastic{}, nil
}

// rounds is how long a thread is relaxed: enough where it is short, and less where it
// takes long.
func rounds(points int) int { return max(30, min(110, 250_000/max(1, points))) }

// walk returns the walk round a random tree over the field.
func (f field) walk(in field, spacing, lively float64, rnd *rand.Rand) []geom.Point {
	pts := in.cornered(in.spread(treeApart*spacing, rnd), treeApart*spacing)
	n := len(pts)
	rim, err := geom.NewLine(newField(f.shape, f.margin-0.6*spacing).outline())
	if err == nil {
		pts = append(pts, rim.Resample(treeApart * spacing)[1:]...)
	}
	near := neighbours(pts)
	ring := walkRound(pts, near, tree(pts, near, n, 3, 0.15+1.5*lively, rnd), spacing/2)
	for i := range ring {
		ring[i] = f.inward(ring[i], elasticWall*spacing*0.9)
	}
	return ring
}

// cornered returns points with one in each corner of the field, in the place of those too
// near to it, so that a tree grows into the tips.
func (f field) cornered(pts []geom.Point, dist float64) []geom.Point {
	for _, c := range f.corners {
		pts = slices.DeleteFunc(pts, func(p geom.Point) bool { return geom.Dist(p, c) < 0.7*dist })
		pts = append(pts, c)
	}
	return pts
}

// string puts a bead about every so many spacings, where the line is nearly straight and
// has most room on one side.
func (t *elastic) string(every float64) {
	t.pts = evenRing(t.pts, elasticStep*t.spacing)
	t.find()
	n := len(t.pts)
	count := max(1, int(float64(n)*elasticStep/every))
	each := n / count
	for i := range count {
		best, most := bead{}, math.Inf(-1)
		for k := i*each + each/5; k < (i+1)*each-each/5; k++ {
			for _, side := range []float64{1, -1} {
				b := bead{(float64(k) + 0.5) / float64(n), side}
				if score := math.Min(t.clear(b), clearMost) - 0.7*t.bent(k); score > most {
					best, most = b, score
				}
			}
		}
		t.beads = append(t.beads, best)
	}
}

// bent returns by how many radians the line turns within beadHalf of a point.
func (t *elastic) bent(k int) float64 {
	sum := 0.0
	for i := k - beadHalf; i <= k+beadHalf; i++ {
		sum += math.Abs(geom.TurnAngle(t.ringed(i-1), t.ringed(i), t.ringed(i+1)))
	}
	return sum
}

// ringed returns a point of the thread by its number, going round.
func (t *elastic) ringed(i int) geom.Point { return t.pts[(i%len(t.pts)+len(t.pts))%len(t.pts)] }

// find sorts the points, so that clear finds those within clearMost spacings.
func (t *elastic) find() {
	lo, hi := t.f.bounds()
	t.at = newBuckets(lo, hi, clearMost*t.spacing)
	for i, p := range t.pts {
		t.at.add(i, p)
	}
}

// clearMost is how far, in spacings, it matters how far a strand lies from a bead.
const clearMost = 1.3

// clear returns how far, in spacings, the middle of a bead's disc lies from strands that are
// not its own and from the rim.
func (t *elastic) clear(b bead) float64 {
	k, middle := t.disc(b)
	least := t.f.depth(middle)
	n := len(t.pts)
	t.at.near(middle, func(j int) {
		if apart := (j - k + n) % n; apart >= beadOwn && n-apart >= beadOwn {
			least = math.Min(least, geom.Dist(t.pts[j], middle))
		}
	})
	return least / t.spacing
}

// settled drops the beads whose figure, which reaches so many spacings from the middle of
// its disc, would lie on another strand or beyond the rim, or where the line bends too much.
func (t *elastic) settled(reach float64) {
	t.find()
	var kept []bead
	for _, b := range t.beads {
		k, middle := t.disc(b)
		near := slices.ContainsFunc(kept, func(o bead) bool {
			_, other := t.disc(o)
			return geom.Dist(middle, other) < 2*reach*t.spacing
		})
		if !near && t.clear(b) >= reach && t.bent(k) <= 1.8 {
			kept = append(kept, b)
		}
	}
	t.beads = kept
}

// chaikin cuts the corners of a closed polygon at a quarter and three quarters of its sides
// (Chaikin 1974), which nears the quadratic B-spline of its points.
func chaikin(ring []geom.Point) []geom.Point {
	n := len(ring)
	out := make([]geom.Point, 0, 2*n)
	for i, p := range ring {
		q := ring[(i+1)%n]
		out = append(out, geom.Lerp(p, q, 0.25), geom.Lerp(p, q, 0.75))
	}
	return out
}

// crosses tells whether a closed polygon meets itself; its sides are far shorter than
// reach.
func crosses(ring []geom.Point, reach float64) bool {
	n := len(ring)
	lo, hi := geom.Polyline(ring).Bounds()
	b := newBuckets(lo, hi, reach)
	for i, p := range ring {
		b.add(i, p)
	}
	found := false
	for i, p := range ring {
		q := ring[(i+1)%n]
		b.near(p, func(j int) {
			if found || j <= i+1 || i == 0 && j == n-1 {
				return
			}
			r, s := ring[j], ring[(j+1)%n]
			found = turnOf(p, q, r)*turnOf(p, q, s) < 0 && turnOf(r, s, p)*turnOf(r, s, q) < 0
		})
	}
	return found
}
