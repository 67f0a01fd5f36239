package look

import (
	"image/color"
	"math"
	"testing"
)

// contrast is the ratio of WCAG 2.2 (W3C Recommendation, 2023), "contrast ratio".
func contrast(a, b color.NRGBA) float64 {
	la, lb := Luminance(a), Luminance(b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}

// WCAG 2.2: 4.5 to 1 for text (1.4.3), 3 to 1 for graphics that carry meaning
// (1.4.11). Black on white is 21 to 1 by definition.
func TestContrast(t *testing.T) {
	if c := contrast(color.NRGBA{A: 255}, color.NRGBA{R: 255, G: 255, B: 255, A: 255}); math.Abs(c-21) > 1e-9 {
		t.Fatalf("black on white is %v to 1, want 21", c)
	}
	for _, theme := range append([]Theme{Light, Dark}, Fabrics...) {
		p := Of(theme)
		for _, c := range []struct {
			name string
			a, b color.NRGBA
			want float64
		}{
			{"ink on paper", p.Ink, p.Paper, 4.5},
			{"mute on paper", p.Mute, p.Paper, 4.5},
			{"ink on cloth", p.Ink, p.Cloth, 4.5},
			{"mute on cloth", p.Mute, p.Cloth, 4.5},
			{"chalk on cloth", p.Chalk, p.Cloth, 3},
			{"thread on cloth", p.Thread, p.Cloth, 3},
			{"thread on paper", p.Thread, p.Paper, 4.5},
			{"chalk on paper", p.Chalk, p.Paper, 3},
			{"second trace on paper", p.Over, p.Paper, 3},
			{"cloth on the second trace", p.Cloth, p.Over, 3},
			{"long on cloth", p.Long, p.Cloth, 3},
			{"short on cloth", p.Short, p.Cloth, 3},
			{"second trace on cloth", p.Over, p.Cloth, 3},
		} {
			if got := contrast(c.a, c.b); got < c.want {
				t.Errorf("%s: %s is %.2f to 1, want at least %.1f", theme, c.name, got, c.want)
			}
		}
	}
}

func TestUnknownThemeIsLight(t *testing.T) {
	if Of("sepia") != Of(Light) || Of(Dark) == Of(Light) {
		t.Error("the themes are mixed up")
	}
}
