//go:build js

// Package view draws a display list with the graphics card, through Ebitengine.
// It decides nothing: what is to be seen is in the list.
package view

import (
	"fmt"
	"image"
	"image/color"

	"github.com/hajimehoshi/ebiten/v2"

	"unthreaded/game/scene"
	"unthreaded/path/geom"
)

// maxQuads is how many shapes go to the graphics card at once: four corners each,
// which must be numbered with 16 bits.
const maxQuads = 16000

// View keeps what has been drawn, so that a frame costs only what is new.
type View struct {
	shader *ebiten.Shader
	// baked holds all layers of the last list; drawn counts its items.
	baked *ebiten.Image
	keys  []any
	drawn []int
	scale float64
	// shift is how far the cloth was pushed in what is baked; off is where the layer
	// in hand is drawn from its items, in device pixels.
	shift, off geom.Point
	// moved tells whether the last frame had moving items, which the next must
	// wipe away.
	moved bool

	vertices []ebiten.Vertex
	indices  []uint16
	labels   map[labelKey]*ebiten.Image
	// photo is the picture drawn last, as the graphics card has it.
	photo   *ebiten.Image
	photoOf *image.RGBA
	// weave is the tile drawn last.
	weave   *ebiten.Image
	weaveOf *image.RGBA
}

// New returns a view; it fails where the shader cannot be compiled.
func New() (*View, error) {
	s, err := ebiten.NewShader(capsuleShader)
	if err != nil {
		return nil, fmt.Errorf("view: the shader: %w", err)
	}
	return &View{shader: s, labels: map[labelKey]*ebiten.Image{}}, nil
}

// Draw draws the list on the screen at scale device pixels per CSS pixel. A list
// equal to the last one costs nothing. A layer that only grew costs its new items
// and one copy of the picture; a cloth that moves is drawn whole.
func (v *View) Draw(screen *ebiten.Image, list scene.List, scale float64) {
	fresh := v.baked == nil || v.baked.Bounds() != screen.Bounds() || v.scale != scale || v.shift != list.Shift || !v.prefixKept(list)
	if fresh {
		v.restart(screen, scale, len(list.Layers))
		v.shift = list.Shift
	}
	grown := v.bake(list)
	if !fresh && !grown && !v.moved && len(list.Moving) == 0 {
		return
	}
	screen.DrawImage(v.baked, &ebiten.DrawImageOptions{Blend: ebiten.BlendCopy})
	v.items(screen, list.Moving)
	v.flush(screen)
	v.moved = len(list.Moving) > 0
}

// prefixKept tells whether what is baked is the beginning of the list: equal
// keys, and no layer shorter than drawn; only the last non-empty one may be
// longer, since its new items lie on top of all others.
func (v *View) prefixKept(list scene.List) bool {
	if len(list.Layers) != len(v.keys) {
		return false
	}
	above := false
	for i := len(list.Layers) - 1; i >= 0; i-- {
		la := list.Layers[i]
		if la.Key != v.keys[i] || len(la.Items) < v.drawn[i] || (above && len(la.Items) != v.drawn[i]) {
			return false
		}
		above = above || v.drawn[i] > 0
	}
	return true
}

func (v *View) restart(screen *ebiten.Image, scale float64, layers int) {
	if v.scale != scale {
		for _, img := range v.labels {
			img.Deallocate()
		}
		clear(v.labels)
	}
	if v.baked == nil || v.baked.Bounds() != screen.Bounds() {
		if v.baked != nil {
			v.baked.Deallocate()
		}
		v.baked = ebiten.NewImageWithOptions(screen.Bounds(), &ebiten.NewImageOptions{Unmanaged: true})
	}
	v.baked.Clear()
	v.scale = scale
	v.keys = make([]any, layers)
	v.drawn = make([]int, layers)
}

// bake draws the items that are not on the baked picture yet.
func (v *View) bake(list scene.List) (grown bool) {
	for i, la := range list.Layers {
		v.keys[i] = la.Key
		if n := v.drawn[i]; n < len(la.Items) {
			o := list.Offset(i)
			v.off = geom.Pt(o.X*v.scale, o.Y*v.scale)
			v.items(v.baked, la.Items[n:])
			v.drawn[i] = len(la.Items)
			grown = true
		}
	}
	v.flush(v.baked)
	v.off = geom.Point{}
	return grown
}

func (v *View) items(dst *ebiten.Image, items []scene.Item) {
	for _, it := range items {
		switch it.Shape {
		case scene.Stroke:
			v.stroke(dst, it)
		case scene.Fill:
			v.fill(dst, it)
		case scene.Label:
			v.flush(dst)
			v.label(dst, it)
		case scene.Picture:
			v.flush(dst)
			v.picture(dst, it)
		case scene.Tile:
			v.flush(dst)
			v.tile(dst, it)
		}
	}
}

func (v *View) stroke(dst *ebiten.Image, it scene.Item) {
	r := it.Width / 2 * v.scale
	if len(it.Points) == 1 {
		v.capsule(dst, it.Points[0], it.Points[0], r, it.Colour)
	}
	for i := 1; i < len(it.Points); i++ {
		v.capsule(dst, it.Points[i-1], it.Points[i], r, it.Colour)
	}
}

// capsule adds a straight stroke with round ends of radius r device pixels: a
// rectangle half a pixel larger all round, whose corners carry their place along
// and across it for the shader.
func (v *View) capsule(dst *ebiten.Image, a, b geom.Point, r float64, c color.NRGBA) {
	half := geom.Dist(a, b) * v.scale / 2
	mid := geom.Lerp(a, b, 0.5)
	dir := geom.Pt(1, 0)
	if half > 0 {
		dir = geom.Pt((b.X-a.X)*v.scale/(2*half), (b.Y-a.Y)*v.scale/(2*half))
	}
	reach := r + 1
	v.room(dst, 4)
	for _, k := range [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		along, across := k[0]*(half+reach), k[1]*reach
		v.vertex(
			geom.Pt(mid.X*v.scale+dir.X*along-dir.Y*across, mid.Y*v.scale+dir.Y*along+dir.X*across),
			c, [4]float64{along, across, half, r})
	}
	n := uint16(len(v.vertices))
	v.indices = append(v.indices, n-4, n-3, n-2, n-4, n-2, n-1)
}

// fill adds a convex polygon as a fan; its edges are stroked a pixel wide, which
// softens them as the shader softens strokes.
func (v *View) fill(dst *ebiten.Image, it scene.Item) {
	v.room(dst, len(it.Points))
	first := uint16(len(v.vertices))
	for _, p := range it.Points {
		v.vertex(geom.Pt(p.X*v.scale, p.Y*v.scale), it.Colour, [4]float64{0, 0, 0, 4})
	}
	for i := 2; i < len(it.Points); i++ {
		v.indices = append(v.indices, first, first+uint16(i-1), first+uint16(i))
	}
	for i, p := range it.Points {
		v.capsule(dst, p, it.Points[(i+1)%len(it.Points)], 0.5, it.Colour)
	}
}

// room makes sure that n more vertices can be numbered.
func (v *View) room(dst *ebiten.Image, n int) {
	if len(v.vertices)+n > 4*maxQuads {
		v.flush(dst)
	}
}

func (v *View) vertex(p geom.Point, c color.NRGBA, custom [4]float64) {
	v.vertices = append(v.vertices, ebiten.Vertex{
		DstX: float32(p.X + v.off.X), DstY: float32(p.Y + v.off.Y),
		ColorR: float32(c.R) / 255, ColorG: float32(c.G) / 255, ColorB: float32(c.B) / 255, ColorA: 1,
		Custom0: float32(custom[0]), Custom1: float32(custom[1]), Custom2: float32(custom[2]), Custom3: float32(custom[3]),
	})
}

func (v *View) flush(dst *ebiten.Image) {
	if len(v.indices) > 0 {
		dst.DrawTrianglesShader(v.vertices, v.indices, v.shader, nil)
	}
	v.vertices, v.indices = v.vertices[:0], v.indices[:0]
}
