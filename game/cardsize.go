package game

import (
	"fmt"
	"strconv"

	"unthreaded/game/place"
	"unthreaded/game/screen"
)

// cardControl fits the outline of a card to a real one held to the screen. m.Card
// is the outline's long side in CSS pixels, 0 while no card is held to it.
func (m Model) cardControl(c Control) (Model, []Effect) {
	v, err := strconv.ParseFloat(c.Value, 64)
	switch {
	case c.Name == "screen":
		m.Card = m.Screen.PxPerMM * screen.CardLongMM
	case c.Name == "card-close":
		m.Card = 0
	case m.Card == 0:
	case c.Name == "card" && err == nil:
		m.Card = place.ClampOr(v, screen.MinCard, screen.MaxCard, m.Card)
	case c.Name == "card-less", c.Name == "card-more":
		m.Card = place.ClampOr(m.Card+0.5*float64(direction(c.Name == "card-more")), screen.MinCard, screen.MaxCard, m.Card)
	case c.Name == "card-keep":
		return m.measuredScreen(m.Card / screen.CardLongMM)
	case c.Name == "card-forget":
		return m.measuredScreen(0)
	}
	return m, nil
}

// measuredScreen keeps what was found of this screen. What was traced before keeps
// the millimetres it was traced with.
func (m Model) measuredScreen(pxPerMM float64) (Model, []Effect) {
	before := m.Settings
	on := screen.Of(m.Screen)
	on.PxPerMM = pxPerMM
	m.Card = 0
	m.Settings.Screens = m.Settings.Screens.With(on)
	m.Screen = m.Settings.Screens.Sized(m.Screen)
	m.Notice = Notice{Text: "The size of this screen is a guess again."}
	if pxPerMM > 0 {
		m.Notice = Notice{Text: fmt.Sprintf("This screen is measured: %.2f pixels to the millimetre. It is remembered.", pxPerMM)}
	}
	next, effects := m.settled(before)
	return next.relaid(), effects
}

func direction(forward bool) int {
	if forward {
		return 1
	}
	return -1
}
