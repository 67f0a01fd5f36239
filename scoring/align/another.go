package align

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

const (
	// unlike is the price per mm of movement, as the best fit lays it, from which on it may
	// be another figure: hands that keep the shape have 0.3 and less, other figures 2.4 and
	// more.
	unlike = 2.0
	// alike is the mean cosine between the directions of movement and line below which it
	// is one: hands that keep the shape have 0.85 and more, other figures mostly less.
	alike = 0.8
	// strays is the Frechet distance, as a share of the diagonal of the line's box, from
	// which on it is one, however alike the directions: hands that keep the shape have 0.05
	// and less, one that passes a dot by some 0.15, most other figures more than 0.3.
	strays = 0.25
	// leastFigure is the length in mm of a movement that can be called a figure.
	leastFigure = 20.0
	// leastBack is the length in mm that counts as going back along the line, not as
	// straying from its direction.
	leastBack = 15.0
)

// another tells whether the movement, as the best fit lays it, is another figure: it lies
// far from the line, and goes another way, or no two walkers keep together on both, however
// far along the line the one stops.
func (f *fitter) another(line geom.Line) bool {
	if f.length < leastFigure || f.found.price < unlike*f.length {
		return false
	}
	if f.agreement() < alike {
		return true
	}
	lo, hi := line.Path().Bounds()
	hand := make(geom.Polyline, len(f.obs))
	for j, o := range f.laid(f.best) {
		hand[j] = o.p
	}
	return !FrechetFrom(f.on.at, hand, strays*geom.Dist(lo, hi))
}

// agreement returns the mean cosine between the directions of the movement and of the
// line, each mm of movement counting alike; 0 where the movement is out of reach.
func (f *fitter) agreement() float64 {
	m := Match{Place: f.found.chosen}
	for j := 1; j < len(m.Place); j++ {
		if isJump(m.Place[j]-m.Place[j-1], f.found.seen[j].move, f.on.step) {
			m.Jumps = append(m.Jumps, Jump{I: j - 1})
		}
	}
	var sum float64
	if len(m.Place) > 0 {
		for _, p := range m.Passes(leastBack) {
			sign := 1.0
			if p.To < p.From {
				sign = -1
			}
			for j := p.I; j <= p.J; j++ {
				o := f.found.seen[j]
				if o.way == (geom.Point{}) {
					continue
				}
				k := int(math.Round(m.Place[j] / f.on.step))
				sum += sign * o.move * r2.Dot(o.way, f.on.way[k])
			}
		}
	}
	var all float64
	for _, o := range f.laid(f.best) {
		if o.way != (geom.Point{}) {
			all += o.move
		}
	}
	return sum / max(all, 1e-9)
}
