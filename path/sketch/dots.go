package sketch

import (
	"fmt"

	"unthreaded/path/geom"
)

// Spread tells where evenly spaced dots lie on a line.
type Spread string

// The spreads. n dots make n-1 spaces with a dot on either end, n+1 spaces with
// none on the ends, and n spaces with half a space before the first and after the
// last, or with a dot on the start and none on the end (round a closed line).
const (
	WithEnds    Spread = "with-ends"
	BetweenEnds Spread = "between-ends"
	HalfSpace   Spread = "half-space"
	FromStart   Spread = "from-start"
)

// MaxDots bounds the dots on one line.
const MaxDots = 2000

// EvenDots returns the arc lengths in mm, ascending, of n evenly spaced dots on a
// line of the given length in mm.
func EvenDots(length float64, n int, spread Spread) ([]float64, error) {
	first, space, err := spacing(length, n, spread)
	if err != nil {
		return nil, err
	}
	out := make([]float64, n)
	for k := range out {
		out[k] = first + float64(k)*space
	}
	if spread == WithEnds {
		out[n-1] = length
	}
	return out, nil
}

// spacing returns the arc length of the first dot and the space between dots.
func spacing(length float64, n int, spread Spread) (first, space float64, err error) {
	if !(length > 0) || length > 1e6 {
		return 0, 0, fmt.Errorf("dots on a line of %v mm", length)
	}
	if n < 1 || n > MaxDots {
		return 0, 0, fmt.Errorf("%d dots: it takes 1 to %d", n, MaxDots)
	}
	switch spread {
	case WithEnds:
		if n < 2 {
			return 0, 0, fmt.Errorf("%d dot cannot lie on both ends", n)
		}
		return 0, length / float64(n-1), nil
	case BetweenEnds:
		return length / float64(n+1), length / float64(n+1), nil
	case HalfSpace:
		return length / float64(2*n), length / float64(n), nil
	case FromStart:
		return 0, length / float64(n), nil
	}
	return 0, 0, fmt.Errorf("no spread of dots is called %q", spread)
}

// DotsOn returns n evenly spaced dots on a line, measured along it. The arc lengths
// for geom.Line.WithDots are those of EvenDots with the line's length.
func DotsOn(l geom.Line, n int, spread Spread) ([]geom.Point, error) {
	at, err := EvenDots(l.Length(), n, spread)
	if err != nil {
		return nil, err
	}
	out := make([]geom.Point, n)
	for k, s := range at {
		out[k] = l.At(s)
	}
	return out, nil
}

// DotToDot returns the straight line from dot to dot in the order given, for ruler
// work; closed leads back to the first. It names the dot that repeats the one
// before it, since the ruler has no direction there.
func DotToDot(dots []geom.Point, closed bool) (geom.Spline, error) {
	pl := append(geom.Polyline{}, dots...)
	if closed && len(dots) > 0 {
		pl = append(pl, dots[0])
	}
	if len(dots) < 2 {
		return nil, fmt.Errorf("a line from dot to dot takes 2 dots, there are %d", len(dots))
	}
	for i, p := range pl {
		if !geom.Finite(p) {
			return nil, fmt.Errorf("dot %d is not a finite place: %v", i, p)
		}
		if i > 0 && geom.Dist(p, pl[i-1]) < sameDot {
			return nil, fmt.Errorf("dot %d lies where dot %d does", i%len(dots), i-1)
		}
	}
	return geom.Straight(pl), nil
}

// sameDot is the distance in mm, a tenth of a fine pencil line, below which two
// dots are one.
const sameDot = 0.05
