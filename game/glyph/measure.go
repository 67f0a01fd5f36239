package glyph

import (
	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goregular"
)

// TTF returns the font file that all labels are drawn with, for files that carry it
// along; do not change it. Go Regular is under the licence of Go.
func TTF() []byte { return goregular.TTF }

// Baseline is how far the baseline lies under the middle of a label, as a share of
// its size.
const Baseline = 0.36

// unit is the size in pixels at which text is measured, so large that rounding to
// 1/64 pixel does not tell.
const unit = 1000

var ruler = truetype.NewFace(face, &truetype.Options{Size: unit, DPI: 72})

// Width returns how wide text is in letters of size pixels.
func Width(text string, size float64) float64 {
	return float64(font.MeasureString(ruler, text)) / 64 / unit * size
}

// Shown returns text with each character that the font lacks replaced by a question
// mark, and control characters by spaces.
func Shown(text string) string {
	out := []rune(text)
	for i, r := range out {
		switch {
		case r < ' ' || r == 0x7f:
			out[i] = ' '
		case face.Index(r) == 0:
			out[i] = '?'
		}
	}
	return string(out)
}
