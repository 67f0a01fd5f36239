package sketch

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// jitter estimates the standard deviation in mm, each way, of points about the line
// that the hand meant. The sideways offsets of a point and of the next one, each from
// the line through its neighbours, differ by -1/2, 3/2, -3/2, 1/2 times four points
// for even spaces: an even bend cancels, and normal jitter makes the mean absolute
// difference sqrt(2/pi) sqrt(5) = 1.784 times its own deviation. The mean is taken of
// the lower nine tenths, without the corners; that of normal jitter is then 1.48
// times it (half-normal distribution cut at its 0.9 quantile, 1.645). Cost
// O(n log n).
func jitter(pts geom.Polyline) float64 {
	var off []float64
	last := 0.0
	for i := 1; i < len(pts)-1; i++ {
		along := r2.Sub(pts[i+1], pts[i-1])
		aside := 0.0
		if n := r2.Norm(along); n > 0 {
			aside = r2.Cross(along, r2.Sub(pts[i], pts[i-1])) / n
		}
		if i > 1 {
			off = append(off, math.Abs(aside-last))
		}
		last = aside
	}
	sort.Float64s(off)
	off = off[:len(off)-len(off)/10]
	mean := 0.0
	for _, d := range off {
		mean += d / float64(len(off))
	}
	return mean / 1.48
}

// clearSteps is how many times the jitter the steps between points must be, so that
// their order along the line is hardly ever turned round.
const clearSteps = 4

// average puts the middle of two neighbouring points in their place, as often as it
// takes until the mean step is clearSteps times the jitter, but not once steps are
// longer than a third of the scale: a pointer that reports a slow hand very often
// would otherwise seem to run to and fro. The ends stay. It returns the jitter and
// the mean step that are left. Cost O(n log n).
func average(stroke geom.Polyline, scale float64) (pts geom.Polyline, noise, step float64) {
	pts = stroke.Compact()
	for {
		noise, step = jitter(pts), pts.Length()/float64(len(pts)-1)
		if step >= clearSteps*noise || step >= scale/3 || len(pts) < fewToAverage {
			return pts, noise, step
		}
		half := geom.Polyline{pts[0]}
		for i := 1; i+1 < len(pts)-1; i += 2 {
			half = append(half, geom.Lerp(pts[i], pts[i+1], 0.5))
		}
		pts = append(half, pts[len(pts)-1])
	}
}

// fewToAverage is the number of points below which none are averaged.
const fewToAverage = 16

// sureWithin is the standard deviation in radians (8 degrees) up to which the
// direction of the points over half the scale must be known.
const sureWithin = 0.14

// scaleFor returns the scale in mm that the jitter and the step of the points ask
// for: the slope of n points with deviation s over a length L has deviation s
// sqrt(12/n)/L. It is at least scale and at most twice that.
func scaleFor(scale, noise, step float64) float64 {
	half := math.Cbrt(12 * step * noise * noise / (sureWithin * sureWithin))
	return math.Max(scale, math.Min(2*scale, 2*half))
}
