package motif

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// A feather is built from its heads: circles that touch one another and the seam, one
// after the other from the foot to the tip, each a little smaller. From the places where
// they touch, plumes run in to knots on the spine. So nothing crosses, and corners fill.

// In the flat corners of a setting triangle heads and spine have no room side by side; in the
// acute corners of a half square plumes crowd about the foot and the tip.
var feather3 = feather2.without(except(Crowded, SettingTriangle))

var feather5 = feather3.redrawn(featherIn(false)).without(except(Crowded, HalfSquare))

// In a rectangle many small heads crowd at both ends, in a hexagon the corners by the foot stay bare.
var _ = add(Figures, 20, feather5.redrawn(featherIn(true)).restricted(except(Crowded, Rectangle).and(except(BareTips, Hexagon))))

// featherIn returns how a feather is laid: in a strip as in a border, the heads at its ends
// whole or not.
func featherIn(whole bool) func(f field, v Values) ([]Piece, error) {
	return func(f field, v Values) ([]Piece, error) {
		lo, hi := f.bounds()
		if w, h := hi.X-lo.X, hi.Y-lo.Y; f.shape.Kind == Rectangle && v["way"] == 0 && math.Max(w, h) > longStrip*math.Min(w, h) {
			return fitStripFeather(f, v, whole)
		}
		return fitFeatherFromHeads(f, v, whole)
	}
}

var feather2 = Motif{
	ID: "feather", before: &feather1, Continuous: true, inStrip: 0.42, around: aroundFeather,
	Params: []Param{
		{ID: "size", Unit: "mm", Min: 5, Max: 100, Step: 1, Usual: 25},
		{ID: "taper", Unit: "%", Min: 0, Max: 8, Step: 1, Usual: 4},
		{ID: "bend", Unit: "%", Min: -40, Max: 40, Step: 5, Usual: 20},
		{ID: "way", Max: 2, Step: 1, Choices: []string{"own", "upright", "level"}},
	},
	fit: func(f field, v Values) ([]Piece, error) { return fitFeatherFromHeads(f, v, false) },
}

// fitFeatherFromHeads lays a feather in a block, the heads at its ends whole or not.
func fitFeatherFromHeads(f field, v Values, whole bool) ([]Piece, error) {
	if err := f.fine("width-of-a-plume", v["size"], 3000); err != nil {
		return nil, err
	}
	foot, tip, bow := f.spineEnds(v)
	spine, err := geom.NewLine(spinePath(foot, tip, bow, v["bend"]/100*f.radius))
	if err != nil {
		return nil, err
	}
	most := 1.4 * spine.Length() / v["size"] // heads on a side, about
	q := quills{spine: spine, taper: math.Max(1-v["taper"]/100, math.Pow(leastTip, 1/most)), lead: math.Min(0.16, 0.7*f.radius/spine.Length())}
	var sides [2][]head
	for i, forward := range []bool{true, false} {
		rim := func(r float64) (geom.Line, bool) { return f.rimFrom(foot, tip, r, forward) }
		heads, ok := q.heads(rim, v["size"]/2)
		for try := 0; !ok && try < 5; try++ { // "about": a narrow tip takes smaller heads
			heads, ok = q.heads(rim, v["size"]/2*math.Pow(0.85, float64(try+1)))
		}
		if !ok {
			return nil, f.tooLarge("width-of-a-plume", v["size"], f.radius*0.8)
		}
		sides[i] = heads
	}
	q.from = math.Min(q.root(sides[0][0]), q.root(sides[1][0]))
	q.whole = whole
	return one("feather", f.kept(q.sew(sides[0], sides[1]))), nil
}

// spineEnds returns where the spine of a feather begins and ends on the rim, and how far
// its middle lies beside the straight way: from corner to corner in a square and in
// triangles, there bowed towards the right angle, else along the longer way.
func (f field) spineEnds(v Values) (foot, tip, bow geom.Point) {
	up := geom.Pt(0, -1)
	lo, hi := f.bounds()
	switch {
	case v["way"] == 1:
	case v["way"] == 2:
		up = geom.Pt(1, 0)
	case f.shape.Kind == HalfSquare:
		return f.corners[0], f.corners[1], r2.Scale(0.3, r2.Sub(f.corners[2], geom.Lerp(f.corners[0], f.corners[1], 0.5)))
	case f.shape.Kind == SettingTriangle:
		return f.corners[2], f.corners[1], r2.Scale(0.3, r2.Sub(f.corners[0], geom.Lerp(f.corners[1], f.corners[2], 0.5)))
	case f.shape.Kind == Square:
		return f.corners[3], f.corners[1], geom.Point{}
	case hi.X-lo.X > hi.Y-lo.Y+1e-6 && f.shape.Kind == Rectangle:
		up = geom.Pt(1, 0)
	}
	t0, t1 := f.clip(f.middle, up)
	return r2.Add(f.middle, r2.Scale(t0, up)), r2.Add(f.middle, r2.Scale(t1, up)), geom.Point{}
}

// spinePath returns the spine: bowed to one side and bent like an S.
func spinePath(foot, tip, bow geom.Point, bend float64) geom.Polyline {
	way := r2.Sub(tip, foot)
	side := r2.Unit(geom.Pt(-way.Y, way.X))
	return geom.Flatten(func(t float64) geom.Point {
		p := r2.Add(geom.Lerp(foot, tip, t), r2.Scale(4*t*(1-t), bow))
		return r2.Add(p, r2.Scale(0.5*bend*math.Sin(2*math.Pi*t), side))
	}, 0, 1, 8)
}

// rimFrom returns the line r mm within the rim from beside the foot to beside the tip, on
// one side of the spine.
func (f field) rimFrom(foot, tip geom.Point, r float64, forward bool) (geom.Line, bool) {
	in, ok := f.inset(r)
	if !ok {
		return geom.Line{}, false
	}
	ring := in.outline()
	if !forward {
		ring = ring.Reversed()
	}
	l, err := geom.NewLine(ring)
	if err != nil {
		return geom.Line{}, false
	}
	a, b := nearestOn(l, foot), nearestOn(l, tip)
	var path geom.Polyline
	if b > a {
		path = l.Section(a, b)
	} else {
		path = append(l.Section(a, l.Length()), l.Section(0, b)...)
	}
	out, err := geom.NewLine(path.Compact())
	return out, err == nil
}

// nearestOn returns the arc length of the place of a line nearest to p.
func nearestOn(l geom.Line, p geom.Point) float64 {
	best, least := 0.0, math.Inf(1)
	pl, cum := l.Path(), l.Cumulative()
	for i := range pl[1:] {
		t, q := geom.NearestOnSegment(p, pl[i], pl[i+1])
		if d := geom.Dist(p, q); d < least {
			best, least = cum[i]+t*(cum[i+1]-cum[i]), d
		}
	}
	return best
}

// head is the round end of a plume.
type head struct {
	at geom.Point
	r  float64
}

// quills lays plumes along a spine.
type quills struct {
	spine geom.Line
	// taper is the size of a head over that of the one before.
	taper float64
	// lead is by which share of the spine the heads lie ahead of their knots.
	lead float64
	// from is the arc length of the spine at which the lowest knot lies; before it the
	// spine is a bare stem.
	from float64
	// behind is how many mm of spine knots lie behind their heads, 0 where they lie in
	// proportion from foot to tip.
	behind float64
	// whole tells that the first and the last head are gone round whole, from a flank that
	// leads to their far side; else they begin where they touch the spine.
	whole bool
}

// leastTip is the size of the smallest head over that of the largest.
const leastTip = 0.45

// mostHeads is how many heads one side of a feather may have.
const mostHeads = 400

// root returns where on the spine the knot of the lowest head belongs: a little before
// where the head touches it.
func (q quills) root(h head) float64 {
	return math.Max(0.02*q.spine.Length(), nearestOn(q.spine, h.at)-0.9*h.r)
}

// heads returns the heads along a rim, given by how far within the seam it lies, the
// first about r mm in radius and touching the spine, so that the last touches it too.
func (q quills) heads(rim func(r float64) (geom.Line, bool), r float64) ([]head, bool) {
	first, _, ok := q.march(rim, r, mostHeads)
	if !ok || len(first) < 2 {
		return nil, false
	}
	best := first
	for _, n := range []int{len(first), len(first) + 1} {
		lo, hi := 0.5*r, 1.6*r
		for range 40 {
			m := (lo + hi) / 2
			if _, over, ok := q.march(rim, m, n); over || !ok {
				hi = m
			} else {
				lo = m
			}
		}
		heads, over, ok := q.march(rim, lo, n)
		if ok && !over && len(heads) == n && (n == len(first) || math.Abs(lo-r) < math.Abs(best[0].r-r)) {
			best = heads
		}
	}
	return best, true
}

// march sets up to n heads from the foot, and tells whether one went over the spine at the
// tip.
func (q quills) march(rim func(r float64) (geom.Line, bool), r float64, n int) (out []head, over, ok bool) {
	l, ok := rim(r)
	if !ok {
		return nil, false, false
	}
	s, ok := ahead(l, 0, func(p geom.Point) bool { return q.off(p) >= r })
	if !ok {
		return nil, false, false
	}
	out = append(out, head{l.At(s), r})
	for len(out) < n {
		last := out[len(out)-1]
		next := last.r * q.taper
		if l, ok = rim(next); !ok || next < 0.2*r {
			return out, false, true
		}
		s, ok := ahead(l, nearestOn(l, last.at), func(p geom.Point) bool { return geom.Dist(p, last.at) >= last.r+next })
		if !ok {
			return out, true, true
		}
		p := l.At(s)
		if q.off(p) < next && s > l.Length()/2 {
			return out, true, true
		}
		out = append(out, head{p, next})
	}
	return out, false, true
}

// off returns the distance from p to the spine.
func (q quills) off(p geom.Point) float64 { return geom.Dist(p, q.spine.At(nearestOn(q.spine, p))) }

// ahead returns the first arc length from s on at which found holds, to a micrometre.
func ahead(l geom.Line, s float64, found func(geom.Point) bool) (float64, bool) {
	const step = 0.5
	for a := s; ; a += step {
		if found(l.At(math.Min(a, l.Length()))) {
			lo, hi := math.Max(s, a-step), math.Min(a, l.Length())
			for range 20 {
				if m := (lo + hi) / 2; found(l.At(m)) {
					hi = m
				} else {
					lo = m
				}
			}
			return hi, true
		}
		if a >= l.Length() {
			return 0, false
		}
	}
}

// sew returns the feather as one line: the stem, the plumes of one side up to the tip, those of
// the other down again, and the spine from its lowest knot.
func (q quills) sew(right, left []head) geom.Polyline {
	path := q.spine.Section(0, q.foot())
	up := q.plumes(right)
	for _, p := range up {
		path = append(path, p...)
	}
	down := q.plumes(left)
	for i := len(down) - 1; i >= 0; i-- {
		path = append(path, down[i].Reversed()...)
	}
	return append(path, q.spine.Section(q.foot(), q.tip())...).Compact()
}

func (q quills) foot() float64 { return q.from }
func (q quills) tip() float64  { return (1 - q.lead) * q.spine.Length() }

// plumes returns the plumes of one side, each from its knot round its head to the next
// knot.
func (q quills) plumes(heads []head) []geom.Polyline {
	n := len(heads)
	knots := make([]float64, n+1)
	sum := 0.0
	for i, h := range heads {
		sum += h.r
		knots[i+1] = sum
	}
	for i := range knots {
		knots[i] = q.foot() + (q.tip()-q.foot())*knots[i]/sum
	}
	if q.behind > 0 {
		q.follow(knots, heads)
	}
	// Where neighbours touch; the outer ones touch the spine.
	touch := make([]geom.Point, n+1)
	for i := 1; i < n; i++ {
		a, b := heads[i-1], heads[i]
		touch[i] = geom.Lerp(a.at, b.at, a.r/(a.r+b.r))
	}
	onSpine := func(h head) geom.Point {
		p := q.spine.At(nearestOn(q.spine, h.at))
		return r2.Add(h.at, r2.Scale(h.r/math.Max(h.r, geom.Dist(p, h.at)), r2.Sub(p, h.at)))
	}
	touch[0], touch[n] = onSpine(heads[0]), onSpine(heads[n-1])
	if q.whole && n > 1 {
		touch[0] = heads[0].tangent(q.spine.At(knots[0]), touch[1])
		touch[n] = heads[n-1].tangent(q.spine.At(knots[n]), touch[n-1])
	}
	out := make([]geom.Polyline, n)
	for i, h := range heads {
		low := q.flank(knots[i], touch[i], h)
		high := q.flank(knots[i+1], touch[i+1], h)
		line := append(geom.Polyline{}, low...)
		inward := q.spine.At((knots[i] + knots[i+1]) / 2)
		switch {
		case q.whole && i == 0:
			inward = geom.Lerp(q.spine.At(knots[0]), touch[1], 0.5)
		case q.whole && i == n-1:
			inward = geom.Lerp(q.spine.At(knots[n]), touch[i], 0.5)
		}
		line = append(line, headArc(h, touch[i], touch[i+1], inward)...)
		out[i] = append(line, high.Reversed()...)
	}
	return out
}

// tangent returns the place at which a straight line from p touches the head, on the side
// away from another place; where p lies too near, the place opposite that.
func (h head) tangent(p, other geom.Point) geom.Point {
	d := r2.Sub(p, h.at)
	far := r2.Norm(d)
	if far < 1.02*h.r {
		return r2.Add(h.at, r2.Scale(-h.r/geom.Dist(other, h.at), r2.Sub(other, h.at)))
	}
	var best geom.Point
	for _, side := range []float64{1, -1} {
		at := r2.Add(h.at, r2.Scale(h.r/far, r2.Rotate(d, side*math.Acos(h.r/far), geom.Point{})))
		if side > 0 || geom.Dist(at, other) > geom.Dist(best, other) {
			best = at
		}
	}
	return best
}

// headArc returns the outer way round a head from one place on it to another: that which
// does not pass between it and the spine.
func headArc(h head, a, b, spine geom.Point) geom.Polyline {
	angle := func(p geom.Point) float64 { d := r2.Sub(p, h.at); return math.Atan2(d.Y, d.X) }
	a0, a1, in := angle(a), angle(b), angle(spine)
	ccw := math.Mod(a1-a0+4*math.Pi, 2*math.Pi)
	if at := math.Mod(in-a0+4*math.Pi, 2*math.Pi); at < ccw {
		return geom.Arc(h.at, h.r, a0, a0+ccw-2*math.Pi)
	}
	return geom.Arc(h.at, h.r, a0, a0+ccw)
}

// flank returns the side of a plume from its knot, at an arc length of the spine, to the
// place where its head begins. There it runs along the head; at the knot it leans along
// the spine, and is turned away from the plume's neighbour, so that the two flanks between
// plumes lie apart like a slim lens.
func (q quills) flank(knot float64, end geom.Point, h head) geom.Polyline {
	at, way := q.spine.At(knot), q.spine.Tangent(knot)
	chord := r2.Sub(end, at)
	far := r2.Norm(chord)
	if far < 1e-6 {
		return geom.Polyline{at}
	}
	turn := math.Atan2(r2.Cross(way, chord), r2.Dot(way, chord))
	lean := r2.Rotate(way, 0.6*turn, geom.Point{})
	apart := math.Min(18/far, 40*degree) * 0.6
	if r2.Cross(chord, r2.Sub(h.at, at)) < 0 {
		apart = -apart
	}
	lean = r2.Rotate(lean, apart, geom.Point{})
	out := r2.Sub(end, h.at)
	along := r2.Unit(geom.Pt(-out.Y, out.X))
	if r2.Dot(along, chord) < 0 {
		along = r2.Scale(-1, along)
	}
	return geom.Bezier(at, r2.Add(at, r2.Scale(0.45*far, lean)), r2.Sub(end, r2.Scale(0.3*far, along)), end)
}
