package sketch

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// Grab returns the index of the point of the line (a node, or a handle of the node
// numbered node) nearest to p, at most within mm away; ok is false where there is
// none. Of a node and a handle in one place the node is taken. Handles of other
// nodes and of straight pieces are left out: they are not shown. node is less than
// 0 for none. Cost O(points).
func Grab(s geom.Spline, p geom.Point, within float64, node int) (i int, ok bool) {
	best := within
	for k, q := range s {
		if d := geom.Dist(p, q); k%3 == 0 && (d < best || !ok && d <= best) {
			i, ok, best = k, true, d
		}
	}
	for k, q := range s {
		if k%3 == 0 || node < 0 || NodeOf(k) != node || isStraight(s, k/3) {
			continue
		}
		if d := geom.Dist(p, q); d < best {
			i, ok, best = k, true, d
		}
	}
	return i, ok
}

// Hit is a place on one of several lines.
type Hit struct {
	// Line counts the lines from 0.
	Line int
	geom.Spot
}

// Pick returns the place nearest to p on any of the lines, at most within mm away;
// ok is false where there is none. Cost that of geom.Spline.Nearest for each line.
func Pick(lines []geom.Spline, p geom.Point, within float64) (hit Hit, ok bool) {
	for i, s := range lines {
		if s.Pieces() == 0 {
			continue
		}
		if spot := s.Nearest(p); spot.Dist <= within && (!ok || spot.Dist < hit.Dist) {
			hit, ok = Hit{i, spot}, true
		}
	}
	return hit, ok
}

// InsertNode returns the line with a node added on the given piece at t in (0, 1),
// and the number of the node. The course of the line does not change.
func InsertNode(s geom.Spline, piece int, t float64) (geom.Spline, int, error) {
	if err := s.Validate(); err != nil {
		return nil, 0, err
	}
	if t == 0 || t == 1 {
		return nil, 0, fmt.Errorf("piece %d: there is a node at %v already", piece, t)
	}
	before, after, err := s.Split(piece, t)
	if err != nil {
		return nil, 0, err
	}
	return append(before, after[1:]...), piece + 1, nil
}

// DeleteNode returns the line without node k. At an end of an open line the last
// piece goes. Elsewhere the two pieces beside it become the one cubic that leaves
// and arrives in the same directions and lies closest to them; two straight
// pieces become one. The node where a closed line starts is deleted likewise. It
// fails where no piece would be left.
func DeleteNode(s geom.Spline, k int) (geom.Spline, error) {
	if err := checkNode(s, k); err != nil {
		return nil, err
	}
	n := s.Pieces()
	if n < 2 {
		return nil, fmt.Errorf("node %d: a line of one piece cannot lose a node", k)
	}
	switch closed := s.Closed(); {
	case k == 0 && !closed:
		return clone(s[3:]), nil
	case k == n && !closed:
		return clone(s[:len(s)-3]), nil
	case k == 0 || k == n:
		turned, err := StartAt(s, 1)
		if err != nil {
			return nil, err
		}
		s, k = turned, n-1
	}
	out := clone(s[:3*k-2])
	out = append(out, bridge(s[3*k-3:3*k+4])...)
	return append(out, s[3*k+4:]...), nil
}

// bridge returns the points after the first of the one cubic that takes the place
// of a line of two pieces.
func bridge(s geom.Spline) []geom.Point {
	if isStraight(s, 0) && isStraight(s, 1) {
		return geom.Straight(geom.Polyline{s[0], s[6]})[1:]
	}
	const samples = 24
	var pts geom.Polyline
	for piece := range 2 {
		for k := range samples {
			pts = append(pts, s.At(piece, float64(k)/samples))
		}
	}
	pts = append(pts, s[6])
	c, _, _ := fitCubic(pts, s.Tangent(0, 0), r2.Scale(-1, s.Tangent(1, 1)), 0)
	return c[1:]
}

// StartAt returns the closed line walked from node k.
func StartAt(s geom.Spline, k int) (geom.Spline, error) {
	if err := checkNode(s, k); err != nil {
		return nil, err
	}
	if !s.Closed() {
		return nil, fmt.Errorf("node %d: only a closed line can start anywhere", k)
	}
	return append(clone(s[3*k:]), s[1:3*k+1]...), nil
}

// Close returns the line closed. Ends within gap mm of each other move to the
// middle between them, their handles with them; others are joined by a straight
// piece. A closed line comes back as it is, with its ends in exactly one place.
func Close(s geom.Spline, gap float64) (geom.Spline, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	out := clone(s)
	start, end := s[0], s[len(s)-1]
	if d := geom.Dist(start, end); d > gap && !s.Closed() {
		return out.LineTo(start), nil
	}
	meet := geom.Lerp(start, end, 0.5)
	out.SetNode(0, meet)
	out.SetNode(s.Pieces(), meet)
	if !out.Closed() {
		return nil, fmt.Errorf("a line no longer than the gap of %.3f mm that is to be closed", gap)
	}
	return out, nil
}
