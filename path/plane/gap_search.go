package plane

import (
	"container/heap"
	"math"

	"unthreaded/path/geom"
)

// gapChord is a straight bit of an outline or of a stroke.
type gapChord struct {
	a, along geom.Point // its start and its unit direction
	length   float64
}

// nearest returns the way from the nearest point of the chord to p, and how far
// along the chord that point lies.
func (c *gapChord) nearest(p geom.Point) (away geom.Point, at float64) {
	x, y := p.X-c.a.X, p.Y-c.a.Y
	at = math.Max(0, math.Min(c.length, x*c.along.X+y*c.along.Y))
	return geom.Point{X: x - at*c.along.X, Y: y - at*c.along.Y}, at
}

// gapSearch looks for empty circles.
type gapSearch struct {
	chords []gapChord
	sides  int // the first chords are the outline's
	taken  []Gap
	tol    float64
	queue  gapQueue
	away   []geom.Point // scratch: the way from each near chord to a centre
	dist   []float64
	at     []float64
}

// gapSquare is a square of the quadtree.
type gapSquare struct {
	centre geom.Point
	half   float64
	// value is the radius of the empty circle about the centre, negative outside
	// the outline; no circle centred in the square is larger than bound.
	value, bound float64
	// near are the chords of which one is nearest wherever one stands in the square.
	near []int32
	// taken is the number of circles that bound and value reckon with.
	taken int
}

func (s *gapSearch) add(pl geom.Polyline) {
	for i := 1; i < len(pl); i++ {
		a, b := pl[i-1], pl[i]
		c := gapChord{a: a, length: geom.Dist(a, b)}
		if c.length > 0 {
			c.along = geom.Pt((b.X-a.X)/c.length, (b.Y-a.Y)/c.length)
		}
		s.chords = append(s.chords, c)
	}
}

// next returns the largest empty circle with a radius above least that overlaps
// none of those taken.
func (s *gapSearch) next(least float64) (Gap, bool) {
	best := Gap{Radius: least}
	found := false
	for len(s.queue) > 0 {
		q := s.queue[0]
		if s.update(q) {
			heap.Fix(&s.queue, 0)
			continue
		}
		if q.value > best.Radius {
			best, found = Gap{q.centre, q.value}, true
		}
		if found && q.bound <= best.Radius+s.tol {
			return best, true
		}
		heap.Pop(&s.queue)
		h := q.half / 2
		for i := range 4 {
			p := geom.Pt(q.centre.X+h*float64(i%2*2-1), q.centre.Y+h*float64(i/2*2-1))
			if c := s.look(p, h, q.near, least); c != nil && c.value > best.Radius {
				best, found = Gap{c.centre, c.value}, true
			}
		}
	}
	return best, found
}

// update makes q reckon with all circles taken, and tells whether its bound fell.
func (s *gapSearch) update(q *gapSquare) bool {
	before := q.bound
	for _, g := range s.taken[q.taken:] {
		d := geom.Dist(q.centre, g.Centre) - g.Radius
		q.value = math.Min(q.value, d)
		q.bound = math.Min(q.bound, d+q.half*math.Sqrt2)
	}
	q.taken = len(s.taken)
	return q.bound < before
}

// look puts the square into the queue, unless no circle in it is larger than least;
// then it returns nil. among are chords that hold all that can be nearest in it.
func (s *gapSearch) look(centre geom.Point, half float64, among []int32, least float64) *gapSquare {
	d := s.measure(centre, among)
	e := half * math.Sqrt2
	q := &gapSquare{centre: centre, half: half, value: d, bound: d + e}
	if s.hasOutline(among) && !s.inside(centre) {
		// A circle in the square has its centre beyond a side that runs through it,
		// which is one of those given.
		q.value, q.bound = -d, e-s.toOutline(among)
	}
	s.update(q)
	if q.bound <= least {
		return nil
	}
	q.near = s.within(among, d+2*e)
	if d > e {
		q.bound = math.Min(q.bound, s.closeBound(among, half, d+2*e))
	}
	if q.bound <= least {
		return nil
	}
	heap.Push(&s.queue, q)
	return q
}

// within returns the chords of which the distance noted is at most so much. Within
// a square no point is farther than d+e from the lines, d the distance of its
// centre, so that a chord more than d+2e from the centre is nowhere the nearest; a
// side of the outline that runs through the square is not among those left out.
func (s *gapSearch) within(among []int32, most float64) []int32 {
	n := 0
	for i := range among {
		if s.dist[i] <= most {
			n++
		}
	}
	near := make([]int32, 0, n)
	for i, k := range among {
		if s.dist[i] <= most {
			near = append(near, k)
		}
	}
	return near
}

// hasOutline tells whether a side of the outline is among the chords. Chords keep
// their order, so that the sides come first. Where there is none, all of the square
// lies on one side of the outline, and a square outside has been left out.
func (s *gapSearch) hasOutline(among []int32) bool {
	return len(among) > 0 && int(among[0]) < s.sides
}

// measure notes the distance of each chord from p and returns the least.
func (s *gapSearch) measure(p geom.Point, among []int32) float64 {
	least := math.Inf(1)
	for i, k := range among {
		away, at := s.chords[k].nearest(p)
		d := math.Sqrt(away.X*away.X + away.Y*away.Y)
		s.away[i], s.at[i], s.dist[i] = away, at, d
		least = math.Min(least, d)
	}
	return least
}

// toOutline returns the least of the distances noted that is to the outline.
func (s *gapSearch) toOutline(among []int32) float64 {
	least := math.Inf(1)
	for i, k := range among {
		if int(k) < s.sides {
			least = math.Min(least, s.dist[i])
		}
	}
	return least
}

// inside tells whether p lies in the outline: a ray from it crosses an odd number
// of sides.
func (s *gapSearch) inside(p geom.Point) bool {
	in := false
	for i := range s.chords[:s.sides] {
		c := &s.chords[i]
		by := c.a.Y + c.length*c.along.Y
		if (c.a.Y > p.Y) != (by > p.Y) && p.X < c.a.X+(p.Y-c.a.Y)/(by-c.a.Y)*c.length*c.along.X {
			in = !in
		}
	}
	return in
}

// gapQueue holds squares, that with the highest bound first.
type gapQueue []*gapSquare

func (q gapQueue) Len() int           { return len(q) }
func (q gapQueue) Less(i, k int) bool { return q[i].bound > q[k].bound }
func (q gapQueue) Swap(i, k int)      { q[i], q[k] = q[k], q[i] }
func (q *gapQueue) Push(x any)        { *q = append(*q, x.(*gapSquare)) }
func (q *gapQueue) Pop() any {
	old := *q
	last := old[len(old)-1]
	*q = old[:len(old)-1]
	return last
}
