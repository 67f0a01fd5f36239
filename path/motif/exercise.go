package motif

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// Exercise is a kind of line that asks for one movement again and again, to warm the
// hand up.
type Exercise string

// The exercises. Left and right are those of the hand as it goes along.
const (
	Corners      Exercise = "corners"   // right angles, two to the right and two to the left in turn
	SingleLoops  Exercise = "loops"     // once round, to the left and to the right in turn
	TurningLeft  Exercise = "left"      // half turns to the left
	TurningRight Exercise = "right"     // half turns to the right
	Straights    Exercise = "straights" // to and fro
)

// Exercises lists them all.
var Exercises = []Exercise{Corners, SingleLoops, TurningLeft, TurningRight, Straights}

// exerciseMM is about how long an exercise is: a quarter of a minute at an inch a
// second, so that it is traced a few times in a minute.
const exerciseMM = 300.0

// backRadius is the radius in mm of the turn at the end of a straight.
const backRadius = 6.0

// The sizes in mm for which there are exercises: the radius of a curve, the length
// of a straight or of the legs of a corner.
const (
	minRadius, maxRadius = 3.0, 100.0
	minLeg, maxLeg       = 20.0, 250.0
)

// ExercisePrefix begins the IDs of all exercises.
const ExercisePrefix = "exercise-"

// Rehearsal returns the exercise at a size in mm: the radius of a curve, the length of a
// straight or of the legs of a corner. It fails on an unknown exercise and on a size
// out of its range.
func (e Exercise) Rehearsal(size float64) (Rehearsal, error) {
	l, err := e.line(size)
	if err != nil {
		return Rehearsal{}, fmt.Errorf("exercise %q of %v mm: %w", e, size, err)
	}
	return Of(fmt.Sprintf("%s%s-%g", ExercisePrefix, e, size), "", "", l), nil
}

func (e Exercise) line(size float64) (geom.Line, error) {
	if !slices.Contains(Exercises, e) {
		return geom.Line{}, fmt.Errorf("there is no such exercise")
	}
	lo, hi := minRadius, maxRadius
	if e == Corners || e == Straights {
		lo, hi = minLeg, maxLeg
	}
	if !(size >= lo && size <= hi) {
		return geom.Line{}, fmt.Errorf("the size goes from %g to %g mm", lo, hi)
	}
	var w walker
	switch e {
	case Corners:
		w = corners(size)
	case SingleLoops:
		w = singleLoops(size)
	case TurningLeft:
		w = halfTurns(size, -1)
	case TurningRight:
		w = halfTurns(size, 1)
	case Straights:
		w = straights(size)
	}
	return geom.NewLine(toOrigin(w.path))
}

// corners is a row of legs: up, over, down, over.
func corners(leg float64) walker {
	w := walker{heading: -math.Pi / 2}
	for i := range times(leg, 5, 12) {
		if i > 0 {
			// The turns go right, right, left, left.
			w.heading += math.Pi / 2 * float64(1-2*((i-1)/2%2))
		}
		w.on(leg)
	}
	return w
}

// singleLoops is a straight line with n loops on it, left and right in turn; n+1
// pieces of it, gap mm long, lie between them.
func singleLoops(radius float64) walker {
	var w walker
	gap := loopGap(radius)
	w.on(gap)
	side := -1.0
	for range times(2*math.Pi*radius+gap, 2, 6) {
		w.round(radius, side*2*math.Pi)
		w.on(gap)
		side = -side
	}
	return w
}

func loopGap(radius float64) float64 { return radius + 6 }

// The sides of an oval keep its half turns apart. One of them is longer, by the radius
// but at most ovalStep mm, and the other leans by ovalLean radians, so that the next oval
// lies beside this one and no side on another.
const ovalSide, ovalStep, ovalLean = 20.0, 12.0, 0.8

// halfTurns is n times round an oval that moves on a little each time: side is -1 to turn left, 1 to turn right.
func halfTurns(radius, side float64) walker {
	var w walker
	step := math.Min(radius, ovalStep)
	for range times(2*math.Pi*radius+2*ovalSide+step, 1, 6) {
		w.on(ovalSide + step)
		w.round(radius, side*(math.Pi-ovalLean))
		w.on(ovalSide)
		w.round(radius, side*(math.Pi+ovalLean))
	}
	return w
}

// straights is n lines to and fro, with half turns of backRadius between them.
func straights(length float64) walker {
	var w walker
	side := 1.0
	for i := range times(length, 2, 5) {
		if i > 0 {
			w.round(backRadius, side*math.Pi)
			side = -side
		}
		w.on(length)
	}
	return w
}

// times returns how often something of a length in mm is done.
func times(length float64, least, most int) int {
	return max(least, min(most, int(math.Round(exerciseMM/length))))
}

// walker leaves a path behind it. heading is 0 to the right and grows clockwise to the
// eye, y growing downwards.
type walker struct {
	at      geom.Point
	heading float64
	path    geom.Polyline
}

// on goes straight on.
func (w *walker) on(length float64) {
	if len(w.path) == 0 {
		w.path = geom.Polyline{w.at}
	}
	w.at = r2.Add(w.at, r2.Scale(length, geom.Pt(math.Cos(w.heading), math.Sin(w.heading))))
	w.path = append(w.path, w.at)
}

// round goes round an arc by an angle, positive to the right.
func (w *walker) round(radius, angle float64) {
	side := math.Copysign(1, angle)
	from := w.heading - side*math.Pi/2 // from the centre to where it is
	centre := r2.Sub(w.at, r2.Scale(radius, geom.Pt(math.Cos(from), math.Sin(from))))
	arc := geom.Arc(centre, radius, from, from+angle)
	w.path = append(w.path, arc[1:]...)
	w.at, w.heading = w.path[len(w.path)-1], w.heading+angle
}
