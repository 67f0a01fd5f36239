package route

import "unthreaded/game/place"

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
