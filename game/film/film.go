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

	"unthreaded/game/look"
	"unthreaded/game/place/rehearse"
	"unthreaded/game/scene"
	"unthreaded/game/softdraw"
)

// Times are in hundredths of a second, as GIF counts them.
const (
	// frameTime makes 12.5 frames a second; browsers slow down what is below 2.
	frameTime = 8
	// shortest is the least time of a frame: a shorter rest goes to the one before.
	shortest = 4
	// Hold is how long the last frame stands before the film starts again.
	Hold = 200
	// Longest bounds a film without Hold; a longer replay is shown faster.
	Longest = 2000
)

// maxWidth bounds the width of the picture in pixels, for the size of the file.
const maxWidth = 640

// itemsAtOnce is how many shapes one step draws; some 10 ms in a browser.
const itemsAtOnce = 30

// Film is a film in the making.
type Film struct {
	// Speed is how many times as fast as the hand was the film runs.
	Speed float64

	list   func(t float64) scene.List
	scale  float64
	times  []int // at which each frame begins, then the end of the last but Hold
	colour *colours

	canvas  canvas
	picture gif.GIF
}

// Of returns a film of the replay of the trace on the cloth, at the replay's rate or
// faster, so that it keeps within Longest. It fails where there is nothing to play.
func Of(r rehearse.Room) (*Film, error) {
	if r.Open == nil || !(r.Replay.Length > 0) {
		return nil, fmt.Errorf("there is no replay to film")
	}
	r.Live, r.Replay.Playing = nil, false
	speed := math.Max(r.Replay.Rate, r.Replay.Length*100/Longest)
	layers := new(scene.Layers)
	f := &Film{
		Speed: speed,
		scale: math.Min(1, maxWidth/math.Max(1, r.Screen.W)),
		times: times(r.Replay.Length / speed),
		list: func(t float64) scene.List {
			r.Replay = r.Replay.At(t * speed)
			layers.Begin(r.Screen, 0, r.Theme())
			return r.Scene(layers)
		},
		colour: newColours(look.Of(r.Theme())),
	}
	f.canvas = newCanvas(f.list(0), f.scale)
	f.picture.Config = image.Config{ColorModel: f.colour.palette, Width: f.canvas.size.Dx(), Height: f.canvas.size.Dy()}
	return f, nil
}

// times returns when the frames of a film of some seconds begin, the last of them
// the still at its end.
func times(seconds float64) []int {
	end := int(math.Round(seconds * 100))
	var out []int
	for t := 0; t == 0 || end-t >= shortest; t += frameTime {
		out = append(out, t)
	}
	return append(out, max(end, shortest))
}

// Done returns the share of the frames that are made, 0 to 1.
func (f *Film) Done() float64 { return float64(len(f.picture.Image)) / float64(len(f.times)) }

// Step does a small part of the work: it draws some shapes, or one frame. It returns
// false once all frames are made.
func (f *Film) Step() bool {
	k := len(f.picture.Image)
	if k == len(f.times) {
		return false
	}
	list := f.list(float64(f.times[k]) / 100)
	if k == len(f.times)-1 {
		list = f.list(math.Inf(1)) // its time may have been rounded down
	}
	if !f.canvas.bake(list, itemsAtOnce) {
		return true
	}
	delay := Hold
	if k < len(f.times)-1 {
		delay = f.times[k+1] - f.times[k]
	}
	f.picture.Image = append(f.picture.Image, f.colour.quantise(f.canvas.frame(list)))
	f.picture.Delay = append(f.picture.Delay, delay)
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
