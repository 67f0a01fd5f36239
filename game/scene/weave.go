package scene

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"

	"unthreaded/game/look"
)

// WeaveStep is the side in CSS pixels of the piece of weave that repeats over the cloth.
const WeaveStep = 96.0

// weaveCell is the width in CSS pixels of a thread of the weave. Found by looking: threads
// of one pixel vanish, those of three are a pattern.
const weaveCell = 2

// weave returns a plain weave of uneven threads that repeats without a seam: over and under
// in turn, each warp and weft thread a little lighter or darker, each crossing a trace more.
// Lines of one darkness would be squared paper.
func weave(pal look.Palette) *image.RGBA {
	const n = int(WeaveStep)
	strength := 1.0
	if look.Luminance(pal.Cloth) < 0.18 {
		strength = 0.6
	}
	// The same threads each time: a cloth must not change as it is laid anew.
	r := rand.New(rand.NewPCG(7, 11))
	warp, weft := threads(r, n/weaveCell), threads(r, n/weaveCell)
	var crossing [n / weaveCell][n / weaveCell]float64
	for y := range crossing {
		for x := range crossing[y] {
			crossing[y][x] = uneven(r, 0.006)
		}
	}
	img := image.NewRGBA(image.Rect(0, 0, n, n))
	for y := range n {
		for x := range n {
			i, j := x/weaveCell, y/weaveCell
			over := 0.012
			if (i+j)%2 == 1 {
				over = -over
			}
			img.SetRGBA(x, y, lit(pal.Cloth, strength*(over+warp[i]+weft[j]+crossing[j][i])))
		}
	}
	return img
}

// threads returns how much lighter each of n threads side by side is than the cloth. Each
// differs from its neighbours, but not their mean from the rest, which would be a band.
func threads(r *rand.Rand, n int) []float64 {
	raw, out := make([]float64, n), make([]float64, n)
	for i := range raw {
		raw[i] = uneven(r, 0.0175)
	}
	for i := range out {
		mean := 0.0
		for d := -3; d <= 3; d++ {
			mean += raw[(i+d+n)%n] / 7
		}
		out[i] = raw[i] - mean
	}
	return out
}

// uneven returns a number from -by to by.
func uneven(r *rand.Rand, by float64) float64 { return by * (2*r.Float64() - 1) }

// lit makes a colour lighter by a share of the whole range, or darker.
func lit(c color.NRGBA, by float64) color.RGBA {
	m := func(v uint8) uint8 { return uint8(math.Max(0, math.Min(255, math.Round(float64(v)+255*by)))) }
	return color.RGBA{R: m(c.R), G: m(c.G), B: m(c.B), A: 255}
}
