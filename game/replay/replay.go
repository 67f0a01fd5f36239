// Package replay plays a trace again in its own time.
package replay

import (
	"math"
	"strconv"
)

// Clock is a replay's place in time.
type Clock struct {
	// T is the time in s since the trace began, Length its duration in s.
	T, Length float64
	// Rate is 1 for the speed at which it was traced.
	Rate    float64
	Playing bool
	// From and To are the times in s between which it goes round for as long as it plays; it
	// plays once, to its end, where To is not after From.
	From, To float64
	rest     float64 // s for which it has rested at To
}

// Breath is how long in s a clock that goes round rests before it begins anew: the eye has
// to find the beginning again.
const Breath = 0.6

// Rates are the speeds on offer.
var Rates = []float64{0.25, 0.5, 1, 1.5, 2}

// Advance moves a playing clock on by dt seconds of real time; at the end it
// stops. Gaps above a quarter of a second (a hidden tab, a stalled page) count as
// a quarter, so that nothing is skipped unseen.
func (c Clock) Advance(dt float64) Clock {
	if !c.Playing {
		return c
	}
	dt = math.Max(0, math.Min(dt, 0.25))
	if c.round() && c.T >= c.To {
		if c.rest += dt; c.rest >= Breath {
			c.T, c.rest = c.From, 0
		}
		return c
	}
	c.T += dt * c.Rate
	if c.round() {
		c.T = math.Min(c.T, c.To)
		return c
	}
	if c.T >= c.Length {
		c.T, c.Playing = c.Length, false
	}
	return c
}

// round tells whether the clock goes round.
func (c Clock) round() bool { return c.To > c.From }

// Toggle starts a resting clock, from the beginning if it is at its end or not where it goes
// round, and stops a playing one.
func (c Clock) Toggle() Clock {
	c.rest = 0
	switch {
	case c.Playing:
	case c.round() && (c.T < c.From || c.T >= c.To):
		c.T = c.From
	case c.T >= c.Length:
		c.T = 0
	}
	c.Playing = !c.Playing && c.Length > 0
	return c
}

// At sets the clock to time t in s, kept within the trace.
func (c Clock) At(t float64) Clock {
	c.T = math.Max(0, math.Min(c.Length, t))
	return c
}

// AtEnd tells whether the replay has run to its end.
func (c Clock) AtEnd() bool { return c.T >= c.Length }

// PlaceAt returns the place on the line at time t, from the places s of samples
// that lie 1/rate s apart, in between by straight interpolation. Units of s are
// kept; an empty s gives 0.
func PlaceAt(s []float64, rate, t float64) float64 {
	if len(s) == 0 {
		return 0
	}
	x := math.Max(0, math.Min(float64(len(s)-1), t*rate))
	i := int(x)
	if i == len(s)-1 {
		return s[i]
	}
	// Rounding must not lead beyond either place, which TimeAt would then look for elsewhere.
	p := s[i] + (x-float64(i))*(s[i+1]-s[i])
	return math.Max(math.Min(s[i], s[i+1]), math.Min(math.Max(s[i], s[i+1]), p))
}

// TimeAt returns the first time at which the places s pass place p, either way; a
// place that is never passed gives the time of the nearest. Cost O(n).
func TimeAt(s []float64, rate, p float64) float64 {
	nearest := 0
	for i := range s {
		if s[i] == p {
			return float64(i) / rate
		}
		if i > 0 && (s[i-1] < p) != (s[i] < p) {
			return (float64(i-1) + (p-s[i-1])/(s[i]-s[i-1])) / rate
		}
		if math.Abs(s[i]-p) < math.Abs(s[nearest]-p) {
			nearest = i
		}
	}
	return float64(nearest) / rate
}

// RateNames returns the speeds on offer as the page sends them.
func RateNames() []string {
	var out []string
	for _, v := range Rates {
		out = append(out, strconv.FormatFloat(v, 'f', -1, 64))
	}
	return out
}
