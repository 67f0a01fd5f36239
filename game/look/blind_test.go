package look

import (
	"image/color"
	"math"
	"testing"
)

// matrix turns linear RGB into what is seen with a colour vision deficiency of full
// severity: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A Physiologically-based Model
// for Simulation of Color Vision Deficiency", IEEE Transactions on Visualization and Computer
// Graphics 15 (6), 2009, table of severity 1.0 (values from memory; that greys stay grey, as
// in the paper, is checked below).
type matrix [3][3]float64

var blindness = map[string]matrix{
	"protanopia": {
		{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998},
	},
	"deuteranopia": {
		{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881},
	},
	"tritanopia": {
		{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900},
	},
}

func (m matrix) seen(c color.NRGBA) [3]float64 {
	in := [3]float64{linear(c.R), linear(c.G), linear(c.B)}
	var out [3]float64
	for i, row := range m {
		v := row[0]*in[0] + row[1]*in[1] + row[2]*in[2]
		out[i] = math.Max(0, math.Min(1, v))
	}
	return out
}

func light(c [3]float64) float64 { return 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2] }

// lab is CIE L*a*b* (ISO/CIE 11664-4) of linear sRGB (IEC 61966-2-1), white D65.
func lab(c [3]float64) [3]float64 {
	x := (0.4124*c[0] + 0.3576*c[1] + 0.1805*c[2]) / 0.9505
	y := 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2]
	z := (0.0193*c[0] + 0.1192*c[1] + 0.9505*c[2]) / 1.089
	f := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return (24389.0/27*t + 16) / 116
	}
	return [3]float64{116*f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))}
}

func apart(a, b [3]float64) float64 {
	p, q := lab(a), lab(b)
	return math.Sqrt((p[0]-q[0])*(p[0]-q[0]) + (p[1]-q[1])*(p[1]-q[1]) + (p[2]-q[2])*(p[2]-q[2]))
}

func TestGreysStayGreyForEveryEye(t *testing.T) {
	for name, m := range blindness {
		for i, row := range m {
			if sum := row[0] + row[1] + row[2]; math.Abs(sum-1) > 1e-5 {
				t.Errorf("%s: row %d sums to %v", name, i, sum)
			}
		}
	}
}

// Every mark keeps 3 to 1 against the cloth (WCAG 2.2, 1.4.11) for every eye, and short and
// long stitches stay far apart in colour: a difference of 2.3 is just noticed (CIE 1976, M.
// Mahy et al., Color Research & Application 19, 1994), 20 is another colour at a glance
// (common practice). Shape tells them apart besides, also in grey.
func TestMarksAreSeenByEveryEye(t *testing.T) {
	for _, theme := range Fabrics {
		p := Of(theme)
		for name, m := range blindness {
			for mark, c := range map[string]color.NRGBA{"chalk": p.Chalk, "thread": p.Thread, "long": p.Long, "short": p.Short, "over": p.Over} {
				a, b := light(m.seen(c)), light(m.seen(p.Cloth))
				if r := (math.Max(a, b) + 0.05) / (math.Min(a, b) + 0.05); r < 3 {
					t.Errorf("%s, %s: %s on cloth is %.2f to 1", theme, name, mark, r)
				}
			}
			if d := apart(m.seen(p.Short), m.seen(p.Long)); d < 20 {
				t.Errorf("%s, %s: short and long are %.1f apart", theme, name, d)
			}
		}
	}
}
