package scene

import (
	"image/color"

	"unthreaded/game/look"
	"unthreaded/path/geom"
)

// strand holds the colours of one thread in the light: its body, the side towards the
// light and the one away from it, the shadow on the cloth and the holes in it. All are
// opaque, mixed with the cloth beforehand.
type strand struct {
	body, light, shade, shadow, hole color.NRGBA
}

var (
	black = color.NRGBA{A: 255}
	white = color.NRGBA{R: 255, G: 255, B: 255, A: 255}
	// fromLight is the way of the light over the table: from the upper left.
	fromLight = geom.Pt(0.55, 0.83)
)

// strandOf mixes the colours of a thread on the cloth of the palette. On dark cloth a
// shadow hardly shows, so that light and shade are stronger there.
func strandOf(body color.NRGBA, pal look.Palette) strand {
	if look.Luminance(pal.Cloth) < 0.18 {
		return strand{
			body: body, light: Mix(body, white, 0.65), shade: Mix(body, pal.Cloth, 0.5),
			shadow: Mix(pal.Cloth, black, 0.42), hole: Mix(pal.Cloth, black, 0.62),
		}
	}
	return strand{
		body: body, light: Mix(body, white, 0.36), shade: Mix(body, black, 0.42),
		shadow: Mix(pal.Cloth, black, 0.26), hole: Mix(pal.Cloth, black, 0.55),
	}
}

// Strands returns the pairs of colours that meet within a strand of each thread: its body
// with its light and with its shade.
func Strands(pal look.Palette) (pairs [][2]color.NRGBA) {
	for _, c := range []color.NRGBA{pal.Thread, pal.Short, pal.Long} {
		s := strandOf(c, pal)
		pairs = append(pairs, [2]color.NRGBA{s.body, s.light}, [2]color.NRGBA{s.body, s.shade})
	}
	return pairs
}

// Ghost is the colour of chalk that has been sewn over.
func Ghost(pal look.Palette) color.NRGBA { return Mix(pal.Cloth, pal.Chalk, 0.45) }
