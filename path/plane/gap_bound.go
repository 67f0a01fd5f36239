package plane

import (
	"math"

	"unthreaded/path/geom"
)

// gapSectors is the number of directions in which closeBound looks for the
// nearest chord.
const gapSectors = 16

// majorant is a function of the way (x, y) from a square's centre, a + g.(x, y),
// that is nowhere in the square below the distance from a chord; g is a unit vector.
type majorant struct {
	a float64
	g geom.Point
}

// closeBound returns a bound on the circles centred in a square that uses lines on
// opposite sides. The distance from a line is a plane over the square; that from a
// chord is at most that from its point nearest to the centre, which exceeds a plane
// by at most v^2/2(d-v) where the square reaches v to all sides. The least of several
// planes is nowhere above their mean with any weights (weak duality of linear
// programming), and where the weights cancel the slopes, the mean is level. The
// distances noted by measure, all above the half diagonal, must be those of among;
// farther ones than most are left out.
func (s *gapSearch) closeBound(among []int32, half, most float64) float64 {
	var sectors [gapSectors]majorant
	for i := range sectors {
		sectors[i].a = math.Inf(1)
	}
	nearest := 0
	for i, k := range among {
		if s.dist[i] > most {
			continue
		}
		m := s.majorant(i, &s.chords[k], half)
		j := int((math.Atan2(m.g.Y, m.g.X)/math.Pi + 1) * gapSectors / 2)
		j = min(j, gapSectors-1)
		if m.a < sectors[j].a {
			sectors[j] = m
		}
		if sectors[j].a < sectors[nearest].a {
			nearest = j
		}
	}
	first := sectors[nearest]
	bound := first.a + half*(math.Abs(first.g.X)+math.Abs(first.g.Y))
	for i, m := range sectors {
		if i == nearest || math.IsInf(m.a, 1) {
			continue
		}
		bound = math.Min(bound, pairBound(first, m, half))
		for _, n := range sectors[i+1:] {
			if !math.IsInf(n.a, 1) {
				bound = math.Min(bound, levelBound(first, m, n))
			}
		}
	}
	return bound
}

// majorant returns that of the distance from chord i of those measured.
func (s *gapSearch) majorant(i int, c *gapChord, half float64) majorant {
	d := s.dist[i]
	m := majorant{d, geom.Point{X: s.away[i].X / d, Y: s.away[i].Y / d}}
	// Where all of the square lies beside the chord the distance is a plane.
	beside := half * (math.Abs(c.along.X) + math.Abs(c.along.Y))
	if s.at[i] < beside || c.length-s.at[i] < beside {
		v := half * (math.Abs(m.g.X) + math.Abs(m.g.Y))
		m.a += v * v / (2 * (d - v))
	}
	return m
}

// pairBound returns the least, over the weights of two planes, of the greatest value
// of their mean over the square. It is a broken line in the weight, least where it
// breaks.
func pairBound(p, q majorant, half float64) float64 {
	bound := math.Inf(1)
	try := func(from, to float64) {
		w := from / (from - to) // the mean's slope is from + w (to-from) = 0
		if !(w >= 0 && w <= 1) {
			return
		}
		x, y := p.g.X+w*(q.g.X-p.g.X), p.g.Y+w*(q.g.Y-p.g.Y)
		bound = math.Min(bound, p.a+w*(q.a-p.a)+half*(math.Abs(x)+math.Abs(y)))
	}
	try(p.g.X, q.g.X)
	try(p.g.Y, q.g.Y)
	return bound
}

// levelBound returns the height of the level mean of three planes, +Inf where their
// slopes do not surround 0.
func levelBound(p, q, r majorant) float64 {
	u := q.g.X*r.g.Y - q.g.Y*r.g.X
	v := r.g.X*p.g.Y - r.g.Y*p.g.X
	w := p.g.X*q.g.Y - p.g.Y*q.g.X
	sum := u + v + w
	if !(u/sum >= 0 && v/sum >= 0 && w/sum >= 0) {
		return math.Inf(1)
	}
	return (u*p.a + v*q.a + w*r.a) / sum
}
