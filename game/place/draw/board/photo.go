package board

import (
	"image"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
)

// Photo is the picture of the block as it lies under the drawing.
type Photo struct {
	// Source is the photo as it was taken, nil while it is not there.
	Source *image.RGBA
	// Under is what is shown, the photo or the squared picture, over the rectangle
	// from Lo to Hi on the cloth.
	Under  *image.RGBA
	Lo, Hi geom.Point
	// Trouble tells that the photo cannot be squared up.
	Trouble bool
}

// Squaring is what a squared picture is made of: a photo, the corners of the block in it, and
// its true size in mm.
type Squaring struct {
	ID      string
	Corners [4]geom.Point
	W, H    float64
}

func squaringOf(p quilt.Photo) Squaring { return Squaring{p.ID, p.Corners, p.WMM, p.HMM} }

// PxPerMM is the fineness of the squared picture.
func (q Squaring) PxPerMM() float64 {
	return math.Min(squaredPxPerMM, mostPixels/math.Max(q.W, q.H))
}

// squared is the picture that was squared last, nil where that cannot be done.
type squared struct {
	of  Squaring
	img *image.RGBA
}

// The fineness of a squared picture in pixels per mm, as far as it stays within
// mostPixels each way.
const (
	squaredPxPerMM = 5.0
	mostPixels     = 1200.0
)

// TakePhoto lays a photo under the block, its corners to be dragged to those of the
// block. It can be taken back.
func (b Board) TakePhoto(id string, src *image.RGBA) Board {
	w, h := b.Design.Shape.Box()
	size := src.Bounds().Size()
	pw, ph := float64(size.X), float64(size.Y)
	d := b.Design
	d.Photo = &quilt.Photo{
		ID: id, WMM: clampSide(w), HMM: clampSide(h), Shown: true, Strength: 0.5,
		Corners: [4]geom.Point{
			geom.Pt(0.1*pw, 0.1*ph), geom.Pt(0.9*pw, 0.1*ph), geom.Pt(0.9*pw, 0.9*ph), geom.Pt(0.1*pw, 0.9*ph),
		},
	}
	return b.withPicture(id, src).set(d, "").under()
}

func (b Board) withPicture(id string, src *image.RGBA) Board {
	photos := map[string]*image.RGBA{id: src}
	for k, v := range b.photos {
		photos[k] = v
	}
	photos[id] = src
	b.photos = photos
	return b
}

func clampSide(mm float64) float64 {
	return math.Max(quilt.MinPhotoSide, math.Min(quilt.MaxPhotoSide, mm))
}

// GivePhoto brings the picture of the design's photo when it has been fetched.
func (b Board) GivePhoto(id string, src *image.RGBA) Board {
	if b.Design.Photo == nil || b.Design.Photo.ID != id {
		return b
	}
	b.Rev++
	return b.withPicture(id, src).under()
}

// NeedsPhoto returns the ID of the photo whose picture has to be fetched, "" for
// none.
func (b Board) NeedsPhoto() string {
	if b.Design.Photo != nil && b.Photo.Source == nil {
		return b.Design.Photo.ID
	}
	return ""
}

// SetPhoto changes the photo's true size, strength and whether it is squared up and
// shown. Values out of range are refused.
func (b Board) SetPhoto(change func(*quilt.Photo), key string) Board {
	if b.Design.Photo == nil {
		return b
	}
	d := b.Design
	p := *d.Photo
	change(&p)
	d.Photo = &p
	return b.set(d, key).under()
}

// DropPhoto takes the photo away.
func (b Board) DropPhoto() Board {
	if b.Design.Photo == nil {
		return b
	}
	d := b.Design
	d.Photo = nil
	return b.set(d, "").under()
}

// under makes the picture that lies under the drawing.
func (b Board) under() Board {
	b.Photo = Photo{}
	p := b.Design.Photo
	if p == nil || b.photos[p.ID] == nil {
		return b
	}
	src := b.photos[p.ID]
	b.Photo.Source = src
	w, h := b.Design.Shape.Box()
	middle := geom.Pt(w/2, h/2)
	if p.Squared {
		done := b.squared.of == squaringOf(*p)
		b.Photo.Trouble = sketch.CheckQuad(p.Corners) != nil || done && b.squared.img == nil
		if done && !b.Photo.Trouble {
			half := geom.Pt(p.WMM/2, p.HMM/2)
			b.Photo.Under, b.Photo.Lo, b.Photo.Hi = b.squared.img, r2.Sub(middle, half), r2.Add(middle, half)
			return b
		}
	}
	half := r2.Scale(0.5/b.photoScale(), geom.Pt(float64(src.Bounds().Dx()), float64(src.Bounds().Dy())))
	b.Photo.Under, b.Photo.Lo, b.Photo.Hi = src, r2.Sub(middle, half), r2.Add(middle, half)
	return b
}

// Squares returns what the photo has to be squared up by; false where it is not to be, or
// that is done.
func (b Board) Squares() (Squaring, bool) {
	p := b.Design.Photo
	if p == nil || !p.Squared || !p.Shown || b.Photo.Source == nil || b.Photo.Trouble {
		return Squaring{}, false
	}
	q := squaringOf(*p)
	return q, b.squared.of != q
}

// GiveSquared brings the squared picture, nil where there is none.
func (b Board) GiveSquared(q Squaring, img *image.RGBA) Board {
	b.squared = squared{q, img}
	b.Rev++
	return b.under()
}

// photoScale returns how many pixels of the photo lie on a mm of the cloth while
// its corners are being set: it is shown as large as the block.
func (b Board) photoScale() float64 {
	w, h := b.Design.Shape.Box()
	size := b.Photo.Source.Bounds().Size()
	return math.Max(float64(size.X)/w, float64(size.Y)/h)
}

// Cornering tells whether the corners of the photo are being set.
func (b Board) Cornering() bool {
	p := b.Design.Photo
	return p != nil && b.Photo.Source != nil && p.Shown && (!p.Squared || b.Photo.Trouble)
}

// PhotoCorners returns where the photo's corners lie on the cloth while they are
// being set.
func (b Board) PhotoCorners() [4]geom.Point {
	var out [4]geom.Point
	for i, c := range b.Design.Photo.Corners {
		out[i] = r2.Add(b.Photo.Lo, r2.Scale(1/b.photoScale(), c))
	}
	return out
}

// takeCorner takes the photo's corner that p is near.
func (b Board) takeCorner(p geom.Point) (Board, bool) {
	if !b.Cornering() {
		return b, false
	}
	corners := b.PhotoCorners()
	i, d := sketch.NearestDot(corners[:], p)
	if d > 2*b.reach() {
		return b, false
	}
	b.held = held{kind: corner, index: i}
	return b, true
}

// dragCorner moves the photo's corner in hand to p, within the photo.
func (b Board) dragCorner(p geom.Point) Board {
	size := b.Photo.Source.Bounds().Size()
	at := r2.Scale(b.photoScale(), r2.Sub(p, b.Photo.Lo))
	at.X = math.Max(0, math.Min(float64(size.X), at.X))
	at.Y = math.Max(0, math.Min(float64(size.Y), at.Y))
	i := b.held.index
	b.held.changed = true
	held := b.held
	b = b.SetPhoto(func(ph *quilt.Photo) { ph.Corners[i] = at }, "corner")
	b.held = held
	return b
}

// NudgeCorner moves corner i of the photo by whole pixels of it, for the keyboard.
func (b Board) NudgeCorner(i int, by geom.Point) Board {
	if !b.Cornering() || i < 0 || i > 3 {
		return b
	}
	return b.SetPhoto(func(ph *quilt.Photo) { ph.Corners[i] = r2.Add(ph.Corners[i], by) }, "nudge")
}
