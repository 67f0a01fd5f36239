package motif

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

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

// reachShare is the least turn in radians over which a radius is taken, some four
// chords of a curve of radius 1 mm: a single chord's turn hangs on where the curve
// happened to be halved.
const reachShare = 0.5

// Curvature measures a piece along its path. The radius is the length of path over
// the turn on it (the mean radius of the bend), taken over the shortest stretches
// that turn by half a radian; a bend that turns by less counts for nothing. Cost
// O(points).
func (p Piece) Curvature() Curvature {
	pl := p.Path.Compact()
	out := Curvature{Radius: math.Inf(1)}
	turns, legs := bends(pl)
	// The stretch from vertex i to vertex j, half of either's legs left out.
	i, sum, length := 0, 0.0, 0.0
	for j, t := range turns {
		out.Turning += math.Abs(t)
		if math.Abs(t) >= geom.CornerTurn {
			out.Corners++
			i, sum, length = j+1, 0, 0
			continue
		}
		if sum*t < 0 { // it turns the other way
			i, sum, length = j, 0, 0
		}
		sum += t
		if j > i {
			length += legs[j]
		}
		for i < j && math.Abs(sum-turns[i]) >= reachShare {
			sum -= turns[i]
			i++
			length -= legs[i]
		}
		if math.Abs(sum) >= reachShare && length > 0 {
			// n vertices turn by the arcs of n chords: n/(n-1) of the length between.
			n := float64(j - i + 1)
			out.Radius = math.Min(out.Radius, length*n/(n-1)/math.Abs(sum))
		}
	}
	return out
}

// bends returns the turn at each inner vertex, and of a closed line at the last
// too, with the length of the leg before each.
func bends(pl geom.Polyline) (turns, legs []float64) {
	for k := 1; k < len(pl); k++ {
		next := k + 1
		if k == len(pl)-1 {
			if r2.Norm(r2.Sub(pl[0], pl[k])) > 1e-6 {
				break
			}
			next = 1
		}
		turns = append(turns, geom.TurnAngle(pl[k-1], pl[k], pl[next]))
		legs = append(legs, geom.Dist(pl[k-1], pl[k]))
	}
	return turns, legs
}
