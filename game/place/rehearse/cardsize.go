package rehearse

import (
	"slices"

	"unthreaded/game/control"
	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/scoring/trace"
)

// cardOpened holds the outline of a card to the screen, as large as it would be.
func (r Room) cardOpened() (Room, []place.Effect) {
	r.Card = r.Screen.PxPerMM * screen.CardLongMM
	return r, nil
}

// phonePx is the width in CSS pixels below which a screen that feels fingers is a phone's,
// whose pixels are of no usual size.
const phonePx = 600.0

// asksSize tells whether she is asked to measure the screen: on a phone, before the first
// trace by a finger or pen there.
func (r Room) asksSize() bool {
	if r.sizeLater || r.Screen.SizeKnown || !r.Screen.Touch || r.Screen.W >= phonePx || r.Open != nil || r.Live != nil || r.Card > 0 {
		return false
	}
	return !slices.ContainsFunc(r.Records, func(s keep.Summary) bool { return s.Device != trace.Mouse })
}

// sizeNotNow leaves the screen a guess.
func (r Room) sizeNotNow() (Room, []place.Effect) {
	r.sizeLater = true
	return r, nil
}

func (r Room) cardClosed() (Room, []place.Effect) {
	r.Card = 0
	return r, nil
}

// cardSized fits the outline to a real card.
func (r Room) cardSized(e control.Event) (Room, []place.Effect) { return r.cardOf(e.Number), nil }

// cardStep is how many pixels a press makes the outline larger or smaller.
const cardStep = 0.5

func (r Room) cardSmaller() (Room, []place.Effect) { return r.cardOf(r.Card - cardStep), nil }
func (r Room) cardLarger() (Room, []place.Effect)  { return r.cardOf(r.Card + cardStep), nil }

func (r Room) cardOf(long float64) Room {
	if r.Card > 0 {
		r.Card = place.Within(long, screen.MinCard, screen.MaxCard)
	}
	return r
}

func (r Room) cardFits() (Room, []place.Effect) {
	if r.Card == 0 {
		return r, nil
	}
	return r.measuredScreen(r.Card / screen.CardLongMM)
}

func (r Room) cardForgotten() (Room, []place.Effect) {
	if r.Card == 0 {
		return r, nil
	}
	return r.measuredScreen(0)
}

// measuredScreen keeps what was found of this screen. What was traced before keeps
// the millimetres it was traced with.
func (r Room) measuredScreen(pxPerMM float64) (Room, []place.Effect) {
	on := screen.Of(r.Screen)
	on.PxPerMM = pxPerMM
	r.Card = 0
	s := r.Settings
	s.Screens = s.Screens.With(on)
	r, effects := r.withSettings(s)
	r.Screen = s.Screens.Sized(r.Screen)
	r.Notice = place.Say("rehearse.screen-guess")
	if pxPerMM > 0 {
		r.Notice = place.Say("rehearse.screen-measured", words.Decimal{Value: pxPerMM, Digits: 2})
	}
	return r.fitted(), effects
}
