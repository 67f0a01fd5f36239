// Package trace holds the record of a hand's movement as it came from the
// pointer, and prepares it for measuring.
package trace

import (
	"fmt"

	"unthreaded/path/geom"
)

// Sample is one report of the pointer.
type Sample struct {
	// T is the time in seconds since the first sample, from the event's own clock
	// less the pauses before it (see Hold).
	T float64
	// P is the place on the cloth in mm, fractions kept.
	P geom.Point
	// Pressure is 0 to 1 as the device reports it; a mouse gives 0.5.
	Pressure float64
}

// Device is the kind of pointer, by its name in the W3C's Pointer Events.
type Device string

// The devices that Pointer Events names.
const (
	Mouse Device = "mouse"
	Pen   Device = "pen"
	Touch Device = "touch"
)

// Ending tells how a trace came to its end.
type Ending string

// The ways a trace ends: the pointer was lifted, or the browser took it away
// (a cancelled pointer, a hidden tab) and the trace was kept as far as it went.
const (
	Lifted      Ending = "lifted"
	Interrupted Ending = "interrupted"
)

// Trace is one movement, from pointer down to pointer up, or over several holds.
type Trace struct {
	Samples []Sample
	// Holds are where the hand let go with the needle down and took hold anew.
	Holds  []Hold
	Device Device
	Ending Ending
	// PixelMM is the size of one whole pixel in mm if the device reports whole
	// pixels only, else 0. It sets the noise floor of the speed.
	PixelMM float64
	// ClockStep is the smallest step in seconds that the event clock showed.
	ClockStep float64
}

// MaxSamples bounds a trace: half an hour at 240 Hz.
const MaxSamples = 30 * 60 * 240

// Validate reports the first sample, by its index, whose time or place is not a
// finite number, the first hold that cannot be, or that there are no samples or more
// than MaxSamples. Times
// need not ascend: preparing a trace sorts that out, as browsers do repeat and
// swap them.
func (tr Trace) Validate() error {
	if len(tr.Samples) == 0 {
		return fmt.Errorf("the trace has no samples")
	}
	if len(tr.Samples) > MaxSamples {
		return fmt.Errorf("the trace has %d samples, more than %d", len(tr.Samples), MaxSamples)
	}
	for i, s := range tr.Samples {
		if !geom.Finite(geom.Pt(s.T, s.Pressure)) {
			return fmt.Errorf("sample %d: time %v s or pressure %v is not a finite number", i, s.T, s.Pressure)
		}
		if !geom.Finite(s.P) {
			return fmt.Errorf("sample %d: place (%v, %v) is not finite", i, s.P.X, s.P.Y)
		}
	}
	return tr.checkHolds()
}

// Duration returns the time in seconds from the first sample to the last, 0 for
// fewer than two.
func (tr Trace) Duration() float64 {
	if len(tr.Samples) < 2 {
		return 0
	}
	return tr.Samples[len(tr.Samples)-1].T - tr.Samples[0].T
}
