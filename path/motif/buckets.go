package motif

import (
	"math"

	"unthreaded/path/geom"
)

// buckets finds points near a place: they are sorted into squares of one size.
type buckets struct {
	size       float64
	lo         geom.Point
	cols, rows int
	of         [][]int
}

// newBuckets returns empty squares of size mm over the box from lo to hi; points
// beyond it count to the nearest square.
func newBuckets(lo, hi geom.Point, size float64) *buckets {
	b := &buckets{size: size, lo: lo}
	b.cols, b.rows = int((hi.X-lo.X)/size)+1, int((hi.Y-lo.Y)/size)+1
	b.of = make([][]int, b.cols*b.rows)
	return b
}

func (b *buckets) cell(p geom.Point) (i, j int) {
	i, j = int(math.Floor((p.X-b.lo.X)/b.size)), int(math.Floor((p.Y-b.lo.Y)/b.size))
	return max(0, min(i, b.cols-1)), max(0, min(j, b.rows-1))
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
