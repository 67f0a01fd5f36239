// Package film makes an animated GIF (GIF89a, CompuServe 1990) of a replay, in small
// steps so that a page that makes one stays usable meanwhile.
package film

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"image/gif"
	"math"

	"unthreaded/game/film/reel"
	"unthreaded/game/scene"
	"unthreaded/game/softdraw"
)

// Hold is how long the last frame stands before the film starts again, in hundredths of a
// second, as GIF counts.
const Hold = 200

// maxWidth bounds the width of the picture in pixels, for the size of the file.
const maxWidth = 640

// itemsAtOnce is how many shapes one step draws; some 10 ms in a browser.
const itemsAtOnce = 30

// Film is a film in the making.
type Film struct {
	reel   reel.Reel
	now    scene.List // of the frame in hand
	begun  bool
	scale  float64
	colour *colours

	canvas  canvas
	picture gif.GIF
}

// Of returns the film of a reel.
func Of(r reel.Reel) *Film {
	f := &Film{reel: r, scale: math.Min(1, maxWidth/math.Max(1, r.W)), colour: newColours(r.Palette)}
	f.now = scene.List{W: r.W, H: r.H, Layers: make([]scene.Layer, len(r.Frames[0].New))}
	f.canvas = newCanvas(f.now, f.scale)
	f.picture.Config = image.Config{ColorModel: f.colour.palette, Width: f.canvas.size.Dx(), Height: f.canvas.size.Dy()}
	return f
}

// frame returns the picture of frame k; frames are asked for one after the other.
func (f *Film) frame(k int) scene.List {
	if f.begun {
		return f.now
	}
	f.begun = true
	for i, items := range f.reel.Frames[k].New {
		f.now.Layers[i].Items = append(f.now.Layers[i].Items, items...)
	}
	f.now.Moving = f.reel.Frames[k].Moving
	return f.now
}

// Done returns the share of the frames that are made, 0 to 1.
func (f *Film) Done() float64 { return float64(len(f.picture.Image)) / float64(len(f.reel.Frames)) }

// Step does a small part of the work: it draws some shapes, or one frame. It returns
// false once all frames are made.
func (f *Film) Step() bool {
	k := len(f.picture.Image)
	if k == len(f.reel.Frames) {
		return false
	}
	list := f.frame(k)
	if !f.canvas.bake(list, itemsAtOnce) {
		return true
	}
	delay := Hold
	if k < len(f.reel.Frames)-1 {
		delay = f.reel.Times[k+1] - f.reel.Times[k]
	}
	f.picture.Image = append(f.picture.Image, f.colour.quantise(f.canvas.frame(list)))
	f.picture.Delay = append(f.picture.Delay, delay)
	f.begun = false
	f.picture.Disposal = append(f.picture.Disposal, gif.DisposalNone)
	return true
}

// Encode returns the finished film as a file. Cost O(pixels of all frames).
func (f *Film) Encode() ([]byte, error) {
	var b bytes.Buffer
	if err := gif.EncodeAll(&b, &f.picture); err != nil {
		return nil, fmt.Errorf("film: %w", err)
	}
	return b.Bytes(), nil
}

// canvas holds the picture of the layers so far and that of the last frame.
type canvas struct {
	size       image.Rectangle
	scale      float64
	baked, top *image.RGBA
	onBaked    *softdraw.Pen
	onTop      *softdraw.Pen
	drawn      []int
	// dirty is what has changed since the last frame, moving where its moving items
	// lie.
	dirty, moving image.Rectangle
}

func newCanvas(list scene.List, scale float64) canvas {
	c := canvas{size: softdraw.Size(list, scale), scale: scale, drawn: make([]int, len(list.Layers))}
	c.dirty = c.size
	c.baked, c.top = image.NewRGBA(c.size), image.NewRGBA(c.size)
	c.onBaked, c.onTop = softdraw.NewPen(c.baked, scale), softdraw.NewPen(c.top, scale)
	return c
}

// bake draws up to n items of the layers that are not on the picture yet, and tells
// whether none is left. A replay's layers only grow, at the top.
func (c *canvas) bake(list scene.List, n int) bool {
	for i, la := range list.Layers {
		items := la.Items[c.drawn[i]:]
		if len(items) > n {
			items = items[:n]
		}
		c.onBaked.Draw(items)
		c.dirty = c.dirty.Union(c.bounds(items))
		c.drawn[i] += len(items)
		n -= len(items)
		if c.drawn[i] < len(la.Items) {
			return false
		}
	}
	return true
}

// frame returns what has changed since the last frame, with the moving items on it.
func (c *canvas) frame(list scene.List) *image.RGBA {
	now := c.bounds(list.Moving)
	changed := c.dirty.Union(c.moving).Union(now).Intersect(c.size)
	if changed.Empty() {
		changed = image.Rect(0, 0, 1, 1) // a frame in which nothing moves still takes its time
	}
	draw.Draw(c.top, changed, c.baked, changed.Min, draw.Src)
	c.onTop.Draw(list.Moving)
	c.dirty, c.moving = image.Rectangle{}, now
	return c.top.SubImage(changed).(*image.RGBA)
}

// bounds returns the pixels that the items may touch.
func (c *canvas) bounds(items []scene.Item) image.Rectangle {
	var all image.Rectangle
	for _, it := range items {
		wide, high := it.Width/2, it.Width/2
		if it.Shape == scene.Label {
			wide = it.Width * float64(len(it.Text)) // no letter is wider than its height
		}
		for _, p := range it.Points {
			all = all.Union(image.Rect(
				int(math.Floor((p.X-wide)*c.scale))-1, int(math.Floor((p.Y-high)*c.scale))-1,
				int(math.Ceil((p.X+wide)*c.scale))+1, int(math.Ceil((p.Y+high)*c.scale))+1))
		}
	}
	return all
}
