package trace

import (
	"fmt"
	"math"
	"sort"

	"unthreaded/path/geom"
)

const (
	// Rate is the rate in Hz to which every trace is resampled.
	Rate = 120.0
	// GapTime is the time in seconds between two samples from which on the
	// movement between them counts as not recorded.
	GapTime = 0.060
	// StillMM is the distance in mm within which a hand counts as held still
	// over a gap: a browser sends no event while the pointer rests, so that a
	// stop shows as a gap between two neighbouring places.
	StillMM = 0.5
	// MaxDuration in seconds bounds a trace: half an hour, as MaxSamples does.
	MaxDuration = 30 * 60
	// maxPlace in mm and maxTime in s bound what is a place on a cloth and a time
	// of its clock: a kilometre, and a time that leaves steps of 0.02 ms.
	maxPlace = 1e6
	maxTime  = 1e11
)

// Gap is a stretch of time without samples through which the hand moved.
type Gap struct {
	// From and To are the times in seconds of the samples on either side.
	From, To float64
	// First and End bound the prepared points within: First <= i < End.
	First, End int
	// Moved is the straight distance in mm between its two sides.
	Moved float64
}

// Prepared is a trace made ready for measuring: sampled evenly and smoothed
// without a shift in time.
type Prepared struct {
	// Rate is in Hz; point i is at the time T0 + i/Rate seconds. The last point,
	// at or less than a step after the last sample, has its place.
	Rate, T0 float64
	// Points are the smoothed places in mm. Inside a gap they lie on the
	// straight line across it.
	Points geom.Polyline
	// Unsmoothed are the places as resampled but not smoothed, for measures of
	// place that take no derivative: smoothing rounds off a quick overshoot.
	Unsmoothed geom.Polyline
	// Speed in mm/s is the length of the velocity from central differences;
	// inside a gap it is distance over time.
	Speed []float64
	// Arc is the length in mm of the path up to each point.
	Arc []float64
	// Gaps ascend in time, and so do Pauses, where the hand took hold anew.
	Gaps   []Gap
	Pauses []Pause
	// Merged counts samples that shared their time with another one, Reordered
	// those that came after a sample with a later time.
	Merged, Reordered int
	// Faulty counts samples left out since no hand is that fast.
	Faulty int
	// Interval is the median time in seconds between samples as recorded, and
	// PixelMM the size of a whole pixel, 0 where fractions were recorded.
	Interval, PixelMM float64
}

// Prepare sorts the samples by time, merges those with equal times into their
// mean place, drops those that no hand can have made, marks gaps and pauses, resamples to Rate, smooths each stretch between
// them with a zero-phase 2nd-order Butterworth filter at Cutoff and takes central
// differences. It fails if the trace is not valid (see Validate), lasts longer
// than MaxDuration, reaches further than a kilometre, or has fewer than two times. Cost O(n log n) in the samples,
// O(n) if they are in order.
func Prepare(tr Trace) (Prepared, error) {
	if err := tr.Validate(); err != nil {
		return Prepared{}, err
	}
	for i, s := range tr.Samples {
		if math.Abs(s.P.X) > maxPlace || math.Abs(s.P.Y) > maxPlace || math.Abs(s.T) > maxTime {
			return Prepared{}, fmt.Errorf("sample %d: (%g, %g) mm at %g s is beyond all bounds", i, s.P.X, s.P.Y, s.T)
		}
	}
	raw, p := ordered(tr.Samples)
	if len(raw) < 2 {
		return Prepared{}, fmt.Errorf("all %d samples have the same time, so there is no speed", len(tr.Samples))
	}
	if d := raw[len(raw)-1].T - raw[0].T; d > MaxDuration {
		return Prepared{}, fmt.Errorf("the trace lasts %.0f s, more than %d", d, MaxDuration)
	}
	all := len(raw)
	raw = dropFaulty(raw)
	p.Faulty = all - len(raw)
	p.Rate, p.T0, p.PixelMM = Rate, raw[0].T, tr.PixelMM
	p.Interval = medianInterval(raw)
	n := int(math.Ceil((raw[len(raw)-1].T-p.T0)*Rate-1e-6)) + 1
	p.Gaps = findGaps(raw, p.T0, n, math.Max(StillMM, 2*tr.PixelMM))
	p.Pauses = findPauses(tr.Holds, raw, p.T0, n)
	p.Unsmoothed = resample(raw, p.seams(), p.T0, n)
	p.smooth()
	p.differentiate()
	return p, nil
}

// ordered returns the samples with strictly ascending times.
func ordered(in []Sample) ([]Sample, Prepared) {
	var p Prepared
	s := append([]Sample(nil), in...)
	for i := 1; i < len(s); i++ {
		if s[i].T < s[i-1].T {
			p.Reordered++
		}
	}
	if p.Reordered > 0 {
		sort.SliceStable(s, func(i, j int) bool { return s[i].T < s[j].T })
	}
	out := s[:0]
	for i := 0; i < len(s); {
		j, sum := i, geom.Point{}
		for ; j < len(s) && s[j].T == s[i].T; j++ {
			sum.X += s[j].P.X
			sum.Y += s[j].P.Y
		}
		m := s[i]
		m.P = geom.Pt(sum.X/float64(j-i), sum.Y/float64(j-i))
		p.Merged += j - i - 1
		out = append(out, m)
		i = j
	}
	return out, p
}

func medianInterval(s []Sample) float64 {
	d := make([]float64, len(s)-1)
	for i := range d {
		d[i] = s[i+1].T - s[i].T
	}
	sort.Float64s(d)
	return d[len(d)/2]
}

func findGaps(s []Sample, t0 float64, n int, still float64) []Gap {
	var gaps []Gap
	for i := 1; i < len(s); i++ {
		moved := geom.Dist(s[i-1].P, s[i].P)
		if s[i].T-s[i-1].T <= GapTime || moved <= still {
			continue
		}
		first := int(math.Ceil((s[i-1].T-t0)*Rate + 1e-6))
		end := min(n, int(math.Ceil((s[i].T-t0)*Rate-1e-6)))
		gaps = append(gaps, Gap{From: s[i-1].T, To: s[i].T, First: first, End: end, Moved: moved})
	}
	return gaps
}

// Runs returns the stretches of points between gaps and pauses as pairs of first
// index and end index (not included).
func (p Prepared) Runs() [][2]int {
	var runs [][2]int
	at := 0
	for _, g := range p.seams() {
		if g.First > at {
			runs = append(runs, [2]int{at, g.First})
		}
		at = max(at, g.End)
	}
	if at < len(p.Points) {
		runs = append(runs, [2]int{at, len(p.Points)})
	}
	return runs
}

func (p *Prepared) smooth() {
	q := ZeroPhase(Cutoff, Rate)
	p.Points = append(geom.Polyline(nil), p.Unsmoothed...)
	for _, r := range p.Runs() {
		part := p.Points[r[0]:r[1]]
		x, y := make([]float64, len(part)), make([]float64, len(part))
		for i, pt := range part {
			x[i], y[i] = pt.X, pt.Y
		}
		x, y = q.FiltFilt(x), q.FiltFilt(y)
		for i := range part {
			part[i] = geom.Pt(x[i], y[i])
		}
	}
}

func (p *Prepared) differentiate() {
	p.Arc = p.Points.Cumulative()
	p.Speed = make([]float64, len(p.Points))
	for _, r := range p.Runs() {
		for i := r[0]; i < r[1] && r[1]-r[0] > 1; i++ {
			a, b := max(r[0], i-1), min(r[1]-1, i+1)
			p.Speed[i] = geom.Dist(p.Points[a], p.Points[b]) / float64(b-a) * Rate
		}
	}
	for _, g := range p.Gaps {
		for i := g.First; i < g.End; i++ {
			p.Speed[i] = g.Moved / (g.To - g.From)
		}
	}
}

// Time returns the time in seconds of point i.
func (p Prepared) Time(i int) float64 { return p.T0 + float64(i)/p.Rate }

// Duration returns the time in seconds from the first point to the last.
func (p Prepared) Duration() float64 { return float64(len(p.Points)-1) / p.Rate }

// At returns the place at time t in seconds, that of the nearer end if t lies
// outside the trace. Cost O(1).
func (p Prepared) At(t float64) geom.Point {
	i, f := p.index(t)
	if f == 0 {
		return p.Points[i]
	}
	return geom.Lerp(p.Points[i], p.Points[i+1], f)
}

// index splits time t into the index of the point before it and the share of the
// step to the next.
func (p Prepared) index(t float64) (i int, f float64) {
	u := (t - p.T0) * p.Rate
	if !(u > 0) {
		return 0, 0
	}
	if last := len(p.Points) - 1; u >= float64(last) {
		return last, 0
	}
	i = int(u)
	return i, u - float64(i)
}

// ArcAt returns the length in mm of the path up to time t in seconds, t clamped
// to the trace. Cost O(1).
func (p Prepared) ArcAt(t float64) float64 {
	i, f := p.index(t)
	if f == 0 {
		return p.Arc[i]
	}
	return p.Arc[i] + f*(p.Arc[i+1]-p.Arc[i])
}
