package film

import (
	"image"
	"image/color"

	"unthreaded/game/look"
	"unthreaded/game/scene"
)

// shades is the number of steps from the cloth to a colour drawn on it, which soft
// edges need; crossings is that between two colours that are drawn over each other.
const (
	shades    = 14
	crossings = 5
)

// colours maps pixels to a palette made from the colours of the theme.
type colours struct {
	palette color.Palette
	index   map[color.RGBA]uint8
}

func newColours(p look.Palette) *colours {
	c := &colours{index: map[color.RGBA]uint8{}}
	tint := mixed(p.Cloth, p.Over, 0.4)
	for _, on := range []color.NRGBA{p.Chalk, p.Thread, p.Short, p.Long, p.Over, p.Ink, p.Mute, p.Line, p.Weave, tint} {
		for k := 0; k <= shades; k++ {
			c.add(mixed(p.Cloth, on, float64(k)/shades))
		}
	}
	for _, over := range []color.NRGBA{p.Thread, p.Short, p.Long, p.Cloth} {
		for _, under := range []color.NRGBA{p.Chalk, tint} {
			for k := 1; k < crossings; k++ {
				c.add(mixed(under, over, float64(k)/crossings))
			}
		}
	}
	for _, s := range scene.Strands(p) {
		for k := 1; k <= crossings; k++ {
			c.add(mixed(s[0], s[1], float64(k)/crossings))
		}
	}
	return c
}

// add adds a colour that is not there yet; GIF has room for 256.
func (c *colours) add(opaque color.NRGBA) {
	v := color.RGBA(opaque)
	if _, there := c.index[v]; !there && len(c.palette) < 256 {
		c.index[v] = uint8(len(c.palette))
		c.palette = append(c.palette, v)
	}
}

// mixed returns the colour that lies at share s from a to b.
func mixed(a, b color.NRGBA, s float64) color.NRGBA {
	at := func(x, y uint8) uint8 { return uint8(float64(x) + s*(float64(y)-float64(x)) + 0.5) }
	return color.NRGBA{R: at(a.R, b.R), G: at(a.G, b.G), B: at(a.B, b.B), A: 255}
}

// quantise returns the picture in the nearest colours of the palette. Cost O(pixels),
// and O(palette) for each colour that comes for the first time.
func (c *colours) quantise(img *image.RGBA) *image.Paletted {
	out := image.NewPaletted(img.Rect, c.palette)
	last, at := color.RGBA{}, uint8(0)
	for y := img.Rect.Min.Y; y < img.Rect.Max.Y; y++ {
		row := img.Pix[img.PixOffset(img.Rect.Min.X, y):]
		to := out.Pix[out.PixOffset(out.Rect.Min.X, y):]
		for x := 0; x < img.Rect.Dx(); x++ {
			v := color.RGBA{row[4*x], row[4*x+1], row[4*x+2], 255}
			if v != last {
				last, at = v, c.of(v)
			}
			to[x] = at
		}
	}
	return out
}

func (c *colours) of(v color.RGBA) uint8 {
	i, known := c.index[v]
	if !known {
		i = uint8(c.palette.Index(v))
		c.index[v] = i
	}
	return i
}
