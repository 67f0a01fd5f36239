package route

import (
	"slices"

	"unthreaded/game/place"
)

// StayAwake asks for the screen to stay lit, or to go dark as it does by itself (Screen Wake
// Lock, W3C).
type StayAwake struct{ On bool }

func (StayAwake) IsEffect() {}

// awake is how it stands with the screen: whether she follows the route beside the machine,
// so that it was asked to stay lit, and whether that was refused.
type awake struct{ follows, asked, refused bool }

// lights asks for the screen to stay lit while the route is followed, and gives it back.
func (r Room) lights() (place.Room, []place.Effect) {
	want := r.clock.Playing || r.awake.follows
	if want == r.awake.asked {
		return r, nil
	}
	r.awake.asked = want
	if !want {
		r.awake.refused = false
	}
	return r, []place.Effect{StayAwake{On: want}}
}

// The keys of a move on and a move back while the route is followed: a foot switch stands in
// for one of these (common practice of pedals that turn pages).
var (
	onKeys   = []string{"PageDown", "ArrowDown", "Enter", " "}
	backKeys = []string{"PageUp", "ArrowUp", "Backspace"}
)

// follow begins to follow the route beside the machine, or ends it: a tap anywhere and the
// keys above make a step.
func (r Room) follow(on bool) Room {
	if r.awake.follows = on; !on {
		return r
	}
	if r.Desk.Length()-r.reached() < 1 { // the bar below the cloth goes in tenths of a mm
		r.clock.Playing = false
		r.clock = r.clock.At(0)
	}
	r.lit = none
	r.Shared = r.Lead(place.ClothFocus)
	return r
}

// following tells that steps are taken by taps and pedals.
func (r Room) following() bool { return r.awake.follows && !r.own.Asked }

// beside does what a key of a pedal asks for.
func (r Room) beside(name string) (Room, bool) {
	switch {
	case slices.Contains(onKeys, name):
		return r.toMove(1), true
	case slices.Contains(backKeys, name):
		return r.toMove(-1), true
	}
	return r, false
}
