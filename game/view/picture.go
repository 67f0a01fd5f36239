//go:build js

package view

import (
	"github.com/hajimehoshi/ebiten/v2"

	"unthreaded/game/scene"
)

// picture draws a picture, which is given to the graphics card once and kept while
// it stays the same.
func (v *View) picture(dst *ebiten.Image, it scene.Item) {
	if v.photoOf != it.Image {
		if v.photo != nil {
			v.photo.Deallocate()
		}
		v.photo, v.photoOf = ebiten.NewImageFromImage(it.Image), it.Image
	}
	size := it.Image.Bounds().Size()
	lo, hi := it.Points[0], it.Points[1]
	var op ebiten.DrawImageOptions
	op.Filter = ebiten.FilterLinear
	op.GeoM.Scale((hi.X-lo.X)*v.scale/float64(size.X), (hi.Y-lo.Y)*v.scale/float64(size.Y))
	op.GeoM.Translate(lo.X*v.scale, lo.Y*v.scale)
	op.ColorScale.ScaleAlpha(float32(it.Width))
	dst.DrawImage(v.photo, &op)
}
