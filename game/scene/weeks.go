package scene

import (
	"unthreaded/game/look"
	"unthreaded/path/geom"
)

// Fitting returns the size of letters at which a text is about as wide as the room, at
// most size and at least 12.
func Fitting(text string, size, room float64) float64 {
	return max(12, min(size, room/(letterWide*float64(len(text)))))
}

// TextLeft and right write a label from or up to a point.
func TextLeft(text string, x, y, size float64, pal look.Palette) Item {
	it := Text(text, geom.Pt(x, y), pal.Ink)
	it.Align, it.Width = Left, size
	return it
}

func TextRight(text string, x, y float64, pal look.Palette) Item {
	it := Text(text, geom.Pt(x, y), pal.Mute)
	it.Align = Right
	return it
}
