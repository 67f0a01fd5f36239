package plane

import (
	"math"
	"slices"

	"github.com/peterstace/simplefeatures/rtree"

	"unthreaded/path/geom"
)

// The search begins with a grid of squares, so many that about gapLoad chords lie in
// each, and at most gapStarts a side: what the index would cost more than it saves.
const (
	gapLoad   = 64
	gapStarts = 64
)

// gapIndex finds chords by place; runLength neighbours share an entry.
type gapIndex struct {
	tree   *rtree.RTree
	chords []gapChord
	boxes  []rtree.Box // of the entries
}

func newGapIndex(chords []gapChord) gapIndex {
	var items []rtree.BulkItem
	var boxes []rtree.Box
	for low := 0; low < len(chords); low += runLength {
		run := chords[low:min(low+runLength, len(chords))]
		box := run[0].box()
		for _, c := range run[1:] {
			b := c.box()
			box = rtree.Box{
				MinX: math.Min(box.MinX, b.MinX), MinY: math.Min(box.MinY, b.MinY),
				MaxX: math.Max(box.MaxX, b.MaxX), MaxY: math.Max(box.MaxY, b.MaxY),
			}
		}
		boxes = append(boxes, box)
		items = append(items, rtree.BulkItem{Box: box, RecordID: low})
	}
	return gapIndex{rtree.BulkLoad(items), chords, boxes}
}

func (c *gapChord) box() rtree.Box {
	x, y := c.a.X+c.length*c.along.X, c.a.Y+c.length*c.along.Y
	return rtree.Box{MinX: math.Min(c.a.X, x), MinY: math.Min(c.a.Y, y), MaxX: math.Max(c.a.X, x), MaxY: math.Max(c.a.Y, y)}
}

// run calls f for the chords of an entry.
func (g gapIndex) run(low int, f func(i int)) {
	for i := low; i < min(low+runLength, len(g.chords)); i++ {
		f(i)
	}
}

// near returns chords, ascending, that hold all which can be the nearest anywhere in
// the square. Cost O(log n + chords returned).
func (g gapIndex) near(centre geom.Point, half float64) []int32 {
	reach := half + g.distance(centre) + half*math.Sqrt2
	box := rtree.Box{MinX: centre.X - reach, MinY: centre.Y - reach, MaxX: centre.X + reach, MaxY: centre.Y + reach}
	var out []int32
	search(g.tree, box, func(low int) { g.run(low, func(i int) { out = append(out, int32(i)) }) })
	slices.Sort(out)
	return out
}

// distance returns that of the nearest chord, looked for in the order of the entries'
// boxes.
func (g gapIndex) distance(p geom.Point) float64 {
	least := math.Inf(1)
	at := rtree.Box{MinX: p.X, MinY: p.Y, MaxX: p.X, MaxY: p.Y}
	// The only error is the one that ends the search.
	_ = g.tree.PrioritySearch(at, func(low int) error {
		b := g.boxes[low/runLength]
		x, y := math.Max(b.MinX-p.X, p.X-b.MaxX), math.Max(b.MinY-p.Y, p.Y-b.MaxY)
		if math.Hypot(math.Max(0, x), math.Max(0, y)) >= least {
			return rtree.Stop
		}
		g.run(low, func(i int) {
			away, _ := g.chords[i].nearest(p)
			least = math.Min(least, math.Hypot(away.X, away.Y))
		})
		return nil
	})
	return least
}

// start puts a grid of squares over the outline's box into the queue.
func (s *gapSearch) start(within geom.Polyline) {
	lo, hi := within.Bounds()
	w, h := hi.X-lo.X, hi.Y-lo.Y
	n := float64(max(1, min(gapStarts, int(math.Sqrt(float64(len(s.chords))/gapLoad)))))
	half := math.Max(w, h) / n / 2
	index := newGapIndex(s.chords)
	s.away = make([]geom.Point, len(s.chords))
	s.dist, s.at = make([]float64, len(s.chords)), make([]float64, len(s.chords))
	for y := lo.Y + half; y-half < hi.Y; y += 2 * half {
		for x := lo.X + half; x-half < hi.X; x += 2 * half {
			p := geom.Pt(x, y)
			if near := index.near(p, half); s.hasOutline(near) || s.inside(p) {
				s.look(p, half, near, 0)
			}
		}
	}
}
