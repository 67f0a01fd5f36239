package svg

import (
	"fmt"
	"math"
	"strings"
)

// pixel is the size in mm of a user unit of a page without physical size: 96 to
// the inch (CSS Values and Units Level 3, 5.2).
const pixel = 25.4 / 96

// absolute holds the units of length that stand for a fixed number of mm (there).
var absolute = map[string]float64{
	"": pixel, "px": pixel, "mm": 1, "cm": 10, "q": 0.25, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6,
}

// length is a number with its unit: "" for user units, "%" for a share.
type length struct {
	value float64
	unit  string
}

func parseLength(text string) (length, error) {
	s := scanner{text: strings.TrimSpace(text)}
	v, err := s.number()
	if err != nil {
		return length{}, fmt.Errorf("the length %q: %w", clip(text, 30), err)
	}
	unit := strings.ToLower(s.text[s.pos:])
	if _, ok := absolute[unit]; !ok && unit != "%" {
		return length{}, fmt.Errorf("the length %q: unit %q is not read", clip(text, 30), clip(unit, 10))
	}
	return length{v, unit}, nil
}

// viewport is what percentages are taken of: the size of the innermost viewport, in
// user units.
type viewport struct{ w, h float64 }

// axis tells which size of the viewport a percentage is a share of.
type axis int

const (
	across axis = iota // its width
	down               // its height
	either             // sqrt((w^2+h^2)/2), as for radii (SVG 1.1, 7.10)
)

func (v viewport) share(percent float64, a axis) float64 {
	switch a {
	case across:
		return v.w * percent / 100
	case down:
		return v.h * percent / 100
	default:
		return math.Sqrt((v.w*v.w+v.h*v.h)/2) * percent / 100
	}
}

// units returns the length in user units; a physical unit inside a drawing is a
// number of pixels of 1/96 inch, whatever these are scaled to.
func (l length) units(v viewport, a axis) float64 {
	switch l.unit {
	case "%":
		return v.share(l.value, a)
	case "":
		return l.value
	default:
		return l.value * absolute[l.unit] / pixel
	}
}

// measure reads the attribute of n as a length in user units, or returns the
// default where it is absent or "auto".
func (n *node) measure(name string, v viewport, a axis, absent float64) (float64, error) {
	text := n.attr(name)
	if text == "" || text == "auto" {
		return absent, nil
	}
	l, err := parseLength(text)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", name, err)
	}
	return l.units(v, a), nil
}

// measures reads several attributes of n, 0 where absent.
func (n *node) measures(v viewport, of ...measured) error {
	for _, m := range of {
		value, err := n.measure(m.name, v, m.axis, 0)
		if err != nil {
			return err
		}
		*m.into = value
	}
	return nil
}

// measured is an attribute that holds a length, and where it goes.
type measured struct {
	name string
	axis axis
	into *float64
}
