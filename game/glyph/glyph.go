// Package glyph draws short labels with freetype, for the cloth on the page and
// for pictures alike.
package glyph

import (
	_ "embed"
	"fmt"
	"image"
	"image/color"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
)

// regular is the typeface of page and cloth: the page has the same outlines as a web font.
//
//go:embed sans/regular.ttf
var regular []byte

var face = func() *truetype.Font {
	f, err := truetype.Parse(regular)
	if err != nil {
		panic(fmt.Sprintf("glyph: the built-in font: %v", err))
	}
	return f
}()

// Draw returns text in white letters of size pixels (the height of the em) on a
// transparent ground, as small as holds it, its baseline and middle set so that
// the picture's centre is the centre of a line of capitals. An empty text gives an
// empty picture. Cost O(pixels).
func Draw(text string, size float64) *image.Alpha {
	text = legible(text, size)
	// A face keeps masks of 512 letters unless told otherwise: megabytes for one label.
	f := truetype.NewFace(face, &truetype.Options{Size: size, DPI: 72, Hinting: font.HintingNone, GlyphCacheEntries: 1})
	width := font.MeasureString(f, text).Ceil()
	if width == 0 {
		return image.NewAlpha(image.Rectangle{})
	}
	// A capital is 0.713 em high; 0.75 em each way holds descenders and accents.
	half := int(size*0.75 + 0.5)
	img := image.NewAlpha(image.Rect(0, 0, width+2, 2*half))
	d := font.Drawer{
		Dst: img, Src: image.NewUniform(color.Alpha{A: 255}), Face: f,
		Dot: fixed.Point26_6{X: fixed.I(1), Y: fixed.Int26_6((float64(half) + size*Baseline) * 64)},
	}
	d.DrawString(text)
	return img
}
