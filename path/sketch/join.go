package sketch

import (
	"fmt"

	"unthreaded/path/geom"
)

// JoinEnds returns one line of two that have an end within gap mm of each other,
// whichever ends these are: b is reversed where it must be, a keeps its
// direction. The ends move to the middle between them, and their handles with
// them. Of several pairs of ends the closest is joined. It fails where none is
// close enough.
func JoinEnds(a, b geom.Spline, gap float64) (geom.Spline, error) {
	for i, s := range []geom.Spline{a, b} {
		if err := s.Validate(); err != nil {
			return nil, fmt.Errorf("line %d: %w", i, err)
		}
		if s.Closed() {
			return nil, fmt.Errorf("line %d is closed and has no end to join", i)
		}
	}
	turned := b.Reversed()
	pairs := [][2]geom.Spline{{a, b}, {a, turned}, {b, a}, {turned, a}}
	best := pairs[0]
	for _, c := range pairs[1:] {
		if apart(c) < apart(best) {
			best = c
		}
	}
	return best[0].Join(best[1], gap)
}

// apart is the distance in mm from the end of the first line to the start of the
// second.
func apart(c [2]geom.Spline) float64 { return geom.Dist(c[0][len(c[0])-1], c[1][0]) }

// Row returns n copies of the lines, each moved on by pitch from the one before,
// as for a row of blocks. Where a line of one copy ends within gap mm of where the
// same line of the next copy starts, the copies are joined to one line, the ends
// moved to the middle between them. Cost O(n x points).
func Row(lines []geom.Spline, n int, pitch geom.Point, gap float64) ([]geom.Spline, error) {
	if n < 1 || n > maxCopies {
		return nil, fmt.Errorf("%d copies: it takes 1 to %d", n, maxCopies)
	}
	if !geom.Finite(pitch) {
		return nil, fmt.Errorf("the pitch is not finite: %v", pitch)
	}
	var out []geom.Spline
	for i, s := range lines {
		if err := s.Validate(); err != nil {
			return nil, fmt.Errorf("line %d: %w", i, err)
		}
		run := clone(s)
		for k := 1; k < n; k++ {
			next := s.Map(Translate(pitch.X*float64(k), pitch.Y*float64(k)).Apply)
			joined, err := run.Join(next, gap)
			if s.Closed() || err != nil {
				out, run = append(out, run), next
				continue
			}
			run = joined
		}
		out = append(out, run)
	}
	return out, nil
}

// maxCopies bounds a row.
const maxCopies = 1000

// Snapped tells what SnapEnds did with one end of a line.
type Snapped struct {
	// Target counts the targets from 0; it is -1 where none was near.
	Target int
	// Moved is how far the end was moved, in mm.
	Moved float64
}

// SnapEnds returns the line with each end moved to the nearest of the targets (ends
// of other lines, dots) if that is at most within mm away, and what was done with
// its start and its end. Handles go along. Both ends of a short line never go to
// one target: the farther one stays. A closed line is left alone.
func SnapEnds(s geom.Spline, targets []geom.Point, within float64) (out geom.Spline, start, end Snapped, err error) {
	start, end = Snapped{Target: -1}, Snapped{Target: -1}
	if err := s.Validate(); err != nil {
		return nil, start, end, err
	}
	out = clone(s)
	if s.Closed() {
		return out, start, end, nil
	}
	start, end = snap(s[0], targets, within), snap(s[len(s)-1], targets, within)
	if start.Target >= 0 && start.Target == end.Target {
		if start.Moved <= end.Moved {
			end = Snapped{Target: -1}
		} else {
			start = Snapped{Target: -1}
		}
	}
	if start.Target >= 0 {
		out.SetNode(0, targets[start.Target])
	}
	if end.Target >= 0 {
		out.SetNode(s.Pieces(), targets[end.Target])
	}
	return out, start, end, nil
}

func snap(p geom.Point, targets []geom.Point, within float64) Snapped {
	i, d := NearestDot(targets, p)
	if i < 0 || d > within {
		return Snapped{Target: -1}
	}
	return Snapped{Target: i, Moved: d}
}

// NearestDot returns the index of the dot nearest to p and its distance in mm, or
// -1 for no dots.
func NearestDot(dots []geom.Point, p geom.Point) (i int, dist float64) {
	i = -1
	for k, q := range dots {
		if d := geom.Dist(p, q); i < 0 || d < dist {
			i, dist = k, d
		}
	}
	return i, dist
}
