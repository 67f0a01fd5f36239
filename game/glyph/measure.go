package glyph

import (
	"strings"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/math/fixed"
)

// TTF returns the font file that all labels are drawn with, for files that carry it
// along; do not change it. It is under the SIL Open Font License 1.1.
func TTF() []byte { return regular }

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
	for _, r := range legible(text, size) {
		i := face.Index(r)
		if !first {
			units += face.Kern(em, before, i)
		}
		units += face.HMetric(em, i).AdvanceWidth
		before, first = i, false
	}
	return float64(units) / float64(em) * size
}

// leastFraction is the size in pixels from which on the figures of a fraction in one sign,
// half as high as others, can be read.
const leastFraction = 16

var fractions = map[rune]string{'½': "1/2", '¼': "1/4", '¾': "3/4", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8"}

// legible writes fractions out in letters of a size in which they could not be read.
func legible(text string, size float64) string {
	if size >= leastFraction || !strings.ContainsAny(text, "½¼¾⅛⅜⅝⅞") {
		return text
	}
	var out strings.Builder
	before := ' '
	for _, r := range text {
		if f, ok := fractions[r]; !ok {
			out.WriteRune(r)
		} else if before >= '0' && before <= '9' {
			out.WriteString(" " + f)
		} else {
			out.WriteString(f)
		}
		before = r
	}
	return out.String()
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
