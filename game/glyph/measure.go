package glyph

import (
	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/math/fixed"
)

// TTF returns the font file that all labels are drawn with, for files that carry it
// along; do not change it. Go Regular is under the licence of Go.
func TTF() []byte { return goregular.TTF }

// Baseline is how far the baseline lies under the middle of a label, as a share of
// its size.
const Baseline = 0.36

// Width returns how wide text is in letters of size pixels: the advance widths and
// the kerning of the font itself, so that nothing is drawn for it.
func Width(text string, size float64) float64 {
	// At a scale of one em the font gives its own units, unrounded.
	em := fixed.Int26_6(face.FUnitsPerEm())
	var units fixed.Int26_6
	before, first := truetype.Index(0), true
	for _, r := range text {
		i := face.Index(r)
		if !first {
			units += face.Kern(em, before, i)
		}
		units += face.HMetric(em, i).AdvanceWidth
		before, first = i, false
	}
	return float64(units) / float64(em) * size
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
