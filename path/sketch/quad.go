package sketch

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
)

// leastTurn is the least turn in radians (1 degree) at a corner of a quad.
const leastTurn = math.Pi / 180

// CheckQuad tells, naming the corner counted from 1, why four points in a photo
// cannot be the corners of a block seen from above in the order upper left, upper
// right, lower right, lower left: one not finite, two in one place, three on one
// line, sides crossed, a corner pointing inwards, or the wrong way round.
func CheckQuad(quad [4]geom.Point) error {
	rightTurns := 0
	for i, p := range quad {
		prev, next := quad[(i+3)%4], quad[(i+1)%4]
		if !geom.Finite(p) {
			return fmt.Errorf("corner %d is not a finite place: %v", i+1, p)
		}
		if geom.Dist(p, next) < 1 {
			return fmt.Errorf("corners %d and %d lie in one place", i+1, (i+1)%4+1)
		}
		turn := geom.TurnAngle(prev, p, next)
		if math.Abs(turn) < leastTurn || math.Abs(turn) > math.Pi-leastTurn {
			return fmt.Errorf("corner %d lies on a line with its neighbours", i+1)
		}
		if turn > 0 {
			rightTurns++
		}
	}
	switch rightTurns {
	case 4:
		return nil
	case 0:
		return fmt.Errorf("the corners run anticlockwise: give upper left, upper right, lower right, lower left")
	case 2:
		return fmt.Errorf("two sides cross: give the corners in their order round the block")
	}
	return fmt.Errorf("a corner points inwards: a square block never looks like that")
}
