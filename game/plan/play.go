package plan

import (
	"sort"

	"unthreaded/game/replay"
	"unthreaded/path/geom"
)

// rewound sets the clock to the route shown, at its end.
func (k Desk) rewound() Desk {
	length := 0.0
	for _, p := range k.Pieces() {
		length += p.Line.Length()
	}
	k.Clock = replay.Clock{Rate: k.Clock.Rate, Length: length / k.SpeedMM, T: length / k.SpeedMM}
	return k
}

// At returns the place of the needle after mm of the route shown.
func (k Desk) At(mm float64) geom.Point {
	var at geom.Point
	for _, p := range k.Pieces() {
		at = p.Line.At(mm)
		if mm <= p.Line.Length() {
			break
		}
		mm -= p.Line.Length()
	}
	return at
}

// stepEnds returns the places in mm along the route where its steps end, the
// beginning first.
func (k Desk) stepEnds() []float64 {
	ends := []float64{0}
	done := 0.0
	for _, p := range k.Pieces() {
		for _, st := range p.Stretches {
			ends = append(ends, done+st.To)
		}
		done += p.Line.Length()
	}
	return ends
}

// ToStep stops the play at the end of the step before (by -1) or at that of the
// next one (by +1).
func (k Desk) ToStep(by int) Desk {
	ends := k.stepEnds()
	// Places within a hundredth of a mm are the same.
	at := k.Clock.T * k.SpeedMM
	i := sort.SearchFloat64s(ends, at-0.01)
	if by > 0 && i < len(ends) && ends[i] <= at+0.01 {
		i++
	}
	if by < 0 {
		i--
	}
	i = max(0, min(len(ends)-1, i))
	k.Clock.Playing = false
	k.Clock = k.Clock.At(ends[i] / k.SpeedMM)
	if i == len(ends)-1 {
		k.Clock = k.Clock.At(k.Clock.Length) // the sum of the steps may be a hair short of it
	}
	return k
}

// StepNow returns the number of the step that is being sewn, from 1, and how many
// there are.
func (k Desk) StepNow() (step, of int) {
	ends := k.stepEnds()
	i := sort.SearchFloat64s(ends, k.Clock.T*k.SpeedMM-0.01)
	return max(1, min(len(ends)-1, i)), len(ends) - 1
}
