package sketch

import (
	"errors"
	"fmt"
	"math"

	"unthreaded/path/geom"
)

// ErrDot tells that a stroke is a dot: it goes nowhere farther than the tolerance.
var ErrDot = errors.New("the stroke is a dot")

// Samples of a stroke are gathered to points so many to the scale, and at most so
// many in all; what is fitted is bounded by that whatever the stroke.
const (
	pointsPerScale = 8
	maxPoints      = 8000
)

// farAway bounds the coordinates in mm, so that sums and squares keep their digits.
const farAway = 1e6

// checkStroke reports a sample that is not finite or too far away, by its index, and
// gives ErrDot for no samples and for those all within tolerance mm of the first.
func checkStroke(stroke geom.Polyline, tolerance float64) error {
	extent := 0.0
	for i, p := range stroke {
		if !geom.Finite(p) {
			return fmt.Errorf("sample %d is not a finite place: %v", i, p)
		}
		if math.Abs(p.X) > farAway || math.Abs(p.Y) > farAway {
			return fmt.Errorf("sample %d lies farther than a kilometre away: %v", i, p)
		}
		extent = math.Max(extent, geom.Dist(p, stroke[0]))
	}
	if extent <= tolerance {
		return ErrDot
	}
	return nil
}

// condense gathers the samples of a stroke, which come unevenly and jitter, into
// points about an eighth of the scale apart: each is the mean of the samples that lie
// within that of the mean so far. A hand that rests leaves one point. The first and
// the last sample are kept as they are. Cost O(samples), twice for each halving that
// maxPoints asks for.
func condense(stroke geom.Polyline, scale float64) geom.Polyline {
	apart := scale / pointsPerScale
	for {
		out := gather(stroke, apart)
		if len(out) <= maxPoints {
			return out
		}
		apart *= 2
	}
}

func gather(stroke geom.Polyline, apart float64) geom.Polyline {
	var out geom.Polyline
	mean, n := stroke[0], 1.0
	for _, p := range stroke[1:] {
		if geom.Dist(p, mean) < apart {
			n++
			mean = geom.Lerp(mean, p, 1/n)
			continue
		}
		out = append(out, mean)
		mean, n = p, 1
	}
	// What is gathered about an end gives way to the end itself.
	last := stroke[len(stroke)-1]
	if len(out) == 0 || geom.Dist(mean, last) >= apart/2 {
		out = append(out, mean)
	}
	out[0] = stroke[0]
	return append(out, last).Compact()
}

// thinned leaves out the inner points of a part that lie within apart mm of its ends,
// which would turn the direction there by chance.
func thinned(pts geom.Polyline, apart float64) geom.Polyline {
	first, last := pts[0], pts[len(pts)-1]
	lo, hi := 1, len(pts)-1
	for lo < hi && geom.Dist(pts[lo], first) < apart {
		lo++
	}
	for hi > lo && geom.Dist(pts[hi-1], last) < apart {
		hi--
	}
	out := append(geom.Polyline{first}, pts[lo:hi]...)
	return append(out, last)
}
