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
	for _, text := range []string{"", "A", "AVAVA To Te", "Zickzack, 3½ in", "\u00e9\u00df\u20ac", "\U0001f9f5 lacked"} {
		want := float64(font.MeasureString(ruler, text)) / 64
		room := float64(len(text)) / 64
		if got := Width(text, size); math.Abs(got-want) > room {
			t.Errorf("%q is %g px wide, the face says %g", text, got, want)
		}
	}
}

// The letters of Latin-1 and Latin Extended-A (Unicode 15, blocks 0080 and 0100), which the
// languages of Europe in Latin script are written with, and the signs that lengths need.
// The n with an apostrophe (U+0149) is deprecated there.
func TestTheTypefaceHasTheLettersOfEurope(t *testing.T) {
	text := []rune("ẞȘșȚț‘’‚“”„…–—€‰′″−×±≈≤≥¼½¾⅛⅜⅝⅞⅓⅔←↑→↓")
	for r := rune(0xa0); r < 0x180; r++ {
		if r != 0x149 {
			text = append(text, r)
		}
	}
	for r := ' '; r <= '~'; r++ {
		text = append(text, r)
	}
	for _, r := range text {
		if face.Index(r) == 0 {
			t.Errorf("%q (%U) is missing", r, r)
		}
	}
	for _, r := range "0123456789" {
		if Width(string(r), 100) != Width("0", 100) {
			t.Errorf("%q is not as wide as 0", r)
		}
	}
}

// A fraction in one sign has figures of 0.45 em: in small letters it is written out.
func TestSmallFractionsAreWrittenOut(t *testing.T) {
	for _, c := range []struct {
		size       float64
		text, want string
	}{
		{16, "23⅞ in", "23⅞ in"}, {14, "23⅞ in", "23 7/8 in"}, {14, "½ in", "1/2 in"}, {14, "-¼", "-1/4"}, {12, "10 in", "10 in"},
	} {
		if got := legible(c.text, c.size); got != c.want {
			t.Errorf("%q at %v px is %q, want %q", c.text, c.size, got, c.want)
		}
	}
}
