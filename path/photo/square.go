package photo

import (
	"fmt"
	"image"
	"image/draw"
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/sketch"
)

// MaxSquared bounds the sides of a squared picture, in pixels.
const MaxSquared = 4096

// mostSamples bounds the samples on one side of a pixel when a picture shrinks.
const mostSamples = 16

// Square takes a block out of a photo and gives it the shape and size it has in
// truth: quad are its corners in the photo, upper left, upper right, lower right,
// lower left, in pixels (the first pixel covers 0 to 1 both ways), and the result is
// wMM by hMM at pxPerMM pixels a mm, rounded up to whole pixels. Pixels are
// interpolated between the four around (bilinear); where the photo is finer than the
// result, the mean of as many samples as it has pixels there is taken. What lies
// outside the photo stays transparent. Lens distortion is not undone.
//
// It fails on a quad that is no view of a rectangle (sketch.CheckQuad), and on a size that
// is not from 1 to MaxSquared pixels. Cost O(pixels of the result and of the quad).
func Square(src image.Image, quad [4]geom.Point, wMM, hMM, pxPerMM float64) (*image.RGBA, error) {
	w, h := math.Ceil(wMM*pxPerMM-1e-9), math.Ceil(hMM*pxPerMM-1e-9)
	if !(wMM > 0 && hMM > 0 && pxPerMM > 0 && w <= MaxSquared && h <= MaxSquared) {
		return nil, fmt.Errorf("a picture of %v by %v mm at %v pixels a mm: it takes 1 to %d pixels each way", wMM, hMM, pxPerMM, MaxSquared)
	}
	if err := sketch.CheckQuad(quad); err != nil {
		return nil, err
	}
	pw, ph := wMM*pxPerMM, hMM*pxPerMM
	corners := []geom.Point{{}, geom.Pt(pw, 0), geom.Pt(pw, ph), geom.Pt(0, ph)}
	toPhoto, err := FindHomography(corners, quad[:])
	if err != nil {
		return nil, err
	}
	photo := asRGBA(src)
	out := image.NewRGBA(image.Rect(0, 0, int(w), int(h)))
	for y := range int(h) {
		for x := range int(w) {
			shade(out.Pix[out.PixOffset(x, y):], photo, toPhoto, float64(x), float64(y))
		}
	}
	return out, nil
}

func asRGBA(src image.Image) *image.RGBA {
	if rgba, ok := src.(*image.RGBA); ok {
		return rgba
	}
	out := image.NewRGBA(src.Bounds())
	draw.Draw(out, out.Bounds(), src, src.Bounds().Min, draw.Src)
	return out
}

// shade sets the four bytes at pix to the mean colour that pixel (x, y) of the
// result has in the photo.
func shade(pix []uint8, photo *image.RGBA, toPhoto Homography, x, y float64) {
	centre := toPhoto.Apply(geom.Pt(x+0.5, y+0.5))
	nx := samples(geom.Dist(centre, toPhoto.Apply(geom.Pt(x+1.5, y+0.5))))
	ny := samples(geom.Dist(centre, toPhoto.Apply(geom.Pt(x+0.5, y+1.5))))
	var sum [4]float64
	for j := range ny {
		for i := range nx {
			p := geom.Pt(x+(float64(i)+0.5)/float64(nx), y+(float64(j)+0.5)/float64(ny))
			addSample(&sum, photo, toPhoto.Apply(p))
		}
	}
	for c, v := range sum {
		pix[c] = uint8(v/float64(nx*ny) + 0.5)
	}
}

// samples is how many samples a step of so many pixels of the photo takes.
func samples(step float64) int { return int(math.Max(1, math.Min(mostSamples, math.Ceil(step-1e-6)))) }

// addSample adds the colour of the photo at p, interpolated between the centres of
// the four pixels around; at the rim the nearest pixel stands for those outside.
func addSample(sum *[4]float64, photo *image.RGBA, p geom.Point) {
	b := photo.Rect
	x, y := p.X-float64(b.Min.X), p.Y-float64(b.Min.Y)
	w, h := b.Dx(), b.Dy()
	if !(x >= 0 && y >= 0 && x <= float64(w) && y <= float64(h)) {
		return
	}
	x0, y0 := math.Floor(x-0.5), math.Floor(y-0.5)
	fx, fy := x-0.5-x0, y-0.5-y0
	left, right := max(0, int(x0)), min(w-1, int(x0)+1)
	upper, lower := max(0, int(y0))*photo.Stride, min(h-1, int(y0)+1)*photo.Stride
	for c := range sum {
		a := (1-fx)*float64(photo.Pix[upper+4*left+c]) + fx*float64(photo.Pix[upper+4*right+c])
		d := (1-fx)*float64(photo.Pix[lower+4*left+c]) + fx*float64(photo.Pix[lower+4*right+c])
		sum[c] += (1-fy)*a + fy*d
	}
}
