package motif

import (
	"math"
	"slices"

	"unthreaded/path/geom"
)

// squares is a box laid out in squares of one size; points beyond it count to the nearest
// square.
type squares struct {
	size       float64
	lo         geom.Point
	cols, rows int
}

func newSquares(lo, hi geom.Point, size float64) squares {
	return squares{size: size, lo: lo, cols: int((hi.X-lo.X)/size) + 1, rows: int((hi.Y-lo.Y)/size) + 1}
}

func (b *squares) cell(p geom.Point) (i, j int) {
	i, j = int(math.Floor((p.X-b.lo.X)/b.size)), int(math.Floor((p.Y-b.lo.Y)/b.size))
	return max(0, min(i, b.cols-1)), max(0, min(j, b.rows-1))
}

// buckets finds points near a place: they are sorted into squares one by one.
type buckets struct {
	squares
	of [][]int
}

// packed is buckets that are filled at once, many times over: the points of a square, and
// of squares side by side, lie one after the other in memory.
type packed struct {
	squares
	start []int // of each square in index and pts
	index []int
	pts   []geom.Point
}

// pack sorts points into squares. Cost O(points + squares); memory is used again.
func (b *packed) pack(sq squares, pts []geom.Point) {
	b.squares = sq
	n := sq.cols * sq.rows
	b.start = append(b.start[:0], make([]int, n+2)...)
	for _, p := range pts {
		i, j := b.cell(p)
		b.start[j*b.cols+i+2]++
	}
	for k := 2; k < n+2; k++ {
		b.start[k] += b.start[k-1]
	}
	b.index = slices.Grow(b.index[:0], len(pts))[:len(pts)]
	b.pts = slices.Grow(b.pts[:0], len(pts))[:len(pts)]
	for k, p := range pts {
		i, j := b.cell(p)
		at := &b.start[j*b.cols+i+1]
		b.index[*at], b.pts[*at] = k, p
		*at++
	}
}

// rowsNear calls do with the points of each row of squares within size mm of p, and some that
// are further away.
func (b *packed) rowsNear(p geom.Point, do func(index []int, pts []geom.Point)) {
	i, j := b.cell(p)
	for y := max(0, j-1); y <= min(b.rows-1, j+1); y++ {
		from, to := b.start[y*b.cols+max(0, i-1)], b.start[y*b.cols+min(b.cols-1, i+1)+1]
		do(b.index[from:to], b.pts[from:to])
	}
}

// newBuckets returns empty squares of size mm over the box from lo to hi.
func newBuckets(lo, hi geom.Point, size float64) *buckets {
	b := &buckets{squares: newSquares(lo, hi, size)}
	b.of = make([][]int, b.cols*b.rows)
	return b
}

// add puts a point, by its index, into its square.
func (b *buckets) add(index int, p geom.Point) {
	i, j := b.cell(p)
	b.of[j*b.cols+i] = append(b.of[j*b.cols+i], index)
}

// near calls do for all points within size mm of p, and some that are further
// away.
func (b *buckets) near(p geom.Point, do func(index int)) {
	i, j := b.cell(p)
	for y := max(0, j-1); y <= min(b.rows-1, j+1); y++ {
		for x := max(0, i-1); x <= min(b.cols-1, i+1); x++ {
			for _, index := range b.of[y*b.cols+x] {
				do(index)
			}
		}
	}
}

// ring calls do for the points in the squares k squares from that of p.
func (b *buckets) ring(p geom.Point, k int, do func(index int)) {
	i, j := b.cell(p)
	for y := max(0, j-k); y <= min(b.rows-1, j+k); y++ {
		step := 1
		if k > 0 && y != j-k && y != j+k {
			step = 2 * k
		}
		for x := i - k; x <= i+k; x += step {
			if x < 0 || x >= b.cols {
				continue
			}
			for _, index := range b.of[y*b.cols+x] {
				do(index)
			}
		}
	}
}
