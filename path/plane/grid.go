package plane

import (
	"math"
	"math/bits"

	"unthreaded/path/geom"
)

// Grid is the spacing in mm of the grid on which all junctions lie: a tenth of
// a micrometre. Drawings come in micrometres, and lines that miss each other by
// one must not be thrown together; far below that, the grid lets the noding be
// done in whole numbers without any rounding of its own.
const Grid = 1.0 / perMM

const perMM = 10000

// MaxPlace is the largest coordinate in mm that Build accepts, either way. Ten
// metres hold any quilt, and with them no product below exceeds 2^60.
const MaxPlace = 10000

// gridPoint is a point in units of Grid. Round it stands its pixel: the points
// that round to it, [x-1/2, x+1/2) by [y-1/2, y+1/2).
type gridPoint struct{ x, y int64 }

func toGrid(p geom.Point) gridPoint {
	return gridPoint{int64(math.Floor(p.X*perMM + 0.5)), int64(math.Floor(p.Y*perMM + 0.5))}
}

func (p gridPoint) mm() geom.Point {
	return geom.Pt(float64(p.x)/perMM, float64(p.y)/perMM)
}

func (p gridPoint) less(q gridPoint) bool {
	return p.x < q.x || p.x == q.x && p.y < q.y
}

// gap returns the distance between two points in mm.
func (p gridPoint) gap(q gridPoint) float64 {
	return math.Hypot(float64(p.x-q.x), float64(p.y-q.y)) / perMM
}

// cross returns (b-a) x (c-a): positive where c lies clockwise of a-b to the
// eye, 0 where the three are in line. Exact.
func cross(a, b, c gridPoint) int64 {
	return (b.x-a.x)*(c.y-a.y) - (b.y-a.y)*(c.x-a.x)
}

// dot returns (b-a) . (c-a). Exact.
func dot(a, b, c gridPoint) int64 {
	return (b.x-a.x)*(c.x-a.x) + (b.y-a.y)*(c.y-a.y)
}

// crossing returns the grid point to which the common point of the segments a-b
// and c-d rounds, if each has the ends of the other strictly on its two sides.
// Exact: the quotient is taken with 128 bits.
func crossing(a, b, c, d gridPoint) (gridPoint, bool) {
	atC, atD := cross(a, b, c), cross(a, b, d)
	if !opposite(atC, atD) || !opposite(cross(c, d, a), cross(c, d, b)) {
		return gridPoint{}, false
	}
	den := atC - atD
	return gridPoint{
		c.x + roundedRatio(d.x-c.x, atC, den),
		c.y + roundedRatio(d.y-c.y, atC, den),
	}, true
}

func opposite(a, b int64) bool { return a < 0 && b > 0 || a > 0 && b < 0 }

// roundedRatio returns floor(a*b/c + 1/2) for |b| <= |c|, c not 0.
func roundedRatio(a, b, c int64) int64 {
	hi, lo := bits.Mul64(magnitude(a), magnitude(b))
	q, r := bits.Div64(hi, lo, magnitude(c))
	half := 2*r > magnitude(c)
	if negative := (a < 0) != (b < 0) != (c < 0); negative {
		if half {
			q++
		}
		return -int64(q)
	}
	if half || 2*r == magnitude(c) {
		q++
	}
	return int64(q)
}

func magnitude(a int64) uint64 {
	if a < 0 {
		return uint64(-a)
	}
	return uint64(a)
}

// hitBy tells whether the segment a-b between grid points passes through the
// pixel of h. Exact. A segment that is not upright or level passes through the
// inside of the pixel when two corners lie strictly on its two sides; the only
// corner that belongs to the pixel is the one with the least coordinates.
func (h gridPoint) hitBy(a, b gridPoint) bool {
	if h.x < min(a.x, b.x) || h.x > max(a.x, b.x) || h.y < min(a.y, b.y) || h.y > max(a.y, b.y) {
		return false
	}
	a2, b2 := gridPoint{2 * a.x, 2 * a.y}, gridPoint{2 * b.x, 2 * b.y}
	least := cross(a2, b2, gridPoint{2*h.x - 1, 2*h.y - 1})
	lo, hi := least, least
	for _, c := range [3]gridPoint{{2*h.x + 1, 2*h.y - 1}, {2*h.x - 1, 2*h.y + 1}, {2*h.x + 1, 2*h.y + 1}} {
		s := cross(a2, b2, c)
		lo, hi = min(lo, s), max(hi, s)
	}
	return lo < 0 && hi > 0 || least == 0
}
