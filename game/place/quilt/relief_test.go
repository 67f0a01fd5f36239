package quilt

import (
	"image/color"
	"math"
	"testing"

	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/path/quilt"
)

// The lines stay at 3:1 on every piece of cloth, however the light lies on it (WCAG 2.2,
// success criterion 1.4.11; the formula is that of "contrast ratio" there).
func TestLinesAreSeenOnTheRelief(t *testing.T) {
	channel := func(v uint8) float64 {
		if s := float64(v) / 255; s > 0.04045 {
			return math.Pow((s+0.055)/1.055, 2.4)
		} else {
			return s / 12.92
		}
	}
	luminance := func(c color.NRGBA) float64 { return 0.2126*channel(c.R) + 0.7152*channel(c.G) + 0.0722*channel(c.B) }
	ratio := func(a, b color.NRGBA) float64 {
		x, y := luminance(a), luminance(b)
		return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
	}
	for _, fabric := range look.Fabrics {
		pal := look.Of(fabric)
		light, dark := scene.ReliefLight(pal)
		for _, kind := range []quilt.Kind{quilt.Block, quilt.Alternate, quilt.Strip, quilt.Cornerstone} {
			tint := pieceTint(kind, pal)
			for name, lit := range map[string]color.NRGBA{
				"light": scene.Mix(tint, color.NRGBA{255, 255, 255, 255}, light), "shade": scene.Mix(tint, color.NRGBA{A: 255}, dark),
			} {
				if got := ratio(awayChalk(pal), lit); got < 3 {
					t.Errorf("%s, %s in the %s: chalk has %.2f to 1", fabric, kind, name, got)
				}
			}
		}
	}
}
