package scoring

import (
	"sort"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

const (
	// slowShare of the cruising speed is the least by which a slowdown falls and rises
	// again: what a person watching would count. Ours; 10 to 25 % count the same hands.
	slowShare = 0.20
	// slowBand in Hz is the band in which speed is looked at: dips of a quarter of a
	// second show, tremor, whole pixels and the jitter of clocks do not (much of a hand's
	// tremor lies at 6 to 12 Hz: Lakie, Experimental Physiology 97, 2012, from memory).
	slowBand = 3.0
	// wayBand in Hz is that of the direction in which the hand moves.
	wayBand = 4.0
)

// Hesitation is a moment at which the hand slowed down and sped up again.
type Hesitation struct {
	// At is the place in mm along the line, T the time in seconds.
	At float64 `json:"at_mm"`
	T  float64 `json:"t_s"`
	// Speed in mm/s is the lowest reached, Prominence in mm/s how far it lies
	// below the speeds around it, both below slowBand.
	Speed      float64 `json:"speed_mm_s"`
	Prominence float64 `json:"prominence_mm_s"`
	// AtBreak tells that it lies at a corner, a dot, a stop, a curve too tight to be one
	// for a hand, where the hand turned round, or where it slows in all curves alike: there
	// it belongs.
	AtBreak bool `json:"at_break"`

	i int
}

// hesitations finds where the speed of the hand in its own direction, below slowBand,
// falls and rises again by slowShare of the cruising speed (or three times the noise).
// The part of the velocity along the hand's direction is taken first and filtered then:
// filtering the places at that frequency would cut corners, and so make dips of them. They
// are defined by a lower speed on either side, so the ends have none, nor has what lies
// within endTime of them; nor has a pause with the needle down.
func (r *run) hesitations(s Slowing) []Hesitation {
	out := []Hesitation{}
	least := max(slowShare*r.speed, 3*r.noise.speed)
	if r.speed == 0 {
		return out
	}
	apart := int(endTime * r.p.Rate)
	for _, span := range r.p.Runs() {
		v := r.advancing(span)
		neg := make([]float64, len(v))
		for k, x := range v {
			neg[k] = -x
		}
		last := -apart
		for _, pk := range peaks(neg, least) {
			i := span[0] + pk.i
			if pk.i < apart || pk.i >= len(v)-apart || pk.i-last < apart || r.resting[i] {
				continue
			}
			last = pk.i
			out = append(out, Hesitation{
				At: r.m.Place[i], T: r.p.Time(i), Speed: max(0, v[pk.i]), Prominence: pk.prominence,
				AtBreak: r.belongs(i, v[pk.i], s), i: i,
			})
		}
	}
	return out
}

// advancing returns the speed in mm/s in the hand's own direction, below slowBand, of a
// stretch of prepared points.
func (r *run) advancing(span [2]int) []float64 {
	pts := r.p.Points[span[0]:span[1]]
	x, y := make([]float64, len(pts)), make([]float64, len(pts))
	for i, p := range pts {
		x[i], y[i] = p.X, p.Y
	}
	way := trace.ZeroPhase(wayBand, r.p.Rate)
	x, y = way.FiltFilt(x), way.FiltFilt(y)
	v := make([]float64, len(pts))
	for i := range pts {
		a, b := max(0, i-1), min(len(pts)-1, i+1)
		d := geom.Pt(x[b]-x[a], y[b]-y[a])
		if n := r2.Norm(d); n > 0 {
			v[i] = r2.Dot(r2.Sub(pts[b], pts[a]), d) / n / float64(b-a) * r.p.Rate
		}
	}
	return trace.ZeroPhase(slowBand, r.p.Rate).FiltFilt(v)
}

// belongs tells whether a hand may slow to v mm/s at point i.
func (r *run) belongs(i int, v float64, s Slowing) bool {
	at := r.m.Place[i]
	if distance(r.breaks, at) < cornerMM || r.bends.tightAt(at) || r.turnsRound(i) {
		return true
	}
	if law := r.law(s, at); s.clear() && law > 0 && v >= (1-slowShare)*law {
		return true
	}
	reach := int(endTime * r.p.Rate)
	for _, stop := range r.stops {
		if i >= stop.i-reach && i < stop.end+reach {
			return true
		}
	}
	return false
}

// turnsRound tells whether the hand turned round, or jumped, within a quarter of
// a second of point i.
func (r *run) turnsRound(i int) bool {
	w := int(endTime * r.p.Rate)
	k := sort.Search(len(r.passes), func(k int) bool { return r.passes[k].I > i-w })
	return max(k, 1) < len(r.passes) && r.passes[max(k, 1)].I < i+w
}

type peak struct {
	i          int
	prominence float64
}

// peaks returns the local maxima of x, the middle one of equal neighbours, that
// stand out by at least least: their height above the higher of the two lowest
// points between them and the next higher value, or the end, on either side (as
// scipy.signal.find_peaks has it). Cost O(n).
func peaks(x []float64, least float64) []peak {
	left, right := valleys(x, false), valleys(x, true)
	var out []peak
	for i := 1; i < len(x)-1; i++ {
		if !(x[i] > x[i-1]) {
			continue
		}
		end := i
		for end < len(x)-1 && x[end+1] == x[i] {
			end++
		}
		if mid := (i + end) / 2; end < len(x)-1 && x[end+1] < x[i] {
			if pr := x[mid] - max(left[mid], right[mid]); pr >= least {
				out = append(out, peak{mid, pr})
			}
		}
		i = end
	}
	return out
}

// valleys returns for each value the lowest one between it and the next higher
// value before it (after it if backwards), or the end.
func valleys(x []float64, backwards bool) []float64 {
	type entry struct{ height, low float64 }
	out := make([]float64, len(x))
	var stack []entry // heights fall; low is the lowest since the entry below
	for k := range x {
		i := k
		if backwards {
			i = len(x) - 1 - k
		}
		low := x[i]
		for len(stack) > 0 && stack[len(stack)-1].height <= x[i] {
			low = min(low, stack[len(stack)-1].low)
			stack = stack[:len(stack)-1]
		}
		out[i] = low
		stack = append(stack, entry{x[i], low})
	}
	return out
}
