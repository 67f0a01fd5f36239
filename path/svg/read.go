package svg

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
)

// Read reads the line work of an SVG file in UTF-8 or Latin 1. What is no line, what
// is hidden and what is faulty in one element stands in Unread, and the rest is
// read; path data with a fault is read up to it. An error means that the file is no
// SVG, that its XML or its page is faulty, or that it exceeds one of the limits; it
// names the line of the file. Cost O(size of the file + what use draws again),
// bounded by the limits.
func Read(r io.Reader) (Drawing, error) {
	t, err := parse(r)
	if err != nil {
		return Drawing{}, err
	}
	d := &drawer{tree: t, curves: MaxCurves, bytes: MaxDrawnBytes, known: map[Unread]bool{}}
	d.out.Title, d.out.Desc = t.root.title, t.root.desc
	w, h, m, view, sized, err := t.root.page()
	if err != nil {
		return Drawing{}, fmt.Errorf("%s: %w", t.root.where(), err)
	}
	d.survey(t.root)
	if err := d.outermost(t.root, state{m: m, view: view, kind: Sewn}); err != nil {
		return Drawing{}, err
	}
	d.out.W, d.out.H = w, h
	if !sized {
		d.out.grow()
	}
	if d.unread > MaxUnread {
		more := Unread{Code: More, Of: strconv.Itoa(d.unread - MaxUnread), What: fmt.Errorf("%d more things are not read", d.unread-MaxUnread).Error()}
		d.out.Unread = append(d.out.Unread, more)
	}
	return d.out, nil
}

// outermost draws the whole file. Its own place on a screen is no matter of ours.
func (d *drawer) outermost(root *node, s state) error {
	if root.attr("transform") != "" {
		d.report(root, NotRead, errors.New("transform of the outermost svg is not read"))
	}
	if name := root.moved(); name != "" {
		d.report(root, NotRead, fmt.Errorf("%s in the style of the outermost svg is not read", name))
	}
	s, err := root.seen(s)
	if err != nil {
		d.report(root, LeftOut, fmt.Errorf("left out: %w", err))
		return nil
	}
	root.drawn++
	return d.children(root, s)
}

// grow makes a page without size reach to the farthest line.
func (d *Drawing) grow() {
	var w, h float64
	for _, l := range d.Lines {
		_, far := l.Path.Bounds()
		w, h = math.Max(w, far.X), math.Max(h, far.Y)
	}
	if d.W == 0 {
		d.W = w
	}
	if d.H == 0 {
		d.H = h
	}
}

// drawer goes through the elements of a file in the order in which they are drawn.
type drawer struct {
	*tree
	out    Drawing
	drawn  int
	bytes  int // what is left of MaxDrawnBytes
	curves int // what is left of MaxCurves
	dots   int
	unread int
	known  map[Unread]bool
}

// report notes that something about n is not read.
func (d *drawer) report(n *node, code UnreadCode, what error) {
	u := Unread{Code: code, Of: clip(n.name, 40), What: what.Error(), Where: n.where()}
	if d.known[u] {
		return // use draws it again
	}
	if d.unread++; d.unread <= MaxUnread {
		d.known[u] = true
		d.out.Unread = append(d.out.Unread, u)
	}
}

// stop is the error of a limit that n exceeds.
func stop(n *node, format string, args ...any) error {
	return fmt.Errorf("%s: "+format, append([]any{n.where()}, args...)...)
}

// defined are elements that draw nothing themselves and change what others draw,
// wherever they stand.
var defined = map[string]error{
	"clipPath": errors.New("clip paths are not read: lines are whole"),
	"mask":     errors.New("masks are not read: lines are whole"),
	"pattern":  errors.New("patterns are not read"),
	"marker":   errors.New("markers are not read"),
	"script":   errors.New("scripts are not run"),
	"animate":  errors.New("animation is not read"), "animateTransform": errors.New("animation is not read"),
	"animateMotion": errors.New("animation is not read"), "set": errors.New("animation is not read"),
}

// silent are elements that draw nothing and change no line.
var silent = map[string]bool{
	"title": true, "desc": true, "defs": true, "symbol": true, "style": true, "filter": true, "view": true,
	"linearGradient": true, "radialGradient": true, "stop": true, "cursor": true, "font": true, "color-profile": true,
}

// survey reports once, wherever they stand, the elements that change what others
// draw, and the style rules that would.
func (d *drawer) survey(n *node) {
	if what := defined[n.name]; what != nil {
		d.report(n, NotRead, what)
		return
	}
	if n.name == "style" {
		for _, name := range rules(n.css) {
			d.report(n, NotRead, fmt.Errorf("style rules for %s are not read", name))
		}
	}
	for _, k := range n.kids {
		d.survey(k)
	}
}

// element draws one element with all that is in it.
func (d *drawer) element(n *node, s state) error {
	if silent[n.name] || defined[n.name] != nil {
		return nil
	}
	s, err := d.spend(n, s)
	if err != nil {
		return err
	}
	n.drawn++
	defer func() { n.drawn-- }()
	draw := shapes[n.name]
	group := groups[n.name]
	if draw == nil && group == nil {
		d.report(n, NotRead, fmt.Errorf("%s is not read", clip(n.name, 40)))
		return nil
	}
	if s, err = n.inherit(s); err != nil {
		d.report(n, LeftOut, fmt.Errorf("left out: %w", err))
		return nil
	}
	for _, w := range n.warnings() {
		d.report(n, NotRead, w)
	}
	if draw == nil {
		return group(d, n, s)
	}
	return d.shape(n, draw, s)
}

// spend counts n among what is drawn, down to its bytes: use may draw it often.
func (d *drawer) spend(n *node, s state) (state, error) {
	if d.drawn++; d.drawn > MaxDrawn {
		return s, stop(n, "more than %d elements are to be drawn", MaxDrawn)
	}
	if s.depth++; s.depth > MaxDepth {
		return s, stop(n, "elements and uses stand deeper than %d within each other", MaxDepth)
	}
	if d.bytes -= n.size; d.bytes < 0 {
		return s, stop(n, "more than %d MB of attributes are to be drawn", MaxDrawnBytes>>20)
	}
	return s, nil
}

// seen returns the state within n as far as the looks of n go.
func (n *node) seen(s state) (state, error) {
	if n.property("display") == "none" {
		return s, errors.New("display is none")
	}
	if n.attr("requiredExtensions") != "" {
		return s, errors.New("it asks for an extension of SVG")
	}
	switch n.property("visibility") {
	case "hidden", "collapse":
		s.hidden = true
	case "visible":
		s.hidden = false
	}
	s.kind = n.kind(s.kind)
	return s, nil
}

// inherit returns the state within n.
func (n *node) inherit(s state) (state, error) {
	s, err := n.seen(s)
	if err != nil {
		return s, err
	}
	if name := n.moved(); name != "" {
		return s, fmt.Errorf("%s is set in a way that is not read", name)
	}
	m, err := transform(n.attr("transform"))
	if err != nil {
		return s, fmt.Errorf("transform: %w", err)
	}
	s.m = s.m.times(m)
	if l := n.label(); l != "" {
		s.name = l
	}
	return s, nil
}
