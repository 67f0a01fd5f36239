package motif

import (
	"math"

	"unthreaded/path/geom"
)

// Curvature tells how a piece bends, between its corners.
type Curvature struct {
	// Radius is the smallest radius of a bend in mm; +Inf where nothing bends.
	Radius float64
	// Turning is the sum of all turns, either way, in radians, with the corners'.
	Turning float64
	// Corners counts the turns of at least geom.CornerTurn at one point, of a
	// closed piece also the one where it ends.
	Corners int
}

// leastTurn is the turn in radians over which a radius is taken, that of some four
// chords of a curve of radius 1 mm: one chord's turn hangs on where the curve
// happened to be halved.
const leastTurn = 0.5

// Curvature measures a piece along its path. The radius is the length of path over
// the turn on it (the mean radius of the bend), taken over the shortest stretches
// that turn by half a radian one way; a bend that turns by less counts for nothing.
// From 5 mm on the chords make it wrong by a tenth at most, at 1 mm by a sixth.
// Cost O(points).
func (p Piece) Curvature() Curvature {
	out := Curvature{Radius: math.Inf(1)}
	turns, legs := bends(p.Path.Compact())
	i, sum := 0, 0.0 // the stretch from vertex i turns by sum
	for j, t := range turns {
		out.Turning += math.Abs(t)
		if math.Abs(t) >= geom.CornerTurn {
			out.Corners++
			i, sum = j+1, 0
			continue
		}
		if sum*t < 0 { // it turns the other way
			i, sum = j, 0
		}
		sum += t
		for i < j && math.Abs(sum-turns[i]) >= leastTurn {
			sum -= turns[i]
			i++
		}
		if math.Abs(sum) >= leastTurn {
			out.Radius = math.Min(out.Radius, stretchLength(legs[i:j+2])/math.Abs(sum))
		}
	}
	return out
}

// stretchLength returns the length of the curve that belongs to the turns between
// legs: the inner legs and half of the two outer ones, which count for no more than
// the longest inner one, since they may be straight.
func stretchLength(legs []float64) float64 {
	first, last := legs[0], legs[len(legs)-1]
	most, sum := 0.0, 0.0
	for _, leg := range legs[1 : len(legs)-1] {
		most, sum = math.Max(most, leg), sum+leg
	}
	if most == 0 {
		most = math.Min(first, last)
	}
	return sum + (math.Min(first, most)+math.Min(last, most))/2
}

// bends returns the turn at each inner vertex, and of a closed line at the last
// too, and the lengths of the legs before, between and after them.
func bends(pl geom.Polyline) (turns, legs []float64) {
	if len(pl) < 2 {
		return nil, nil
	}
	legs = append(legs, geom.Dist(pl[0], pl[1]))
	for k := 1; k < len(pl); k++ {
		next := k + 1
		if k == len(pl)-1 {
			if geom.Dist(pl[0], pl[k]) > 1e-6 {
				break
			}
			next = 1
		}
		turns = append(turns, geom.TurnAngle(pl[k-1], pl[k], pl[next]))
		legs = append(legs, geom.Dist(pl[k], pl[next]))
	}
	return turns, legs
}
