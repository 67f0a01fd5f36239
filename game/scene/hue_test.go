package scene_test

import (
	"image/color"
	"math"
	"testing"

	"unthreaded/game/look"
	"unthreaded/game/scene"
)

// lightnessOf returns L* of a colour in sRGB (IEC 61966-2-1 and CIE 015:2018, from memory; the grey
// 119 of 255 has 50.0 there).
func lightnessOf(c color.NRGBA) float64 {
	linear := func(v uint8) float64 {
		if u := float64(v) / 255; u > 0.04045 {
			return math.Pow((u+0.055)/1.055, 2.4)
		}
		return float64(v) / 255 / 12.92
	}
	return 116*math.Cbrt(0.2126*linear(c.R)+0.7152*linear(c.G)+0.0722*linear(c.B)) - 16
}

// Along a route the thread changes its lightness by the same for each stretch, so that the
// order shows in grey from its first move to its last; and its palest is told from cloth.
func TestHueStepsAreEvenInGrey(t *testing.T) {
	if l := lightnessOf(color.NRGBA{R: 119, G: 119, B: 119}); math.Abs(l-50) > 0.1 {
		t.Fatalf("the grey 119 has L* %.2f", l)
	}
	for _, theme := range []look.Theme{look.Light, look.Dark} {
		pal := look.Of(theme)
		first, last := lightnessOf(scene.Hue(pal, 0)), lightnessOf(scene.Hue(pal, 1))
		for k := range 21 {
			want := first + (last-first)*float64(k)/20
			if got := lightnessOf(scene.Hue(pal, float64(k)/20)); math.Abs(got-want) > 0.7 {
				t.Errorf("%v: L* is %.1f after %d twentieths, evenly it is %.1f", theme, got, k, want)
			}
		}
		if away := math.Abs(first - lightnessOf(pal.Cloth)); away < 30 {
			t.Errorf("%v: the palest thread is only %.1f of L* from cloth", theme, away)
		}
		if span := math.Abs(last - first); span < 35 {
			t.Errorf("%v: from first to last L* changes by %.1f only", theme, span)
		}
	}
}
