// Package screen knows the cloth's place on the page and how large a millimetre is
// there: sizes in CSS pixels, the view that maps the cloth in mm to them, and the
// screens whose true size was measured.
package screen

import (
	"math"

	"unthreaded/path/geom"
)

// MMPerInch is exact (international yard and pound agreement, 1959).
const MMPerInch = 25.4

// MarginMM is the least distance in mm between the line and the edge of the
// cloth.
const MarginMM = 7.0

// Cloth is the size of the cloth's place on the page, in CSS pixels, and how much of
// its lower edge the speed strip takes.
type Cloth struct {
	W, H, Strip float64
	// DPR is the device pixels per CSS pixel.
	DPR float64
	// ScreenW and ScreenH are the size of the whole screen in CSS pixels.
	ScreenW, ScreenH float64
	// Touch tells that the first pointer of the screen is a finger.
	Touch bool

	// PxPerMM is how many CSS pixels make a true millimetre, SizeKnown whether that
	// was measured; Sized fills both in.
	PxPerMM   float64
	SizeKnown bool
}

// IsMsg makes the new size of the cloth's place a message.
func (Cloth) IsMsg() {}

// View maps the cloth in mm to the screen in CSS pixels from the upper left
// corner of the cloth's place.
type View struct {
	// Scale is in pixels per mm, Zoom its share of true size, which takes TrueSize
	// pixels per mm; SizeKnown tells that these were measured.
	Scale, Zoom float64
	TrueSize    float64
	SizeKnown   bool
	// Origin is the place on the screen of the cloth's (0, 0).
	Origin geom.Point
}

// ToScreen returns the place in pixels of a place on the cloth.
func (v View) ToScreen(p geom.Point) geom.Point {
	return geom.Pt(v.Origin.X+p.X*v.Scale, v.Origin.Y+p.Y*v.Scale)
}

// ToCloth returns the place in mm of a place on the screen.
func (v View) ToCloth(p geom.Point) geom.Point {
	return geom.Pt((p.X-v.Origin.X)/v.Scale, (p.Y-v.Origin.Y)/v.Scale)
}

// TrueSize returns the CSS pixels that are taken for a millimetre.
func (r Cloth) TrueSize() float64 {
	if r.PxPerMM > 0 {
		return r.PxPerMM
	}
	return GuessPxPerMM
}

// RoomMM returns how much line fits on the cloth at true size, in mm.
func (r Cloth) RoomMM() (w, h float64) {
	return r.W/r.TrueSize() - 2*MarginMM, (r.H-r.Strip)/r.TrueSize() - 2*MarginMM
}

// Fit returns the view that shows the box from lo to hi (mm) in the middle of the
// cloth at true size, or smaller where the cloth is too small for that.
func Fit(lo, hi geom.Point, r Cloth) View {
	w, h := r.RoomMM()
	zoom := math.Min(1, math.Min(w/math.Max(1, hi.X-lo.X), h/math.Max(1, hi.Y-lo.Y)))
	if !(zoom > 0.05) {
		zoom = 0.05 // a cloth not laid out yet, or too small for anything
	}
	v := View{Scale: r.TrueSize() * zoom, Zoom: zoom, TrueSize: r.TrueSize(), SizeKnown: r.SizeKnown}
	v.Origin = geom.Pt(r.W/2-v.Scale*(lo.X+hi.X)/2, (r.H-r.Strip)/2-v.Scale*(lo.Y+hi.Y)/2)
	return v
}

// Middle returns the middle of the cloth on the screen, in CSS pixels.
func (r Cloth) Middle() geom.Point { return geom.Pt(r.W/2, (r.H-r.Strip)/2) }
