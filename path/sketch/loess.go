package sketch

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// run is a part of a stroke between two corners: points in order, and their arc
// lengths. A loop is a closed stroke without corners: its points go round and
// period is its length.
type run struct {
	pts    []geom.Point
	at     []float64
	period float64
}

// neighbours is the least number of points on each side that a smoothed value rests
// on, or twice as many on the one side there is: three points fix a parabola. So
// sparse samples stay where they are.
const neighbours = 1

// manyNeighbours bounds the points looked at on each side, should they be much
// closer together than condense leaves them.
const manyNeighbours = 4 * pointsPerScale

// smooth returns the smoothed place of point i and the direction of travel there
// as the derivative by arc length: a parabola for each coordinate through the
// points within scale mm, weighted by the tricube of their distance along the run
// (local regression: W. S. Cleveland, J. American Statistical Association 74,
// 1979; here of degree 2, without its robust rounds). A parabola flattens the
// bend of a curve by a fourth-order term only. Cost O(points within scale).
func (r run) smooth(i int, scale float64) (place, slope geom.Point) {
	lo, hi, reach := r.window(i, scale)
	var m [5]float64
	var v [3]geom.Point
	for k := lo; k <= hi; k++ {
		p, s := r.get(k)
		x := (s - r.at[i]) / reach
		w := tricube(x)
		for pow, xp := 0, w; pow < 5; pow, xp = pow+1, xp*x {
			m[pow] += xp
			if pow < 3 {
				v[pow] = r2.Add(v[pow], r2.Scale(xp, p))
			}
		}
	}
	place, slope, ok := parabola(m, v)
	if !ok {
		return r.pts[i], geom.Point{}
	}
	return place, r2.Scale(1/reach, slope)
}

// window returns the first and last point of the neighbourhood of point i and its
// reach in mm: scale, or farther where points are sparse.
func (r run) window(i int, scale float64) (lo, hi int, reach float64) {
	reach = scale
	few := neighbours
	if !r.has(i-1, i) || !r.has(i+1, i) {
		few = 2 * neighbours
	}
	grow := func(step int) int {
		k := i
		for n := 1; n <= manyNeighbours && r.has(k+step, i); n++ {
			_, s := r.get(k + step)
			d := math.Abs(s - r.at[i])
			if d >= scale && n > few {
				break
			}
			k, reach = k+step, math.Max(reach, withWeight*d)
		}
		return k
	}
	return grow(-1), grow(1), reach
}

// withWeight lets the farthest of too few points have some weight, a ninth.
const withWeight = 1.25

// has tells whether there is a point k; a loop is not walked more than half way
// round from point i.
func (r run) has(k, i int) bool {
	if r.period == 0 {
		return k >= 0 && k < len(r.pts)
	}
	return 2*max(k-i, i-k) < len(r.pts)
}

// get returns point k and its arc length, k going round where the run is a loop.
func (r run) get(k int) (geom.Point, float64) {
	n := len(r.pts)
	turns := math.Floor(float64(k) / float64(n))
	k -= int(turns) * n
	return r.pts[k], r.at[k] + turns*r.period
}

// tricube is Cleveland's weight (1 - |x|^3)^3.
func tricube(x float64) float64 {
	c := 1 - math.Abs(x*x*x)
	if c <= 0 {
		return 0
	}
	return c * c * c
}

// parabola solves the normal equations of weighted least squares for a + b x + c
// x^2, given the sums m of w x^k and v of w x^k p, and returns a and b: Cramer's
// rule, the 3 x 3 matrix being that of the sums. ok is false where it is as good as
// singular.
func parabola(m [5]float64, v [3]geom.Point) (a, b geom.Point, ok bool) {
	c00, c01, c02 := m[2]*m[4]-m[3]*m[3], m[2]*m[3]-m[1]*m[4], m[1]*m[3]-m[2]*m[2]
	det := m[0]*c00 + m[1]*c01 + m[2]*c02
	if det <= 1e-12*m[0]*m[2]*m[4] {
		return a, b, false
	}
	c11, c12 := m[0]*m[4]-m[2]*m[2], m[1]*m[2]-m[0]*m[3]
	combine := func(x, y, z float64) geom.Point {
		return r2.Scale(1/det, r2.Add(r2.Add(r2.Scale(x, v[0]), r2.Scale(y, v[1])), r2.Scale(z, v[2])))
	}
	return combine(c00, c01, c02), combine(c01, c11, c12), true
}
