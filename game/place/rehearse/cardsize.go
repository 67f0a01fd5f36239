package rehearse

import (
	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/screen"
	"unthreaded/game/words"
)

// cardOpened holds the outline of a card to the screen, as large as it would be.
func (r Room) cardOpened() (Room, []place.Effect) {
	r.Card = r.Screen.PxPerMM * screen.CardLongMM
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
