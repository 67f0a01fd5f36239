package route

import (
	"sort"

	"unthreaded/game/place"
	"unthreaded/game/replay"
	"unthreaded/path/route/steps"
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
	if r.wished != "" && r.Top.Plan.Current {
		r = r.stageAsked(r.wished)
	}
	r, effects := r.planned()
	next, more := r.lights()
	return next, append(effects, more...)
}

// Playing is as place.Room has it.
func (r Room) Playing() bool { return r.clock.Playing }

// reach is a move with the place in mm along the route where it ends.
type reach struct {
	move int
	end  float64
}

// reaches returns where the moves end, in order, stops left out.
func (r Room) reaches() []reach {
	var out []reach
	done := 0.0
	for _, p := range r.Desk.Pieces() {
		for _, st := range p.Stretches {
			if n := len(out) - 1; n >= 0 && out[n].move == st.Step {
				out[n].end = done + st.To
				continue
			}
			out = append(out, reach{st.Step, done + st.To})
		}
		done += p.Line.Length()
	}
	return out
}

// sameMM is how near in mm places along the route are one.
const sameMM = 0.01

// toMove stops the play at the end of the move before (by -1) or at that of the next one
// (by +1).
func (r Room) toMove(by int) Room {
	ends := []float64{0}
	for _, m := range r.reaches() {
		ends = append(ends, m.end)
	}
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
		r.clock = r.clock.At(r.clock.Length) // the sum of the moves may be a hair short of it
	}
	r.lit = none
	return r
}

// moveNow returns the move that is being sewn, none where there is none.
func (r Room) moveNow() int {
	all := r.reaches()
	if len(all) == 0 {
		return none
	}
	i := sort.Search(len(all), func(i int) bool { return all[i].end >= r.reached()-sameMM })
	return all[min(i, len(all)-1)].move
}

// shownMove is the move whose number and words are shown: the one under the pointer, else
// the one that is played.
func (r Room) shownMove() int {
	switch {
	case r.own.Asked:
		return none
	case r.lit >= 0:
		return r.lit
	case r.clock.Playing || !r.clock.AtEnd() || r.following():
		return r.moveNow()
	}
	return none
}

// counted returns how many moves there are up to one and with it, and in all, stops left
// out.
func (r Room) counted(move int) (n, of int) {
	for i, m := range r.Desk.Moves() {
		if m.Kind == steps.StopMove {
			continue
		}
		of++
		if i <= move {
			n++
		}
	}
	return n, of
}
