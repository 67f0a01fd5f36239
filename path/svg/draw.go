package svg

import (
	"errors"
	"fmt"
	"strings"
)

// groups are the elements that hold others, each with what draws them.
var groups map[string]func(*drawer, *node, state) error

func init() { // a map literal would refer to itself through element
	groups = map[string]func(*drawer, *node, state) error{
		"g": (*drawer).children, "a": (*drawer).children, "svg": (*drawer).nested, "use": (*drawer).use,
		"switch": (*drawer).choose,
	}
}

// children draws the elements in n. Circles that picture the dots of the line
// before them are passed over.
func (d *drawer) children(n *node, s state) error {
	dots := 0
	for _, k := range n.kids {
		if dots > 0 && k.name == "circle" && k.attr("class") == dotClass {
			dots--
			continue
		}
		before := len(d.out.Lines)
		if err := d.element(k, s); err != nil {
			return err
		}
		if shapes[k.name] != nil && len(d.out.Lines) == before+1 {
			dots = len(d.out.Lines[before].Dots)
		}
	}
	return nil
}

// choose draws the first element of a switch that depends on nothing, or only on
// features of SVG itself (SVG 1.1, 5.8.2).
func (d *drawer) choose(n *node, s state) error {
	for _, k := range n.kids {
		if silent[k.name] || k.attr("requiredExtensions") != "" || k.attr("systemLanguage") != "" {
			continue
		}
		return d.element(k, s)
	}
	d.report(n, LeftOut, errors.New("left out: nothing in it is without a condition"))
	return nil
}

// shape draws the lines of one shape.
func (d *drawer) shape(n *node, draw func(*node, *pen, viewport) error, s state) error {
	if s.hidden {
		d.report(n, LeftOut, errors.New("left out: visibility is hidden"))
		return nil
	}
	p := &pen{m: s.m, curves: &d.curves}
	err := draw(n, p, s.view)
	strokes, broken := p.end()
	if errors.Is(broken, errFull) {
		return stop(n, "%w", broken)
	}
	for _, e := range []error{err, broken} {
		if e != nil {
			d.fault(n, e, len(strokes))
		}
	}
	dots, err := d.dotsOf(n, strokes, s.m)
	if err != nil {
		d.report(n, LeftOut, fmt.Errorf("its dots are left out: %w", err))
	}
	for i, st := range strokes {
		if len(d.out.Lines) == MaxLines {
			return stop(n, "there are more than %d lines", MaxLines)
		}
		l := Line{Name: s.name, Kind: s.kind, Path: st.path, Closed: st.closed}
		if i == 0 {
			l.Dots = dots
		} else if l.Name != "" {
			l.Name = fmt.Sprintf("%s %d", l.Name, i+1)
		}
		d.out.Lines = append(d.out.Lines, l)
	}
	return nil
}

// fault reports a fault and what became of the shape.
func (d *drawer) fault(n *node, err error, strokes int) {
	if errors.Is(err, errNoLength) || strokes == 0 {
		d.report(n, LeftOut, fmt.Errorf("left out: %w", err))
		return
	}
	d.report(n, UpToFault, fmt.Errorf("read only up to a fault: %w", err))
}

// nested draws an svg within another.
func (d *drawer) nested(n *node, s state) error {
	into := box{w: s.view.w, h: s.view.h}
	err := n.measures(s.view, measured{"x", across, &into.x}, measured{"y", down, &into.y})
	if err == nil {
		into.w, into.h, err = n.extent(s.view, into.w, into.h)
	}
	if err != nil {
		d.report(n, LeftOut, fmt.Errorf("left out: %w", err))
		return nil
	}
	return d.viewport(n, s, into)
}

// size reads width and height of n.
func (n *node) extent(v viewport, w, h float64) (float64, float64, error) {
	w, err := n.measure("width", v, across, w)
	if err == nil {
		h, err = n.measure("height", v, down, h)
	}
	return w, h, err
}

// viewport draws the elements in n, an svg or a symbol, in a viewport of its own.
func (d *drawer) viewport(n *node, s state, into box) error {
	view, boxed, err := n.viewBox()
	if err == nil {
		err = drawable("width or height", into.w, into.h)
	}
	m := translation(into.x, into.y)
	if err == nil && boxed {
		m, err = n.fit(view, into)
	}
	if err != nil {
		d.report(n, LeftOut, fmt.Errorf("left out: %w", err))
		return nil
	}
	s.m = s.m.times(m)
	s.view = viewport{into.w, into.h}
	if boxed {
		s.view = viewport{view.w, view.h}
	}
	return d.children(n, s)
}

// use draws the element that n refers to once more (SVG 2, 5.6).
func (d *drawer) use(n *node, s state) error {
	ref := n.href()
	target := d.byID[strings.TrimPrefix(ref, "#")]
	var x, y float64
	err := n.measures(s.view, measured{"x", across, &x}, measured{"y", down, &y})
	switch {
	case err != nil:
	case ref == "":
		err = errors.New("it refers to nothing")
	case !strings.HasPrefix(ref, "#"):
		err = fmt.Errorf("it refers to %q, and only the file itself is read", clip(ref, 60))
	case target == nil:
		err = fmt.Errorf("there is no element with the id %q", clip(ref[1:], 60))
	case target.drawn > 0:
		err = fmt.Errorf("it refers to %q, which holds it", clip(ref[1:], 60))
	case target.name != "symbol" && (silent[target.name] || defined[target.name] != nil):
		err = fmt.Errorf("it refers to a %s, which draws nothing", target.name)
	}
	if err != nil {
		d.report(n, LeftOut, fmt.Errorf("left out: %w", err))
		return nil
	}
	s.m = s.m.times(translation(x, y))
	return d.again(n, target, s)
}

// again draws target in place of the use n.
func (d *drawer) again(n, target *node, s state) error {
	if target.name != "symbol" && target.name != "svg" {
		return d.element(target, s)
	}
	s, err := d.spend(target, s)
	if err != nil {
		return err
	}
	target.drawn++
	defer func() { target.drawn-- }()
	var into box
	if s, err = target.inherit(s); err == nil {
		err = target.measures(s.view, measured{"x", across, &into.x}, measured{"y", down, &into.y})
	}
	if err == nil { // the size of the use goes before that of what it draws
		into.w, into.h, err = target.extent(s.view, s.view.w, s.view.h)
	}
	if err == nil {
		into.w, into.h, err = n.extent(s.view, into.w, into.h)
	}
	if err != nil {
		d.report(target, LeftOut, fmt.Errorf("left out: %w", err))
		return nil
	}
	return d.viewport(target, s, into)
}
