package trace

import (
	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// UnderNeedle returns the place on the cloth that is under a needle that stands still, where
// the hand moves the cloth: the pointer is at p and took hold of the cloth at first, while
// the needle was at start. Pushing the cloth right makes the line grow to the left. All in mm.
func UnderNeedle(start, first, p geom.Point) geom.Point {
	return r2.Sub(start, r2.Sub(p, first))
}
