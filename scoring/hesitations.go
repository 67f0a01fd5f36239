package scoring

import "sort"

// prominentShare of the highest speed is the least prominence of a hesitation.
const prominentShare = 0.05

// Hesitation is a moment at which the hand slowed down and sped up again.
type Hesitation struct {
	// At is the place in mm along the line, T the time in seconds.
	At float64 `json:"at_mm"`
	T  float64 `json:"t_s"`
	// Speed in mm/s is the lowest reached, Prominence in mm/s how far it lies
	// below the speeds around it.
	Speed      float64 `json:"speed_mm_s"`
	Prominence float64 `json:"prominence_mm_s"`
	// AtBreak tells that it lies at a corner, a dot, a curve too tight to be one
	// for a hand, or where the hand turned round: there it belongs.
	AtBreak bool `json:"at_break"`

	i int
}

// hesitations finds the minima of the speed whose prominence is at least
// prominentShare of the highest speed and three times the noise. They are
// defined by a lower speed on either side, so the ends have none; nor has a pause with
// the needle down.
func (r *run) hesitations() []Hesitation {
	neg := make([]float64, len(r.p.Speed))
	var top float64
	for i, v := range r.p.Speed {
		neg[i] = -v
		top = max(top, v)
	}
	out := []Hesitation{}
	for _, pk := range peaks(neg, max(prominentShare*top, 3*r.noise.speed)) {
		if r.inGap[pk.i] || r.resting[pk.i] {
			continue
		}
		out = append(out, Hesitation{
			At: r.m.Place[pk.i], T: r.p.Time(pk.i), Speed: r.p.Speed[pk.i], Prominence: pk.prominence,
			AtBreak: distance(r.breaks, r.m.Place[pk.i]) < cornerMM || r.bends.tightAt(r.m.Place[pk.i]) || r.turnsRound(pk.i),
			i:       pk.i,
		})
	}
	return out
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
