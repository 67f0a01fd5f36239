package scoring

import (
	"math"
	"slices"
	"sort"

	"gonum.org/v1/gonum/stat"

	"unthreaded/path/geom"
	"unthreaded/scoring/align"
	"unthreaded/scoring/trace"
)

const (
	// endTime in seconds is left out of evenness at both ends, where every hand
	// speeds up and slows down.
	endTime = 0.25
	// cornerMM is the distance in mm along the line, before and after a corner,
	// that belongs to the corner.
	cornerMM = 5.0
	// turnMM is how far in mm the hand must go the other way along the line to
	// have turned round.
	turnMM = 3.0
)

// run is one movement along one line, with what several measures need.
type run struct {
	line   geom.Line
	p      trace.Prepared
	m      align.Match
	set    Settings
	passes []align.Pass
	falls  []trace.Fall
	bends  bends
	// half is half the width in mm of each corner of the line.
	half []float64
	// breaks are the corners and dots of the line, ascending, in mm along it.
	breaks []float64
	// inGap marks prepared points that were not recorded, back those on a pass
	// that went back, cruise those that count for evenness.
	inGap, back, cruise []bool
	// resting marks the points by a pause with the needle down, past those past the end
	// of the line, of which ranOn mm is the farthest.
	resting, past []bool
	ranOn         float64
	cover         Cover
	cuts          []shortcut
	// round marks points on the way round a part that was left out, halting
	// those where the hand stops or turns round.
	round, halting []bool
	// speed is the median speed in mm/s where the hand cruises, 0 if it never
	// moved.
	speed float64
	// expected is the speed in mm/s of an even hand at each point.
	expected []float64
	noise    noise
	stops    []Stop
}

func newRun(line geom.Line, tr trace.Trace, p trace.Prepared, m align.Match, set Settings) *run {
	n := len(p.Points)
	at, half := corners(line)
	line.Corners = at
	r := &run{
		line: line, half: half, p: p, m: m, set: set, passes: m.Passes(turnMM), falls: p.Falls(set.SPM), bends: newBends(line),
		inGap: make([]bool, n), back: make([]bool, n), cruise: make([]bool, n), round: make([]bool, n),
	}
	r.breaks = slices.Concat(line.Corners, line.Dots)
	slices.Sort(r.breaks)
	for _, g := range p.Gaps {
		for i := g.First; i < g.End; i++ {
			r.inGap[i] = true
		}
	}
	for _, pass := range r.passes {
		for i := pass.I; i <= pass.J; i++ {
			r.back[i] = pass.To < pass.From
		}
	}
	r.markResting()
	r.markPast()
	ends := int(endTime * p.Rate)
	for i := range r.cruise {
		// Of another figure nobody knows where its corners are.
		r.cruise[i] = !r.inGap[i] && !r.resting[i] && i >= ends && i < n-ends && (m.Another || distance(r.breaks, m.Place[i]) >= cornerMM)
	}
	r.cover = r.countPasses()
	r.cuts = r.shortcuts()
	r.leaveOut()
	for _, c := range r.cuts {
		for i := c.i; i < c.end; i++ {
			r.round[i] = true
		}
	}
	r.speed = r.cruiseSpeed()
	r.noise = r.rounding(tr)
	r.stops = r.findStops()
	r.markHalting()
	return r
}

// cruiseSpeed falls back on all of the movement if nothing of it counts for
// evenness.
func (r *run) cruiseSpeed() float64 {
	v := r.cruising()
	if len(v) == 0 {
		for i, s := range r.p.Speed {
			if !r.inGap[i] && s > 0 {
				v = append(v, s)
			}
		}
	}
	return median(v)
}

// cruising returns the speeds in mm/s that count for evenness.
func (r *run) cruising() []float64 {
	v := make([]float64, 0, len(r.cruise))
	for i, ok := range r.cruise {
		if ok {
			v = append(v, r.p.Speed[i])
		}
	}
	return v
}

// index returns the prepared point nearest to time t in seconds.
func (r *run) index(t float64) int {
	return max(0, min(len(r.p.Points)-1, int(math.Round((t-r.p.T0)*r.p.Rate))))
}

// matched tells whether point i was recorded and lies on the line as far as can
// be told.
func (r *run) matched(i int) bool { return !r.m.Lost[i] && !r.inGap[i] }

// weight returns the length in mm of the movement that point i stands for.
func (r *run) weight(i int) float64 {
	a, b := max(0, i-1), min(len(r.p.Arc)-1, i+1)
	return (r.p.Arc[b] - r.p.Arc[a]) / 2
}

// needleRate returns the stitches per second.
func (r *run) needleRate() float64 { return r.set.SPM / 60 }

// nearest returns the index in the ascending places of the one nearest to s, -1
// if there is none.
func nearest(places []float64, s float64) int {
	k := sort.SearchFloat64s(places, s)
	if k == len(places) || (k > 0 && s-places[k-1] <= places[k]-s) {
		k--
	}
	return k
}

// distance returns the distance from s to the nearest of the ascending places,
// +Inf if there is none.
func distance(places []float64, s float64) float64 {
	k := nearest(places, s)
	if k < 0 {
		return math.Inf(1)
	}
	return math.Abs(places[k] - s)
}

// median returns the median of v, which it sorts; 0 for no values.
func median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	slices.Sort(v)
	return stat.Quantile(0.5, stat.Empirical, v, nil)
}
