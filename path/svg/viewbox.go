package svg

import (
	"errors"
	"fmt"
	"math"
	"strings"
)

// box is an upright rectangle.
type box struct{ x, y, w, h float64 }

// viewBox reads the attribute of n; ok tells that there is one.
func (n *node) viewBox() (b box, ok bool, err error) {
	text := n.attr("viewBox")
	if text == "" || text == "none" {
		return box{}, false, nil
	}
	v, err := numbers(text, 4)
	if err != nil {
		return box{}, false, fmt.Errorf("viewBox %q: %w", clip(text, 40), err)
	}
	if len(v) != 4 {
		return box{}, false, fmt.Errorf("viewBox %q: it has %d numbers and needs 4", clip(text, 40), len(v))
	}
	if !(v[2] > 0 && v[3] > 0) {
		return box{}, false, fmt.Errorf("viewBox %q: its width and height must be greater than 0", clip(text, 40))
	}
	return box{v[0], v[1], v[2], v[3]}, true, nil
}

// fit returns the map that lays the viewBox into the viewport by the attribute
// preserveAspectRatio of n, by the algorithm of SVG 2, 8.2 (SVG 1.1, 7.8).
func (n *node) fit(view, into box) (matrix, error) {
	sx, sy := into.w/view.w, into.h/view.h
	align, slice, err := aspect(n.attr("preserveAspectRatio"))
	if err != nil {
		return identity, err
	}
	x, y := into.x, into.y
	if align != "none" {
		s := math.Min(sx, sy)
		if slice {
			s = math.Max(sx, sy)
		}
		sx, sy = s, s
		x += (into.w - s*view.w) * place(align[:4])
		y += (into.h - s*view.h) * place(align[4:])
	}
	return matrix{sx, 0, 0, sy, x - sx*view.x, y - sy*view.y}, nil
}

// place is the share of the spare room that comes before the drawing.
func place(word string) float64 {
	switch strings.ToLower(word[1:]) {
	case "min":
		return 0
	case "mid":
		return 0.5
	default:
		return 1
	}
}

// aspect reads preserveAspectRatio; "defer" counts for images only.
func aspect(text string) (align string, slice bool, err error) {
	w := strings.Fields(clip(text, 100))
	if len(w) > 0 && w[0] == "defer" {
		w = w[1:]
	}
	if len(w) == 0 {
		return "xMidYMid", false, nil
	}
	bad := fmt.Errorf("preserveAspectRatio %q is not one of SVG's", clip(text, 40))
	switch w[0] {
	case "none", "xMinYMin", "xMidYMin", "xMaxYMin", "xMinYMid", "xMidYMid", "xMaxYMid", "xMinYMax", "xMidYMax", "xMaxYMax":
	default:
		return "", false, bad
	}
	if len(w) > 2 || len(w) == 2 && w[1] != "meet" && w[1] != "slice" {
		return "", false, bad
	}
	return w[0], len(w) == 2 && w[1] == "slice", nil
}

// defaultViewport is that of a file which states no size, in pixels (CSS 2.1,
// 10.3.2, for replaced elements); only percentages meet it.
var defaultViewport = viewport{300, 150}

// page works out the size of the outermost svg in mm, the map from user units to
// mm and the viewport in user units. Without a size the page is as large as its
// viewBox in pixels of 1/96 inch; with one of the two sizes it keeps the shape of
// its viewBox. sized is false where the file states neither.
func (n *node) page() (w, h float64, m matrix, v viewport, sized bool, err error) {
	view, boxed, err := n.viewBox()
	if err != nil {
		return 0, 0, m, v, false, err
	}
	if w, err = n.physical("width"); err == nil {
		h, err = n.physical("height")
	}
	if err != nil {
		return 0, 0, m, v, false, err
	}
	sized = boxed || w > 0 && h > 0
	switch {
	case boxed && w == 0 && h == 0:
		w, h = view.w*pixel, view.h*pixel
	case boxed && h == 0:
		h = w * view.h / view.w
	case boxed && w == 0:
		w = h * view.w / view.h
	}
	m, v = scaling(pixel, pixel), viewport{w / pixel, h / pixel}
	if !sized {
		v = defaultViewport
	}
	if boxed {
		v = viewport{view.w, view.h}
		m, err = n.fit(view, box{0, 0, w, h})
	}
	if !(w <= MaxPlace && h <= MaxPlace) {
		err = fmt.Errorf("the page of %.4g x %.4g mm is larger than %g mm", w, h, MaxPlace)
	}
	return w, h, m, v, sized, err
}

// physical returns a size of the outermost svg in mm, 0 if it is a share of a
// window that is not there, or absent.
func (n *node) physical(name string) (float64, error) {
	text := n.attr(name)
	if text == "" || text == "auto" {
		return 0, nil
	}
	l, err := parseLength(text)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", name, err)
	}
	if l.unit == "%" {
		return 0, nil
	}
	if !(l.value > 0) {
		return 0, errors.New(name + " must be greater than 0")
	}
	return l.value * absolute[l.unit], nil
}
