package sketch

import (
	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// A stroke is closed only if the gap between its ends is at most this share of its
// length, so that a short dash or a narrow U is not.
const gapShare = 1.0 / 8

// fadeOver is the length, in gaps, over which each end is drawn to the middle of
// the gap: the direction of the stroke changes by 1/20 (3 degrees) at most.
const fadeOver = 10

// fewest is the least number of points that make a loop.
const fewest = 4

// closeLoop returns the points of a stroke whose ends meet within o.Close as a
// loop, without its last point, which is its first. A hand that ran on past the
// start is cut where it passed nearest; the gap that is left is shared out over
// the parts next to it, so that no kink comes of it. ok is false for an open
// stroke.
func closeLoop(pts geom.Polyline, o Options) (loop geom.Polyline, ok bool) {
	start := pts[0]
	gap := geom.Dist(start, pts[len(pts)-1])
	if gap > o.Close || gap > gapShare*pts.Length() {
		return nil, false
	}
	end := len(pts) - 1
	for k := end; k > len(pts)/2 && geom.Dist(pts[k], start) <= o.Close; k-- {
		if geom.Dist(pts[k], start) < geom.Dist(pts[end], start) {
			end = k
		}
	}
	loop = append(geom.Polyline{}, pts[:end+1]...)
	if len(loop) < fewest {
		return nil, false
	}
	shareGap(loop)
	return loop[:end], true
}

// shareGap moves both ends of the loop, in place, to the middle between them, and
// the points next to them by less and less.
func shareGap(loop geom.Polyline) {
	last := len(loop) - 1
	gap := r2.Sub(loop[last], loop[0])
	at := loop.Cumulative()
	fade := min(at[last]/2, fadeOver*r2.Norm(gap))
	for i := range loop {
		if s := at[i]; s < fade {
			loop[i] = r2.Add(loop[i], r2.Scale(0.5*(1-s/fade), gap))
		}
		if s := at[last] - at[i]; s < fade {
			loop[i] = r2.Sub(loop[i], r2.Scale(0.5*(1-s/fade), gap))
		}
	}
	loop[last] = loop[0]
}
