package motif

import (
	"math"

	"unthreaded/path/geom"
)

// band is the place of one row in a field: an upright trapezium whose parallel
// sides are level. Places in it are given by u, in repeats along the row, and v,
// from -1/2 at its upper side to 1/2 at its lower.
type band struct {
	y0, y1             float64
	xl0, xl1, xr0, xr1 float64
	// n is the number of repeats; back tells that the row is sewn right to left.
	n    int
	back bool
}

// at returns the place on the cloth of (u, v).
func (b band) at(p geom.Point) geom.Point {
	t, share := p.Y+0.5, p.X/float64(b.n)
	if b.back {
		share = 1 - share
	}
	l, r := b.xl0+(b.xl1-b.xl0)*t, b.xr0+(b.xr1-b.xr0)*t
	return geom.Pt(l+(r-l)*share, b.y0+(b.y1-b.y0)*t)
}

// width returns the width in mm of the middle of the band.
func (b band) width() float64 { return (b.xr0 + b.xr1 - b.xl0 - b.xl1) / 2 }

// leastTaper is how narrow the shorter level side of a band may be beside the
// longer one, so that repeats near a corner are not squeezed to a point.
const leastTaper = 0.45

// rowPlan tells how rows are laid in a field.
type rowPlan struct {
	// height is the largest height in mm of a row, length about that of a repeat.
	height, length float64
	// room is what a row leaves free at either end, as a share of its height, for
	// the turn into the next row.
	room float64
	// odd asks for an odd number of repeats; there keeps every row left to right.
	odd, there bool
}

// bands lays rows over the field, from top to bottom, all of one height. Near a
// corner that points up or down, rows begin where half a repeat has room.
func (f field) bands(p rowPlan) ([]band, error) {
	if err := f.fine("row-height", p.height, 1500); err != nil {
		return nil, err
	}
	if err := f.fine("length-of-a-repeat", math.Sqrt(p.height*p.length), 1500); err != nil {
		return nil, err
	}
	lo, hi := f.bounds()
	height := math.Min(p.height, hi.Y-lo.Y)
	top, bottom, ok := f.levels(math.Min(p.length, height)*0.6 + 2*p.room*height)
	if !ok {
		return nil, f.tooLarge("row-height", p.height, f.roomForRow(p))
	}
	top, bottom = f.trim(top, height, p.room), f.trim(bottom, -height, p.room)
	rows := parts(bottom-top, p.height)
	var out []band
	for i := range rows {
		y0 := top + (bottom-top)*float64(i)/float64(rows)
		b := f.band(y0, top+(bottom-top)*float64(i+1)/float64(rows), p.room)
		b.n = max(1, int(math.Round(b.width()/p.length)))
		if p.odd && b.n%2 == 0 {
			b.n--
		}
		b.back = i%2 == 1 && !p.there
		out = append(out, b)
	}
	return out, nil
}

// mostTrim is the largest share of a row's height that trim gives up at a corner.
const mostTrim = 0.35

// trim returns the level y moved inwards, until a row from there, of so much height
// (below 0: upwards), does not taper too much or mostTrim of its height is given up.
func (f field) trim(y, height, room float64) float64 {
	free := 2 * room * math.Abs(height)
	for k := 0.0; k < mostTrim; k += 0.02 {
		at := y + k*height
		if f.widthAt(at)-free >= leastTaper*(f.widthAt(at+height)-free) {
			return at
		}
	}
	return y + mostTrim*height
}

// roomForRow returns the largest height in mm of a row for which bands finds room,
// by halving.
func (f field) roomForRow(p rowPlan) float64 {
	lo, hi := 0.0, p.height
	for range 30 {
		h := (lo + hi) / 2
		if _, _, ok := f.levels(math.Min(p.length, h)*0.6 + 2*p.room*h); ok {
			lo = h
		} else {
			hi = h
		}
	}
	return lo
}

// levels returns the range of y within which the field is at least width mm wide,
// and whether there is one.
func (f field) levels(width float64) (top, bottom float64, ok bool) {
	lo, hi := f.bounds()
	_, widest := f.widestLevel()
	if f.widthAt(widest) < width {
		return 0, 0, false
	}
	find := func(out, in float64) float64 {
		if f.widthAt(out) >= width {
			return out
		}
		for range 50 {
			m := (out + in) / 2
			if f.widthAt(m) >= width {
				in = m
			} else {
				out = m
			}
		}
		return in
	}
	return find(lo.Y, widest), find(hi.Y, widest), true
}

// widestLevel returns the largest width of the field and the y at which it lies:
// at a corner of a polygon, since the width is a concave function of y.
func (f field) widestLevel() (w, y float64) {
	w, y = f.widthAt(f.middle.Y), f.middle.Y
	for _, c := range f.corners {
		if x := f.widthAt(c.Y); x > w+1e-9 {
			w, y = x, c.Y
		}
	}
	return w, y
}

// level returns the ends of the level chord at y.
func (f field) level(y float64) (x0, x1 float64) {
	return f.clip(geom.Pt(0, y), geom.Pt(1, 0))
}

func (f field) widthAt(y float64) float64 {
	x0, x1 := f.level(y)
	return x1 - x0
}

// band returns the band between two levels; it lies in the field since the field
// is convex. room is the share of its height left free at either end.
func (f field) band(y0, y1, room float64) band {
	b := band{y0: y0, y1: y1}
	free := room * (y1 - y0)
	b.xl0, b.xr0 = f.level(y0)
	b.xl1, b.xr1 = f.level(y1)
	b.xl0, b.xr0, b.xl1, b.xr1 = b.xl0+free, b.xr0-free, b.xl1+free, b.xr1-free
	w0, w1 := b.xr0-b.xl0, b.xr1-b.xl1
	switch {
	case w0 < leastTaper*w1:
		k := w0 * (1/leastTaper - 1) / (w1 - w0)
		b.xl1, b.xr1 = b.xl0+k*(b.xl1-b.xl0), b.xr0+k*(b.xr1-b.xr0)
	case w1 < leastTaper*w0:
		k := w1 * (1/leastTaper - 1) / (w0 - w1)
		b.xl0, b.xr0 = b.xl1+k*(b.xl0-b.xl1), b.xr1+k*(b.xr0-b.xr1)
	}
	return b
}
