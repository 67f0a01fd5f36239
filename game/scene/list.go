// Package scene turns the model into a display list: what is to be seen on the
// cloth, as shapes in CSS pixels. The same list is drawn by the graphics card on
// the page (game/view) and by freetype into a picture (game/softdraw), so the two
// cannot drift apart.
package scene

import (
	"image"
	"image/color"
	"math"

	"unthreaded/path/geom"
)

// Shape tells how an Item is drawn.
type Shape uint8

// The shapes. All lines have round ends and joins.
const (
	// Stroke is a line of Width along Points; a single point gives a disc of
	// diameter Width.
	Stroke Shape = iota
	// Fill is the inside of the convex polygon Points.
	Fill
	// Label is Text in letters of Width pixels, placed at Points[0] as Align
	// says, its middle height there.
	Label
	// Picture is Image over the upright rectangle from Points[0] to Points[1], Width
	// the share of its own colours over what lies below.
	Picture
	// Tile is Image repeated over the upright rectangle from Points[0] to Points[1], each
	// time over WeaveStep pixels; Width is the share of its own colours.
	Tile
)

// Align tells which part of a label stands at its point.
type Align uint8

// The alignments.
const (
	Centre Align = iota
	Left
	Right
)

// Item is one shape. Its colour is opaque, so that strokes may overlap;
// only a Picture or a Tile may let through what lies below.
type Item struct {
	Shape  Shape
	Points []geom.Point
	Width  float64
	Colour color.NRGBA
	Text   string
	Align  Align
	Image  *image.RGBA
}

// Layer is a part of the picture that stays as it is while its Key stays equal,
// except that further items may be added at its end. Keys are compared with ==.
type Layer struct {
	Key   any
	Items []Item
}

// List is a whole picture, W by H CSS pixels: the layers from the bottom up, each
// moved by its Offset, then the Moving items, which are new in each frame and stay
// where they are.
type List struct {
	W, H   float64
	Layers []Layer
	Moving []Item
	// Shift is how far the cloth is pushed from where its layers have it.
	Shift geom.Point
}

// Offset returns how far layer i is drawn from where its items are. The weave is
// the same everywhere, so that it need not go along farther than its step.
func (l List) Offset(i int) geom.Point {
	switch i {
	case ClothLayer:
		return geom.Pt(phase(l.Shift.X), phase(l.Shift.Y))
	case StripLayer:
		return geom.Point{}
	}
	return l.Shift
}

// phase returns v modulo the step of the weave, from 0 on.
func phase(v float64) float64 { return v - WeaveStep*math.Floor(v/WeaveStep) }

// Items returns how many items the list holds in all.
func (l List) Items() int {
	n := len(l.Moving)
	for _, la := range l.Layers {
		n += len(la.Items)
	}
	return n
}
