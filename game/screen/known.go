package screen

import (
	"encoding/json"
	"math"
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

// Of returns what tells the screen of r from others.
func Of(r Cloth) Screen {
	return Screen{Short: math.Min(r.ScreenW, r.ScreenH), Long: math.Max(r.ScreenW, r.ScreenH), DPR: r.DPR}
}

// Of returns the pixels per mm found on the screen, 0 if it was not measured.
func (s Screens) Of(screen Screen) float64 {
	for _, c := range s {
		if c.Short == screen.Short && c.Long == screen.Long && c.DPR == screen.DPR {
			return c.PxPerMM
		}
	}
	return 0
}

// With returns the screens with one more in front, in place of what was known of
// it; one with 0 px per mm is taken out.
func (s Screens) With(screen Screen) Screens {
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

// Sized fills in what is known of the screen's true size.
func (s Screens) Sized(r Cloth) Cloth {
	r.PxPerMM = s.Of(Of(r))
	r.SizeKnown = r.PxPerMM > 0
	if !r.SizeKnown {
		r.PxPerMM = GuessPxPerMM
	}
	return r
}
