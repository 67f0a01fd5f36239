package game

import (
	"encoding/json"
	"fmt"
	"math"
	"strconv"
)

// GuessPxPerMM is how many CSS pixels the page takes for a millimetre until the
// screen has been measured: CSS defines 96 px as one inch. On a real screen this is
// a guess.
const GuessPxPerMM = 96 / MMPerInch

// A payment card, by which a screen is measured: ISO/IEC 7810, size ID-1, in mm.
const (
	CardLongMM  = 85.60
	CardShortMM = 53.98
)

// The range in CSS pixels of the card's long side: screens show from 1.4 (a
// television) to about 10 pixels per mm.
const (
	MinCard, MaxCard = 120.0, 1100.0
)

// Screen is a screen whose size was found with a card. It is known by its size in
// CSS pixels, the shorter side first, and its device pixels per CSS pixel: a page
// is told no more.
type Screen struct {
	Short   float64 `json:"short"`
	Long    float64 `json:"long"`
	DPR     float64 `json:"dpr"`
	PxPerMM float64 `json:"px_per_mm"`
}

// maxScreens is how many screens are remembered.
const maxScreens = 8

// Screens are the screens measured, the latest first; unused ones are zero. In a
// document they are a list.
type Screens [maxScreens]Screen

// MarshalJSON writes the screens in use.
func (s Screens) MarshalJSON() ([]byte, error) {
	list := []Screen{}
	for _, c := range s {
		if c.PxPerMM > 0 {
			list = append(list, c)
		}
	}
	return json.Marshal(list)
}

// UnmarshalJSON reads a list; a screen that cannot be is left out, so that the
// other settings stay.
func (s *Screens) UnmarshalJSON(doc []byte) error {
	var list []Screen
	*s = Screens{}
	if json.Unmarshal(doc, &list) != nil {
		return nil
	}
	n := 0
	for _, c := range list {
		if card := c.PxPerMM * CardLongMM; card >= MinCard && card <= MaxCard && n < maxScreens {
			s[n] = c
			n++
		}
	}
	return nil
}

// screenOf returns what tells the screen of r from others.
func screenOf(r Resized) Screen {
	return Screen{Short: math.Min(r.ScreenW, r.ScreenH), Long: math.Max(r.ScreenW, r.ScreenH), DPR: r.DPR}
}

// of returns the pixels per mm found on the screen, 0 if it was not measured.
func (s Screens) of(screen Screen) float64 {
	for _, c := range s {
		if c.Short == screen.Short && c.Long == screen.Long && c.DPR == screen.DPR {
			return c.PxPerMM
		}
	}
	return 0
}

// with returns the screens with one more in front, in place of what was known of
// it; one with 0 px per mm is taken out.
func (s Screens) with(screen Screen) Screens {
	next := Screens{}
	n := 0
	if screen.PxPerMM > 0 {
		next[0] = screen
		n = 1
	}
	for _, c := range s {
		same := c.Short == screen.Short && c.Long == screen.Long && c.DPR == screen.DPR
		if !same && c.PxPerMM > 0 && n < maxScreens {
			next[n] = c
			n++
		}
	}
	return next
}

// sized fills in what is known of the screen's true size.
func (m Model) sized(r Resized) Resized {
	r.PxPerMM = m.Settings.Screens.of(screenOf(r))
	r.SizeKnown = r.PxPerMM > 0
	if !r.SizeKnown {
		r.PxPerMM = GuessPxPerMM
	}
	return r
}

// cardControl fits the outline of a card to a real one held to the screen. m.Card
// is the outline's long side in CSS pixels, 0 while no card is held to it.
func (m Model) cardControl(c Control) (Model, []Effect) {
	v, err := strconv.ParseFloat(c.Value, 64)
	switch {
	case c.Name == "screen":
		m.Card = m.Screen.PxPerMM * CardLongMM
	case c.Name == "card-close":
		m.Card = 0
	case m.Card == 0:
	case c.Name == "card" && err == nil:
		m.Card = clampOr(v, MinCard, MaxCard, m.Card)
	case c.Name == "card-less", c.Name == "card-more":
		m.Card = clampOr(m.Card+0.5*float64(direction(c.Name == "card-more")), MinCard, MaxCard, m.Card)
	case c.Name == "card-keep":
		return m.measuredScreen(m.Card / CardLongMM)
	case c.Name == "card-forget":
		return m.measuredScreen(0)
	}
	return m, nil
}

// measuredScreen keeps what was found of this screen. What was traced before keeps
// the millimetres it was traced with.
func (m Model) measuredScreen(pxPerMM float64) (Model, []Effect) {
	before := m.Settings
	screen := screenOf(m.Screen)
	screen.PxPerMM = pxPerMM
	m.Card = 0
	m.Settings.Screens = m.Settings.Screens.with(screen)
	m.Screen = m.sized(m.Screen)
	m.Notice = Notice{Text: "The size of this screen is a guess again."}
	if pxPerMM > 0 {
		m.Notice = Notice{Text: fmt.Sprintf("This screen is measured: %.2f pixels to the millimetre. It is remembered.", pxPerMM)}
	}
	next, effects := m.settled(before)
	return next.relaid(), effects
}
