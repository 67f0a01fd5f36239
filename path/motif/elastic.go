package motif

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// The elastic thread: a closed line whose strands keep apart, that is drawn to a wished
// length and resists bending. Lengths are in spacings. The values were found by trying,
// and looking; bending is stable below 2/16.
const (
	elasticStep    = 0.25     // between points
	elasticReach   = 1.15     // within which strands push one another
	elasticOwn     = 1.5      // along the line: what is nearer is the same strand
	elasticBending = 1.3 / 16 // of the fourth difference, a round
	elasticWall    = 0.42     // from the rim
	elasticMost    = 0.08     // a point moves in a round, so that no strand jumps another
	elasticStretch = 1.25     // of a rest length over the one there is
)

// bead is a place on the thread beside which a disc is kept free, for a loop or a leaf.
type bead struct {
	// at is its arc length as a share of the whole, side 1 for the left of the line.
	at, side float64
}

// The disc of a bead, in spacings: how far its middle lies beside the line, how far it
// keeps others.
const beadOff, beadReach = 0.6, 1.25

// In points of the thread: what counts as the strand of a bead itself, and half the length
// of line that its figure takes.
const beadOwn, beadHalf = 9, 4

// disc returns the point of the thread at a bead, and the middle of its disc.
func (t *elastic) disc(b bead) (k int, middle geom.Point) {
	n := len(t.pts)
	k = int(b.at*float64(n)) % n
	way := r2.Unit(r2.Sub(t.pts[(k+2)%n], t.pts[(k+n-2)%n]))
	return k, r2.Add(t.pts[k], r2.Scale(b.side*beadOff*t.spacing, geom.Pt(way.Y, -way.X)))
}

// elastic is the thread while it is being relaxed.
type elastic struct {
	f       field
	spacing float64
	target  float64 // wished length in mm
	pts     []geom.Point
	beads   []bead
	// at finds points while they do not move, near those of a round.
	at   *buckets
	near packed
	push []geom.Point
	// wave is how far beyond elasticWall the wall lies in places, as noise goes.
	wave  float64
	noise wander
}

// wall is how far from the rim the thread keeps at a place.
func (t *elastic) wall(p geom.Point) float64 {
	u := (p.X + p.Y) / (4 * t.spacing)
	w := (p.X - p.Y) / (4 * t.spacing)
	return t.spacing * (elasticWall + t.wave*math.Max(0, t.noise.at(u)+t.noise.at(w+3)))
}

// relax runs so many rounds. Cost O(rounds * length / spacing).
func (t *elastic) relax(rounds int) {
	lo, hi := t.f.bounds()
	for k := range rounds {
		if k%4 == 0 {
			t.pts = evenRing(t.pts, elasticStep*t.spacing)
		}
		t.near.pack(newSquares(lo, hi, elasticReach*t.spacing), t.pts)
		t.round()
	}
}

// evenRing returns a closed polygon anew with about so many mm between its points.
func evenRing(ring []geom.Point, step float64) []geom.Point {
	l, err := geom.NewLine(closed(ring))
	if err != nil {
		return ring
	}
	n := max(8, int(math.Round(l.Length()/step)))
	out := make([]geom.Point, n)
	for i := range out {
		out[i] = l.At(l.Length() * float64(i) / float64(n))
	}
	return out
}

func (t *elastic) round() {
	n, s := len(t.pts), t.spacing
	total := 0.0
	for i, p := range t.pts {
		total += geom.Dist(p, t.pts[(i+1)%n])
	}
	rest := math.Min(elasticStretch*total, t.target) / float64(n)
	push := slices.Grow(t.push[:0], n)[:n]
	t.push = push
	for i, p := range t.pts {
		sum := t.strands(i, p)
		before, after := t.pts[(i+n-1)%n], t.pts[(i+1)%n]
		sum = r2.Add(sum, r2.Scale(0.3, spring(p, before, rest)))
		sum = r2.Add(sum, r2.Scale(0.3, spring(p, after, rest)))
		fourth := r2.Sub(r2.Scale(4, r2.Add(before, after)), r2.Add(t.pts[(i+n-2)%n], t.pts[(i+2)%n]))
		sum = r2.Add(sum, r2.Scale(elasticBending, r2.Sub(fourth, r2.Scale(6, p))))
		push[i] = sum
	}
	t.keepDiscs(push)
	deepest := s * (elasticWall + 2*t.wave) // a wall lies nowhere further in
	for i, p := range t.pts {
		d := push[i]
		if far := r2.Norm(d); far > elasticMost*s {
			d = r2.Scale(elasticMost*s/far, d)
		}
		if t.pts[i] = r2.Add(p, d); t.f.depth(t.pts[i]) < deepest {
			t.pts[i] = t.f.inward(t.pts[i], t.wall(p))
		}
	}
}

// strands returns how other strands push a point of the thread.
func (t *elastic) strands(i int, p geom.Point) geom.Point {
	n, reach := len(t.pts), elasticReach*t.spacing
	own := int(elasticOwn / elasticStep)
	var sum geom.Point
	t.near.rowsNear(p, func(index []int, pts []geom.Point) {
		for k, q := range pts {
			// Most lie out of reach, by far enough that the last bit of a square root
			// does not matter.
			dx, dy := p.X-q.X, p.Y-q.Y
			if dx*dx+dy*dy > reach*reach*(1+1e-9) {
				continue
			}
			if apart := max(index[k]-i, i-index[k]); apart < own || n-apart < own {
				continue
			}
			if far := math.Hypot(dx, dy); far < reach && far > 0 {
				sum = r2.Add(sum, r2.Scale((reach-far)/far*0.14, geom.Pt(dx, dy)))
			}
		}
	})
	return sum
}

// spring returns the way that a point is drawn towards a neighbour, or pushed from it.
func spring(p, q geom.Point, rest float64) geom.Point {
	d := r2.Sub(q, p)
	far := r2.Norm(d)
	if far == 0 {
		return geom.Point{}
	}
	return r2.Scale((far-rest)/far, d)
}

// keepDiscs adds what the discs of beads push away, and what that pushes back on them.
func (t *elastic) keepDiscs(push []geom.Point) {
	n, s := len(t.pts), t.spacing
	for _, bd := range t.beads {
		k, middle := t.disc(bd)
		var back geom.Point
		t.near.rowsNear(middle, func(index []int, pts []geom.Point) {
			for at, j := range index {
				if apart := (j - k + n) % n; apart < beadOwn || n-apart < beadOwn {
					continue
				}
				d := r2.Sub(pts[at], middle)
				if far := r2.Norm(d); far < beadReach*s && far > 0 {
					d = r2.Scale((beadReach*s-far)/far*0.5, d)
					push[j] = r2.Add(push[j], d)
					back = r2.Sub(back, r2.Scale(0.3, d))
				}
			}
		})
		if deep := t.f.depth(middle); deep < 0.8*s {
			back = r2.Add(back, r2.Scale(0.2*(0.8*s-deep), r2.Unit(r2.Sub(t.f.middle, middle))))
		}
		for i := -3; i <= 3; i++ {
			j := (k + i + n) % n
			push[j] = r2.Add(push[j], r2.Scale(1-math.Abs(float64(i))/4, back))
		}
	}
}

// kept returns a line whose points beyond the rim are brought back onto it.
func (f field) kept(pl geom.Polyline) geom.Polyline {
	return pl.Map(func(p geom.Point) geom.Point { return f.inward(p, 0) })
}

// inward returns p, or where it lies less than so many mm within the field, a place that
// does.
func (f field) inward(p geom.Point, wall float64) geom.Point {
	if f.corners == nil {
		d := r2.Sub(p, f.middle)
		if far := r2.Norm(d); far > f.radius-wall {
			return r2.Add(f.middle, r2.Scale((f.radius-wall)/far, d))
		}
		return p
	}
	for range 6 { // beside a corner the second side may push it over the first
		for i, a := range f.corners {
			u := f.ways[i]
			if deep := r2.Cross(u, r2.Sub(p, a)); deep < wall {
				p = r2.Add(p, r2.Scale(wall-deep, geom.Pt(-u.Y, u.X)))
			}
		}
	}
	return p
}
