package game

import "unthreaded/game/place"

// Shared tells whether a thing of this kind is worked on by hand, so that it must not be
// written over what another tab made of it.
func Shared(kind string) bool {
	switch kind {
	case DesignThing, QuiltThing, place.ChoicesThing, place.SewnThing:
		return true
	}
	return false
}
