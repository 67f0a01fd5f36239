package glyph

import (
	"math"
	"testing"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font"
)

// The widths are those of golang.org/x/image/font, which measures with a face of one
// size and rounds each letter to 1/64 pixel.
func TestWidthIsThatOfAFace(t *testing.T) {
	const size = 500
	ruler := truetype.NewFace(face, &truetype.Options{Size: size, DPI: 72, GlyphCacheEntries: 1})
	for _, text := range []string{"", "A", "AVAVA To Te", "Zickzack, 3 1/2 in", "\u00e9\u00df\u20ac", "\U0001f9f5 lacked"} {
		want := float64(font.MeasureString(ruler, text)) / 64
		room := float64(len(text)) / 64
		if got := Width(text, size); math.Abs(got-want) > room {
			t.Errorf("%q is %g px wide, the face says %g", text, got, want)
		}
	}
}
