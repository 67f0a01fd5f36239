package route

import (
	"sort"

	"unthreaded/game/place"
	"unthreaded/game/replay"
)

// speed is the hand's planned speed in mm/s, at which the route is played.
func (r Room) speed() float64 { return r.Settings.HandSpeed() }

// seconds is how long the route takes at it.
func (r Room) seconds() float64 { return r.Desk.Length() / r.speed() }

// rewound sets the clock to the route shown, at its end.
func (r Room) rewound() Room {
	length := r.seconds()
	r.clock = replay.Clock{Rate: r.clock.Rate, Length: length, T: length}
	return r
}

// reached returns how many mm of the route are sewn.
func (r Room) reached() float64 { return r.clock.T * r.speed() }

// Frame is as place.Room has it.
func (r Room) Frame(dt float64) (place.Room, []place.Effect) {
	r.clock = r.clock.Advance(dt)
	return r, nil
}

// Playing is as place.Room has it.
func (r Room) Playing() bool { return r.clock.Playing }

// stepEnds returns the places in mm along the route where its steps end, the
// beginning first.
func (r Room) stepEnds() []float64 {
	ends := []float64{0}
	done := 0.0
	for _, p := range r.Desk.Pieces() {
		for _, st := range p.Stretches {
			ends = append(ends, done+st.To)
		}
		done += p.Line.Length()
	}
	return ends
}

// sameMM is how near in mm places along the route are one.
const sameMM = 0.01

// toStep stops the play at the end of the step before (by -1) or at that of the
// next one (by +1).
func (r Room) toStep(by int) Room {
	ends := r.stepEnds()
	at := r.reached()
	i := sort.SearchFloat64s(ends, at-sameMM)
	if by > 0 && i < len(ends) && ends[i] <= at+sameMM {
		i++
	}
	if by < 0 {
		i--
	}
	i = max(0, min(len(ends)-1, i))
	r.clock.Playing = false
	r.clock = r.clock.At(ends[i] / r.speed())
	if i == len(ends)-1 {
		r.clock = r.clock.At(r.clock.Length) // the sum of the steps may be a hair short of it
	}
	return r
}

// stepNow returns the number of the step that is being sewn, from 1, and how many
// there are.
func (r Room) stepNow() (step, of int) {
	ends := r.stepEnds()
	i := sort.SearchFloat64s(ends, r.reached()-sameMM)
	return max(1, min(len(ends)-1, i)), len(ends) - 1
}
