package motif

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// In a strip they are as large as makes few rows.
var _ = add(Figures, 10, pebbles1.inStrips(stripSizes{"size": {share: 0.3, most: 15, pitch: 0.5}}))

var pebbles1 = Motif{
	ID: "pebbles", row: &row{max: 1, usual: 1, side: 76.2}, Continuous: true, Closed: true, Smooth: true,
	Params: []Param{
		{ID: "size", Unit: "mm", Min: 5, Max: 150, Step: 1, Usual: 22},
		{ID: "least", Unit: "%", Min: 20, Max: 100, Step: 5, Usual: 40},
		variationParam,
	},
	fit: fitPebbles,
}

// pebble is one circle; next are the pebbles that touch it and are sewn from it.
type pebble struct {
	at     geom.Point
	radius float64
	next   []int
}

// heap is a heap of pebbles being packed into a field.
type heap struct {
	f       field
	pebbles []pebble
	near    *buckets
	rnd     *rand.Rand
	lo, hi  float64
}

// fitPebbles packs pebbles outwards from the first, each touching the one from
// which it is reached and, where it can, a second or the rim. The line is
// 2 pi times the sum of the radii long: it sews every circle exactly once.
func fitPebbles(f field, v Values) ([]Piece, error) {
	size := v["size"]
	small := size * (0.5 + v["least"]/200)
	if err := f.fine("size-of-the-largest-pebble", small, 1200); err != nil {
		return nil, err
	}
	if size > 2*f.radius {
		return nil, f.tooLarge("size-of-the-largest-pebble", size, 2*f.radius)
	}
	return one("pebbles", f.pack(size, v["least"]/100, dice(v)).walk()), nil
}

// pack returns the field filled with pebbles of the given size or less, not less
// than a share of it.
func (f field) pack(size, least float64, rnd *rand.Rand) *heap {
	lo, hi := f.bounds()
	h := &heap{f: f, rnd: rnd, lo: size / 2 * least, hi: size / 2, near: newBuckets(lo, hi, size)}
	h.put(pebble{at: f.middle, radius: h.size()}, -1)
	for i := 0; i < len(h.pebbles); i++ {
		h.surround(i)
	}
	return h
}

func (h *heap) size() float64 { return h.lo + (h.hi-h.lo)*h.rnd.Float64() }

func (h *heap) put(p pebble, from int) {
	if from >= 0 {
		h.pebbles[from].next = append(h.pebbles[from].next, len(h.pebbles))
	}
	h.near.add(len(h.pebbles), p.at)
	h.pebbles = append(h.pebbles, p)
}

// surround puts pebbles round pebble i until none of the smallest size has room.
func (h *heap) surround(i int) {
	for r := h.size(); ; {
		at, ok := h.place(i, r)
		switch {
		case ok:
			h.put(pebble{at: at, radius: r}, i)
			r = h.size()
		case r <= h.lo:
			return
		default:
			r = math.Max(h.lo, r*0.8)
		}
	}
}

// place returns where a pebble of radius r touches pebble i and another or the
// rim, without covering any: of such places the one nearest to the middle.
func (h *heap) place(i int, r float64) (best geom.Point, ok bool) {
	p := h.pebbles[i]
	least := math.Inf(1)
	try := func(q geom.Point) {
		if d := geom.Dist(q, h.f.middle); d < least && h.free(q, r) {
			best, least, ok = q, d, true
		}
	}
	d := p.radius + r
	h.near.near(p.at, func(j int) {
		if j != i {
			for _, q := range circlesMeet(p.at, d, h.pebbles[j].at, h.pebbles[j].radius+r) {
				try(q)
			}
		}
	})
	if in, some := h.f.inset(r); some {
		for _, q := range in.rimMeets(p.at, d) {
			try(q)
		}
	}
	if !ok && len(h.pebbles) == 1 {
		a := 2 * math.Pi * h.rnd.Float64()
		try(r2.Add(p.at, geom.Pt(d*math.Cos(a), d*math.Sin(a))))
	}
	return best, ok
}

// free tells whether a circle lies in the field and covers no pebble.
func (h *heap) free(q geom.Point, r float64) bool {
	const touch = 1e-9
	if h.f.depth(q) < r-touch {
		return false
	}
	free := true
	h.near.near(q, func(j int) {
		free = free && geom.Dist(q, h.pebbles[j].at) >= h.pebbles[j].radius+r-touch
	})
	return free
}

// circlesMeet returns the places where two circles cross.
func circlesMeet(a geom.Point, ra float64, b geom.Point, rb float64) []geom.Point {
	d := geom.Dist(a, b)
	if d == 0 || d > ra+rb || d < math.Abs(ra-rb) {
		return nil
	}
	along := (ra*ra - rb*rb + d*d) / (2 * d)
	across := math.Sqrt(math.Max(0, ra*ra-along*along))
	u := r2.Scale(1/d, r2.Sub(b, a))
	m := r2.Add(a, r2.Scale(along, u))
	side := geom.Pt(-u.Y*across, u.X*across)
	return []geom.Point{r2.Add(m, side), r2.Sub(m, side)}
}

// rimMeets returns the places on the rim of the field at distance d from p.
func (f field) rimMeets(p geom.Point, d float64) []geom.Point {
	if f.corners == nil {
		return circlesMeet(p, d, f.middle, f.radius)
	}
	var out []geom.Point
	for i, a := range f.corners {
		b := f.corners[(i+1)%len(f.corners)]
		u := f.ways[i]
		foot := r2.Dot(r2.Sub(p, a), u)
		off := r2.Cross(u, r2.Sub(p, a))
		if off > d {
			continue
		}
		half := math.Sqrt(d*d - off*off)
		for _, t := range []float64{foot - half, foot + half} {
			if t >= 0 && t <= geom.Dist(a, b) {
				out = append(out, r2.Add(a, r2.Scale(t, u)))
			}
		}
	}
	return out
}

// walk returns the line round all pebbles from the first. Where two touch they
// have one tangent, so the line passes over smoothly and turns the other way.
func (h *heap) walk() geom.Polyline {
	var out geom.Polyline
	var round func(i int, from, way float64)
	round = func(i int, from, way float64) {
		p := h.pebbles[i]
		ahead := func(j int) float64 {
			d := r2.Sub(h.pebbles[j].at, p.at)
			a := math.Mod(way*(math.Atan2(d.Y, d.X)-from), 2*math.Pi)
			return math.Mod(a+2*math.Pi, 2*math.Pi)
		}
		slices.SortFunc(p.next, func(a, b int) int { return cmp.Compare(ahead(a), ahead(b)) })
		at := 0.0
		arc := func(to float64) {
			if to > at {
				out = append(out, geom.Arc(p.at, p.radius, from+way*at, from+way*to)...)
			}
			at = to
		}
		for _, j := range p.next {
			arc(ahead(j))
			round(j, from+way*at+math.Pi, -way)
		}
		arc(2 * math.Pi)
	}
	round(0, 0, 1)
	out[len(out)-1] = out[0]
	return out
}
