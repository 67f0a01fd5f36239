// Package softdraw draws a display list into a picture with freetype, with no
// graphics card: for cards, thumbnails and the pictures that tests look at.
package softdraw

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"github.com/golang/freetype/raster"
	xdraw "golang.org/x/image/draw"
	"golang.org/x/image/math/fixed"

	"unthreaded/game/glyph"
	"unthreaded/game/scene"
	"unthreaded/path/geom"
)

// Draw returns the picture of the list at scale device pixels per CSS pixel. Cost
// O(pixels + length of all strokes).
func Draw(list scene.List, scale float64) *image.RGBA {
	img := image.NewRGBA(Size(list, scale))
	p := NewPen(img, scale)
	for i, layer := range list.Layers {
		p.MoveTo(list.Offset(i))
		p.Draw(layer.Items)
	}
	p.MoveTo(geom.Point{})
	p.Draw(list.Moving)
	return img
}

// Size returns the bounds of the picture of a list.
func Size(list scene.List, scale float64) image.Rectangle {
	return image.Rect(0, 0, int(math.Ceil(list.W*scale)), int(math.Ceil(list.H*scale)))
}

// Pen draws items on a picture, one after the other.
type Pen struct {
	img   *image.RGBA
	scale float64
	ras   *raster.Rasterizer
	paint *raster.RGBAPainter
	off   geom.Point // of the layer in hand, in CSS pixels
}

// NewPen returns a pen for the picture, whose bounds start at (0, 0), with scale
// device pixels per CSS pixel.
func NewPen(img *image.RGBA, scale float64) *Pen {
	size := img.Bounds().Size()
	p := &Pen{img: img, scale: scale, ras: raster.NewRasterizer(size.X, size.Y), paint: raster.NewRGBAPainter(img)}
	p.ras.UseNonZeroWinding = true
	return p
}

// MoveTo has what follows drawn off CSS pixels away from its places.
func (p *Pen) MoveTo(off geom.Point) { p.off = off }

// Draw draws the items over what is there. Cost O(pixels covered).
func (p *Pen) Draw(items []scene.Item) {
	for _, it := range items {
		if len(it.Points) == 0 {
			continue
		}
		switch it.Shape {
		case scene.Stroke:
			p.stroke(it)
		case scene.Fill:
			p.fill(it)
		case scene.Label:
			p.label(it)
		case scene.Picture:
			p.picture(it)
		case scene.Tile:
			p.tile(it)
		}
	}
}

func (p *Pen) point(q geom.Point) fixed.Point26_6 {
	return fixed.Point26_6{X: fixed.Int26_6(math.Round((q.X + p.off.X) * p.scale * 64)), Y: fixed.Int26_6(math.Round((q.Y + p.off.Y) * p.scale * 64))}
}

func (p *Pen) stroke(it scene.Item) {
	var path raster.Path
	last := p.point(it.Points[0])
	path.Start(last)
	drawn := false
	for _, q := range it.Points[1:] {
		// freetype drops a stroke with a piece that has no length.
		if next := p.point(q); next != last {
			path.Add1(next)
			last, drawn = next, true
		}
	}
	if !drawn {
		// Nor has a point a direction; a hair's length gives it one.
		path.Add1(fixed.Point26_6{X: last.X + 1, Y: last.Y})
	}
	p.ras.Clear()
	raster.Stroke(p.ras, path, fixed.Int26_6(it.Width*p.scale*64), raster.RoundCapper, raster.RoundJoiner)
	p.flush(it.Colour)
}

func (p *Pen) fill(it scene.Item) {
	p.ras.Clear()
	p.ras.Start(p.point(it.Points[0]))
	for _, q := range it.Points[1:] {
		p.ras.Add1(p.point(q))
	}
	p.ras.Add1(p.point(it.Points[0]))
	p.flush(it.Colour)
}

func (p *Pen) picture(it scene.Item) {
	lo, hi := p.point(it.Points[0]), p.point(it.Points[1])
	over := image.Rect(lo.X.Round(), lo.Y.Round(), hi.X.Round(), hi.Y.Round())
	share := image.NewUniform(color.Alpha{A: uint8(math.Round(255 * it.Width))})
	xdraw.ApproxBiLinear.Scale(p.img, over, it.Image, it.Image.Bounds(), xdraw.Over, &xdraw.Options{SrcMask: share})
}

// tile repeats a picture, each time over as many whole pixels as lie between two steps.
func (p *Pen) tile(it scene.Item) {
	lo, hi := it.Points[0], it.Points[1]
	for y := lo.Y; y < hi.Y; y += scene.WeaveStep {
		for x := lo.X; x < hi.X; x += scene.WeaveStep {
			it.Points = []geom.Point{geom.Pt(x, y), geom.Pt(x+scene.WeaveStep, y+scene.WeaveStep)}
			p.picture(it)
		}
	}
}

func (p *Pen) flush(c color.NRGBA) {
	p.paint.SetColor(c)
	p.ras.Rasterize(p.paint)
}

func (p *Pen) label(it scene.Item) {
	mask := glyph.Draw(it.Text, it.Width*p.scale)
	size := mask.Bounds().Size()
	x, y := it.Points[0].X+p.off.X, it.Points[0].Y+p.off.Y
	at := image.Pt(int(math.Round(x*p.scale)), int(math.Round(y*p.scale))-size.Y/2)
	switch it.Align {
	case scene.Centre:
		at.X -= size.X / 2
	case scene.Right:
		at.X -= size.X
	}
	draw.DrawMask(p.img, mask.Bounds().Add(at), image.NewUniform(it.Colour), image.Point{}, mask, image.Point{}, draw.Over)
}
