package sketch

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// Joint tells how two pieces meet in a node.
type Joint int

// The joints: in a corner the handles are free of each other; in a smooth node
// they lie on one straight line through it, so that the direction runs on (G1).
const (
	Corner Joint = iota
	Smooth
)

// smoothWithin is the angle in radians (0.6 degrees) between incoming and outgoing
// direction up to which a node counts as smooth: far below what is seen, far above
// what rounding to 0.01 mm in a file does to a handle of a few mm.
const smoothWithin = 0.01

// JointAt tells how node k is joined. The ends of an open line are corners.
func JointAt(s geom.Spline, k int) (Joint, error) {
	if err := checkNode(s, k); err != nil {
		return Corner, err
	}
	before, after, ok := sides(s, k)
	if !ok {
		return Corner, nil
	}
	in, out := s.Tangent(before, 1), s.Tangent(after, 0)
	if in == (geom.Point{}) || out == (geom.Point{}) || angleBetween(in, out) > smoothWithin {
		return Corner, nil
	}
	return Smooth, nil
}

// MoveNode returns the line with node k moved to p. Its handles go along; a
// straight piece beside it stays straight, and where it runs smoothly on into a
// curve the handle of the curve is turned to follow it. Node 0 and the last node
// of a closed line move together.
func MoveNode(s geom.Spline, k int, p geom.Point) (geom.Spline, error) {
	joint, err := JointAt(s, k)
	if err != nil {
		return nil, err
	}
	if !geom.Finite(p) {
		return nil, fmt.Errorf("node %d: its new place is not finite: %v", k, p)
	}
	out := clone(s)
	closed := s.Closed()
	out.SetNode(k, p)
	if n := s.Pieces(); closed && (k == 0 || k == n) {
		out.SetNode(n-k, p)
	}
	if joint == Smooth {
		realign(s, out, k)
	}
	return out, nil
}

// realign turns the handle of a curve so that it runs on from the straight piece
// on the other side of node k of out, which was straight in s too.
func realign(s, out geom.Spline, k int) {
	before, after, _ := sides(s, k)
	in, away := 3*before+2, 3*after+1
	switch straightIn, straightOut := isStraight(s, before), isStraight(s, after); {
	case straightIn && !straightOut:
		turnHandle(out, away, out.Tangent(before, 1))
	case straightOut && !straightIn:
		turnHandle(out, in, r2.Scale(-1, out.Tangent(after, 0)))
	}
}

// MoveHandle returns the line with the handle at point i of it moved to p. With
// Smooth the handle on the other side of its node is turned to lie opposite and
// keeps its length; with Corner nothing else moves. Pass JointAt of the handle's
// node (see NodeOf) to keep it as it is.
func MoveHandle(s geom.Spline, i int, p geom.Point, keep Joint) (geom.Spline, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	if i < 0 || i >= len(s) || i%3 == 0 {
		return nil, fmt.Errorf("point %d of a line of %d points is no handle", i, len(s))
	}
	if !geom.Finite(p) {
		return nil, fmt.Errorf("handle %d: its new place is not finite: %v", i, p)
	}
	out := clone(s)
	out[i] = p
	node := NodeOf(i)
	before, after, ok := sides(s, node)
	if keep == Corner || !ok {
		return out, nil
	}
	away := r2.Sub(s[3*node], p)
	if r2.Norm(away) == 0 {
		return out, nil
	}
	opposite := 3*after + 1
	if i == opposite {
		opposite = 3*before + 2
	}
	turnHandle(out, opposite, r2.Unit(away))
	return out, nil
}

// NodeOf returns the node to which point i of a line belongs: itself for a node,
// the neighbour for a handle.
func NodeOf(i int) int { return (i + 1) / 3 }

// turnHandle turns the handle at point i, in place, to the unit direction from its
// node, keeping its length.
func turnHandle(s geom.Spline, i int, direction geom.Point) {
	node := s[3*NodeOf(i)]
	s[i] = r2.Add(node, r2.Scale(geom.Dist(node, s[i]), direction))
}

// MakeSmooth returns the line with node k smooth. The direction is that of the
// straight piece if one side is straight and the other is not, else the middle of
// both directions, else (where they are opposite) that from one neighbouring node
// to the other. Handles keep their length; one that has none gets a third of its
// piece's. It fails where a piece beside the node has no length.
func MakeSmooth(s geom.Spline, k int) (geom.Spline, error) {
	if err := checkNode(s, k); err != nil {
		return nil, err
	}
	before, after, ok := sides(s, k)
	if !ok {
		return nil, fmt.Errorf("node %d is an end of the line: there is nothing to join smoothly", k)
	}
	direction := through(s, before, after)
	out := clone(s)
	for _, h := range []struct {
		point, piece int
		sign         float64
	}{{3*before + 2, before, -1}, {3*after + 1, after, 1}} {
		node := s[3*NodeOf(h.point)]
		length := geom.Dist(s[h.point], node)
		if length < shortHandle {
			length = s.PieceLength(h.piece) / 3
		}
		if length < shortHandle {
			return nil, fmt.Errorf("node %d: piece %d beside it has no length", k, h.piece)
		}
		out[h.point] = r2.Add(node, r2.Scale(h.sign*length, direction))
	}
	return out, nil
}

// shortHandle is the length in mm below which a handle counts as pulled in.
const shortHandle = 1e-6

// through chooses the direction in which a smooth line passes from piece before to
// piece after.
func through(s geom.Spline, before, after int) geom.Point {
	in, out := s.Tangent(before, 1), s.Tangent(after, 0)
	straightIn, straightOut := isStraight(s, before), isStraight(s, after)
	switch {
	case straightIn && !straightOut:
		return in
	case straightOut && !straightIn:
		return out
	}
	middle := r2.Add(in, out)
	if straightIn && straightOut || r2.Norm(middle) < smoothWithin {
		middle = r2.Sub(s[3*after+3], s[3*before])
	}
	if r2.Norm(middle) == 0 {
		return out
	}
	return r2.Unit(middle)
}

// MakeCorner returns the line with node k a corner: each of its handles is laid on
// the way to the neighbouring node, a third of it long, so that a piece with
// corners at both ends is straight. An end of an open line may be given too.
func MakeCorner(s geom.Spline, k int) (geom.Spline, error) {
	if err := checkNode(s, k); err != nil {
		return nil, err
	}
	out := clone(s)
	nodes := []int{k}
	if n := s.Pieces(); s.Closed() && (k == 0 || k == n) {
		nodes = []int{0, n}
	}
	for _, k := range nodes {
		if k > 0 {
			out[3*k-1] = geom.Lerp(s[3*k], s[3*k-3], 1.0/3)
		}
		if k < s.Pieces() {
			out[3*k+1] = geom.Lerp(s[3*k], s[3*k+3], 1.0/3)
		}
	}
	return out, nil
}

// sides returns the pieces before and after node k, wrapping round where the line
// is closed; ok is false for the end of an open line.
func sides(s geom.Spline, k int) (before, after int, ok bool) {
	n := s.Pieces()
	if k > 0 && k < n {
		return k - 1, k, true
	}
	return n - 1, 0, s.Closed()
}

func checkNode(s geom.Spline, k int) error {
	if err := s.Validate(); err != nil {
		return err
	}
	if k < 0 || k > s.Pieces() {
		return fmt.Errorf("node %d of a line of %d nodes", k, s.Pieces()+1)
	}
	return nil
}

func isStraight(s geom.Spline, piece int) bool { return s.IsStraight(piece, 1e-6) }

func clone(s geom.Spline) geom.Spline { return append(geom.Spline{}, s...) }

// angleBetween returns the angle in [0, pi] between two directions.
func angleBetween(u, v geom.Point) float64 {
	return math.Abs(math.Atan2(r2.Cross(u, v), r2.Dot(u, v)))
}
