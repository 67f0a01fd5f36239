package machine

import (
	"math"

	"unthreaded/path/geom"
)

const (
	// BendReach is the distance in mm along the line from the middle to the outer
	// points of the circles that measure a bend. Chords of a flattened curve shift
	// a curvature by at most 2*geom.Sagitta/BendReach^2 = 0.0006/mm with it: 5 % at
	// a radius of 75 mm. An arc shorter than twice this reads less tight than it is.
	BendReach = 4.0
	// StraightRadius is the radius in mm from which on a line counts as straight:
	// it leaves a ruler of 100 mm by 2.5 mm. Ours.
	StraightRadius = 500.0
	// MinStraight is the least length in mm of a stretch that counts as straight;
	// shorter ones are turns of a curve's bend, or no work for a ruler. Ours.
	MinStraight = 10.0
	// bendStep is the distance in mm of the places at which bends are measured.
	bendStep = 1.0
)

// bendsOf returns the length in mm of the straight stretches of l, and the
// smallest radius in mm of its curves, at most StraightRadius. Corners are no
// curves: bends are measured between them. Cost O(points + length/bendStep).
func bendsOf(l geom.Line) (straight, smallest float64) {
	if len(l.Corners) == 0 {
		return bendsOfRun(l)
	}
	smallest = StraightRadius
	from := 0.0
	for i := 0; i <= len(l.Corners); i++ {
		to := l.Length()
		if i < len(l.Corners) {
			to = l.Corners[i]
		}
		// A run so short that its points fall together bends nowhere.
		if run, err := geom.NewLine(l.Section(from, to)); err == nil && to > from {
			s, r := bendsOfRun(run)
			straight, smallest = straight+s, math.Min(smallest, r)
		}
		from = to
	}
	return math.Min(straight, l.Length()), smallest
}

// bendsOfRun does so for a line without corners.
func bendsOfRun(run geom.Line) (straight, smallest float64) {
	smallest = StraightRadius
	bends := bendsAlong(run)
	each := run.Length() / float64(len(bends))
	in := 0.0
	flush := func() {
		if in >= MinStraight-joinMM {
			straight += in
		}
		in = 0
	}
	for _, k := range bends {
		if r := 1 / math.Abs(k); r < StraightRadius {
			smallest = math.Min(smallest, r)
			flush()
			continue
		}
		in += each
	}
	flush()
	return math.Min(straight, run.Length()), smallest
}

// bendsAlong returns the curvature in 1/mm at even distances of at most bendStep:
// that of the circles through the points BendReach before and after (or as far as
// the ends of a short run), 2 sin(turn) / chord; within BendReach of an end it
// repeats the nearest one inside. Positive turns clockwise to the eye.
func bendsAlong(run geom.Line) []float64 {
	n := max(2, int(math.Ceil(run.Length()/bendStep)))
	points := run.Resample(run.Length() / float64(n))
	reach := min(int(math.Round(BendReach/bendStep)), (len(points)-1)/2)
	out := make([]float64, len(points))
	for k := reach; k < len(points)-reach; k++ {
		a, b, c := points[k-reach], points[k], points[k+reach]
		if chord := geom.Dist(a, c); chord > 0 {
			out[k] = 2 * math.Sin(geom.TurnAngle(a, b, c)) / chord
		}
	}
	for k := range reach {
		out[k], out[len(out)-1-k] = out[reach], out[len(out)-1-reach]
	}
	return out
}
