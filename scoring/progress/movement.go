package progress

import (
	"math"

	"unthreaded/scoring"
)

// Movement is a kind of place on a line, by what the hand does there.
type Movement string

// The movements. A piece of line belongs to the first that fits, in this order;
// what lies between them, as short straight pieces, belongs to none.
const (
	Corner     Movement = "corner"      // within 5 mm of a corner
	Loop       Movement = "loop"        // once round, radius 25 mm at most
	TightLeft  Movement = "tight left"  // radius up to 12 mm
	TightRight Movement = "tight right" // the same to the right
	Left       Movement = "left"        // wider curves
	Right      Movement = "right"       // the same to the right
	Straight   Movement = "straight"    // 40 mm or more without a bend
	// Anywhere is the whole line.
	Anywhere Movement = "anywhere"
)

// Movements lists them all but Anywhere, in that order.
var Movements = []Movement{Corner, Loop, TightLeft, TightRight, Left, Right, Straight}

// The bounds of the movements in mm and radians. They are ours.
const (
	cornerMM    = 5.0
	loopMM      = 25.0  // mean radius
	tightMM     = 12.0  // radius
	bentMM      = 200.0 // radius: with more the line is straight
	straightMM  = 40.0  // length
	loopLeast   = 1.5 * math.Pi
	spiralLeast = 3 * math.Pi // from here on it is a spiral, not a loop
)

// Classify returns the movement of each piece of the profile, empty for none.
// Corners are given in mm along the line. Mirroring the line or running it the
// other way swaps left and right. Cost: linear in the pieces times the corners.
func Classify(p scoring.Profile, corners []float64) []Movement {
	out := make([]Movement, len(p.Bend))
	for k := range out {
		for _, c := range corners {
			if math.Abs((float64(k)+0.5)*p.Step-c) <= cornerMM {
				out[k] = Corner
			}
		}
	}
	for i := 0; i < len(out); {
		if out[i] == Corner {
			i++
			continue
		}
		j := i + 1
		for j < len(out) && out[j] != Corner && side(p.Bend[j]) == side(p.Bend[i]) {
			j++
		}
		classifyRun(out[i:j], p.Bend[i:j], p.Step)
		i = j
	}
	return out
}

// side returns 1 for a bend to the right, -1 to the left, 0 for none.
func side(bend float64) int {
	if math.Abs(bend) <= 1/bentMM {
		return 0
	}
	return int(math.Copysign(1, bend))
}

// classifyRun names the pieces of a run of the line that bends to one side or not
// at all.
func classifyRun(out []Movement, bend []float64, step float64) {
	length, turn := float64(len(bend))*step, 0.0
	for _, b := range bend {
		turn += math.Abs(b) * step
	}
	s := side(bend[0])
	loop := turn >= loopLeast && turn < spiralLeast && length/turn <= loopMM
	for k, b := range bend {
		tight := math.Abs(b) >= 1/tightMM
		switch {
		case s == 0:
			if length >= straightMM {
				out[k] = Straight
			}
		case loop:
			out[k] = Loop
		case s < 0 && tight:
			out[k] = TightLeft
		case tight:
			out[k] = TightRight
		case s < 0:
			out[k] = Left
		default:
			out[k] = Right
		}
	}
}
