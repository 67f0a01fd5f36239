//go:build js

package view

import (
	"math"

	"github.com/hajimehoshi/ebiten/v2"

	"unthreaded/game/glyph"
	"unthreaded/game/scene"
)

// labelKey names a rendered label; size is in device pixels.
type labelKey struct {
	text string
	size float64
}

// label draws a text, whose letters are rendered once and kept.
func (v *View) label(dst *ebiten.Image, it scene.Item) {
	key := labelKey{it.Text, it.Width * v.scale}
	img, ok := v.labels[key]
	if !ok {
		mask := glyph.Draw(key.text, key.size)
		if mask.Bounds().Empty() {
			return
		}
		img = ebiten.NewImageFromImage(mask)
		v.labels[key] = img
	}
	size := img.Bounds().Size()
	x := math.Round(it.Points[0].X*v.scale + v.off.X)
	switch it.Align {
	case scene.Centre:
		x -= math.Floor(float64(size.X) / 2)
	case scene.Right:
		x -= float64(size.X)
	}
	var op ebiten.DrawImageOptions
	op.GeoM.Translate(x, math.Round(it.Points[0].Y*v.scale+v.off.Y)-math.Floor(float64(size.Y)/2))
	op.ColorScale.ScaleWithColor(it.Colour)
	dst.DrawImage(img, &op)
}
