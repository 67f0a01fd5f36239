package scoring

import (
	"math"

	"gonum.org/v1/gonum/integrate"

	"unthreaded/path/geom"
)

// Difficulty tells how hard a line is, whoever traces it.
type Difficulty struct {
	// Steering is the index of difficulty of the steering law: the integral of
	// ds/W over a lane of the width W = 2 tolerances along the line (Accot and
	// Zhai, CHI 1997). No unit.
	Steering float64 `json:"steering_index"`
	// Turning is the sum of all turns to either side in radians, and Corners the
	// number of corners.
	Turning float64 `json:"turning_rad"`
	Corners int     `json:"corners"`
}

func (r *run) difficulty() Difficulty {
	lane := func(float64) float64 { return 2 * r.set.ToleranceMM }
	return Difficulty{Steering: Steering(r.line, lane), Turning: turning(r.line.Path()), Corners: len(r.line.Corners)}
}

// Steering returns the steering index of a line in a lane whose width in mm at s
// mm along the line is width(s) > 0, by Simpson's rule every mm. Cost O(length).
func Steering(line geom.Line, width func(s float64) float64) float64 {
	n := 2*int(math.Ceil(line.Length()/2)) + 1
	x, y := make([]float64, n), make([]float64, n)
	for i := range x {
		x[i] = line.Length() * float64(i) / float64(n-1)
		y[i] = 1 / width(x[i])
	}
	return integrate.Simpsons(x, y)
}

func turning(path geom.Polyline) float64 {
	var sum float64
	for i := 1; i < len(path)-1; i++ {
		sum += math.Abs(geom.TurnAngle(path[i-1], path[i], path[i+1]))
	}
	return sum
}

// Pace sets the speed of the hand against the plan: the stitch length times the
// needle rate.
type Pace struct {
	// Planned and Cruise in mm/s: the planned speed, and the median where the
	// hand cruised. Ratio is the latter over the former.
	Planned Figure `json:"planned_mm_s"`
	Cruise  Figure `json:"cruise_mm_s"`
	Ratio   Figure `json:"ratio"`
	// Seconds is how long the line would take at the planned speed.
	Seconds Figure `json:"planned_s"`
}

func (r *run) pace() Pace {
	p := Pace{Planned: undefined(NoPlan), Cruise: undefined(NoMovement)}
	p.Seconds, p.Ratio = p.Planned, p.Planned
	planned := r.set.TargetMM * r.needleRate()
	if r.speed > 0 {
		p.Cruise = figure(r.speed)
	}
	if planned > 0 {
		p.Planned, p.Seconds, p.Ratio = figure(planned), figure(r.line.Length()/planned), p.Cruise
		if p.Cruise.Defined {
			p.Ratio = figure(r.speed / planned)
		}
	}
	return p
}
