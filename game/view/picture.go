//go:build js

package view

import (
	"github.com/hajimehoshi/ebiten/v2"

	"unthreaded/game/scene"
	"unthreaded/path/geom"
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

// tile repeats a picture over a rectangle, with one shape: the graphics card repeats it.
func (v *View) tile(dst *ebiten.Image, it scene.Item) {
	if v.weaveOf != it.Image {
		if v.weave != nil {
			v.weave.Deallocate()
		}
		v.weave, v.weaveOf = ebiten.NewImageFromImage(it.Image), it.Image
	}
	lo, hi := it.Points[0], it.Points[1]
	perPixel := float64(it.Image.Bounds().Dx()) / scene.WeaveStep
	share := float32(it.Width)
	var corners [4]ebiten.Vertex
	for i, p := range [4]geom.Point{lo, geom.Pt(hi.X, lo.Y), geom.Pt(lo.X, hi.Y), hi} {
		corners[i] = ebiten.Vertex{
			DstX: float32(p.X*v.scale + v.off.X), DstY: float32(p.Y*v.scale + v.off.Y),
			SrcX: float32((p.X - lo.X) * perPixel), SrcY: float32((p.Y - lo.Y) * perPixel),
			ColorR: share, ColorG: share, ColorB: share, ColorA: share,
		}
	}
	dst.DrawTriangles(corners[:], []uint16{0, 1, 2, 1, 2, 3}, v.weave, &ebiten.DrawTrianglesOptions{
		ColorScaleMode: ebiten.ColorScaleModePremultipliedAlpha, Address: ebiten.AddressRepeat,
	})
}
