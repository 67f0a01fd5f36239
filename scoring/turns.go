package scoring

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/stat"

	"unthreaded/path/geom"
	"unthreaded/scoring/align"
)

// Turns tells how the corners of the line were taken.
type Turns struct {
	Corners []Corner `json:"corners"`
	// MeanOvershoot and WorstOvershoot in mm are over the corners that were
	// passed.
	MeanOvershoot  Figure `json:"mean_overshoot_mm"`
	WorstOvershoot Figure `json:"worst_overshoot_mm"`
}

// Corner is one corner of the line as it was taken. Its window reaches cornerMM
// along the line to either side, or half way to the next corner.
type Corner struct {
	// At is the place of the corner in mm along the line.
	At float64 `json:"at_mm"`
	// Overshoot in mm is how far the movement went past the vertex in the
	// direction of the incoming leg, at least 0; where the line turns by less
	// than 90 degrees, past the outgoing leg at right angles to it.
	Overshoot Figure `json:"overshoot_mm"`
	// Deviation in mm is the distance from the vertex to the movement, and Cut
	// tells that the movement passed it on the inside.
	Deviation Figure `json:"deviation_mm"`
	Cut       bool   `json:"cut"`
	// Settling is the length in mm along the outgoing leg after which the
	// movement stays within settleMM of it.
	Settling Figure `json:"settling_mm"`
	// Dwell is how long in seconds the hand moved at less than a fifth of its
	// cruising speed, and Stitches how many stitches piled up meanwhile.
	Dwell    float64 `json:"dwell_s"`
	Stitches float64 `json:"stitches"`
}

const (
	// settleMM is the distance in mm within which the hand has settled.
	settleMM = 1.0
	// settleReach is how far in mm after a corner settling is looked for.
	settleReach = 20.0
)

// cornerWidth in mm is how far apart the vertices of one corner may lie: a polyline that
// takes a corner in two pieces of a tenth of a millimetre has one corner there, not two.
const cornerWidth = 1.0

// corners returns the places in mm of the corners of the line, and half the width of each:
// vertices that turn by half of geom.CornerTurn at least, within cornerWidth, to one side,
// and together by geom.CornerTurn. No vertex of a flattened curve turns by as much.
func corners(line geom.Line) (at, half []float64) {
	path, cum := line.Path(), line.Cumulative()
	turn := func(i int) float64 {
		a := geom.TurnAngle(path[i-1], path[i], path[i+1])
		if math.Abs(a) < geom.CornerTurn/2 {
			return 0
		}
		return a
	}
	for i := 1; i < len(path)-1; i++ {
		sum := turn(i)
		if sum == 0 {
			continue
		}
		last := i
		for j := i + 1; j < len(path)-1 && cum[j]-cum[i] <= cornerWidth; j++ {
			if a := turn(j); a*sum > 0 {
				sum += a
				last = j
			}
		}
		if math.Abs(sum) >= geom.CornerTurn {
			at, half = append(at, (cum[i]+cum[last])/2), append(half, (cum[last]-cum[i])/2)
			i = last
		}
	}
	return at, half
}

func (r *run) turns() Turns {
	visits := r.visits()
	t := Turns{Corners: make([]Corner, len(r.line.Corners))}
	var over []float64
	for k, s := range r.line.Corners {
		t.Corners[k] = r.corner(s, r.half[k], visits[k])
		if o := t.Corners[k].Overshoot; o.Defined {
			over = append(over, o.Value)
		}
	}
	r.settle(t.Corners)
	if len(over) == 0 {
		why := undefined(NotReached)
		t.MeanOvershoot, t.WorstOvershoot = why, why
		return t
	}
	t.MeanOvershoot, t.WorstOvershoot = figure(stat.Mean(over, nil)), figure(floats.Max(over))
	return t
}

// visits returns for each corner the points by it, on the way forwards.
func (r *run) visits() [][]int {
	out := make([][]int, len(r.line.Corners))
	for i, place := range r.m.Place {
		k := nearest(r.line.Corners, place)
		if k >= 0 && math.Abs(place-r.line.Corners[k]) <= cornerMM && r.matched(i) && !r.back[i] && !r.round[i] {
			out[k] = append(out[k], i)
		}
	}
	return out
}

func (r *run) corner(s, half float64, visit []int) Corner {
	why := undefined(NotReached)
	c := Corner{At: s, Overshoot: why, Deviation: why, Settling: why}
	if len(visit) == 0 {
		return c
	}
	pts := make(geom.Polyline, len(visit))
	for k, i := range visit {
		pts[k] = r.laid(i)
		if r.p.Speed[i] < stopShare*r.speed && !r.resting[i] {
			c.Dwell += 1 / r.p.Rate
		}
	}
	c.Stitches = c.Dwell * r.needleRate()
	v, in, out := r.line.At(s), r.line.Tangent(s-half-1e-6), r.line.Tangent(s+half+1e-6)
	c.Overshoot = figure(overshoot(pts, v, in, out))
	d, nearest := deviation(pts, v)
	c.Deviation = figure(d)
	c.Cut = r2.Dot(r2.Sub(nearest, v), r2.Sub(out, in)) > 0
	return c
}

// laid returns point i as the movement is laid over the line, not smoothed where that can
// be had: a hand that lies beside all of the line went past its corners no further for it.
func (r *run) laid(i int) geom.Point {
	if r.m.Fit.Kind == align.Beside {
		return r.m.Laid[i]
	}
	return r.m.Fit.Onto(r.p.Unsmoothed[i])
}

// overshoot returns how far in mm the points go past the vertex v of a corner
// with the given unit directions, at least 0.
func overshoot(pts geom.Polyline, v, incoming, outgoing geom.Point) float64 {
	past := incoming
	if along := r2.Dot(incoming, outgoing); along > 0 {
		past = r2.Unit(r2.Sub(incoming, r2.Scale(along, outgoing)))
	}
	var most float64
	for _, p := range pts {
		most = max(most, r2.Dot(r2.Sub(p, v), past))
	}
	return most
}

// deviation returns the distance in mm from v to the polyline, and its nearest
// point.
func deviation(pts geom.Polyline, v geom.Point) (float64, geom.Point) {
	at := pts[0]
	for i := 1; i < len(pts); i++ {
		if _, q := geom.NearestOnSegment(v, pts[i-1], pts[i]); geom.Dist(q, v) < geom.Dist(at, v) {
			at = q
		}
	}
	return geom.Dist(at, v), at
}

// settle finds after each corner the last point that lies more than settleMM
// beside the line before the next corner or settleReach mm.
func (r *run) settle(corners []Corner) {
	for i, place := range r.m.Place {
		k := nearest(r.line.Corners, place)
		for k > 0 && r.line.Corners[k] > place {
			k--
		}
		if k < 0 || place < corners[k].At || place > corners[k].At+settleReach || !r.matched(i) || r.back[i] || r.round[i] {
			continue
		}
		if c := &corners[k]; math.Abs(r.m.Offset[i]) > settleMM || !c.Settling.Defined {
			c.Settling = figure(place - c.At)
		}
	}
	for k := range corners {
		end := corners[k].At + settleReach
		if k+1 < len(corners) {
			end = min(end, corners[k+1].At)
		}
		if c := &corners[k]; c.Settling.Defined && c.Settling.Value > end-c.At-settleMM {
			c.Settling = undefined(Unsettled)
		}
	}
}
