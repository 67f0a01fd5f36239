package svg

import (
	"errors"
	"fmt"
	"math"

	"unthreaded/path/geom"
)

// errNothing tells that a shape draws nothing by the rules of SVG: a size is 0.
var errNothing = errors.New("its size is 0, so that it draws nothing")

// shapes are the elements that draw lines (SVG 2, 9 and 10), each with what draws
// it. What comes before a fault stays drawn.
var shapes = map[string]func(*node, *pen, viewport) error{
	"path":     func(n *node, p *pen, _ viewport) error { p.drawPath(n.attr("d")); return nil },
	"line":     drawLine,
	"polyline": func(n *node, p *pen, _ viewport) error { return drawPoints(n, p, false) },
	"polygon":  func(n *node, p *pen, _ viewport) error { return drawPoints(n, p, true) },
	"rect":     drawRect,
	"circle":   drawCircle,
	"ellipse":  drawEllipse,
}

func drawLine(n *node, p *pen, v viewport) error {
	var x1, y1, x2, y2 float64
	err := n.measures(v, measured{"x1", across, &x1}, measured{"y1", down, &y1},
		measured{"x2", across, &x2}, measured{"y2", down, &y2})
	if err == nil {
		p.moveTo(geom.Pt(x1, y1))
		p.lineTo(geom.Pt(x2, y2))
	}
	return err
}

// maxPoints bounds the numbers of a polyline; MaxCurves ends it earlier.
const maxPoints = 2*MaxCurves + 4

// drawPoints draws a polyline or a polygon; an odd number at the end is a fault
// (SVG 1.1, 9.7.1).
func drawPoints(n *node, p *pen, closed bool) error {
	v, err := numbers(n.attr("points"), maxPoints)
	if err != nil {
		err = fmt.Errorf("points: %w", err)
	} else if len(v)%2 == 1 {
		err = fmt.Errorf("points: %d numbers make no pairs", len(v))
	}
	for i := 0; i+1 < len(v) && p.err == nil; i += 2 {
		if q := geom.Pt(v[i], v[i+1]); i == 0 {
			p.moveTo(q)
		} else {
			p.lineTo(q)
		}
	}
	if closed && len(v) > 1 {
		p.closePath()
	}
	return err
}

// drawRect draws clockwise from the end of the upper left rounding (SVG 2, 10.2).
func drawRect(n *node, p *pen, v viewport) error {
	var x, y, w, h float64
	err := n.measures(v, measured{"x", across, &x}, measured{"y", down, &y},
		measured{"width", across, &w}, measured{"height", down, &h})
	if err != nil {
		return err
	}
	if err := drawable("width or height", w, h); err != nil {
		return err
	}
	rx, ry, err := n.radii(v)
	if err != nil {
		return err
	}
	rx, ry = math.Min(rx, w/2), math.Min(ry, h/2)
	if rx == 0 || ry == 0 {
		rx, ry = 0, 0
	}
	p.moveTo(geom.Pt(x+rx, y))
	side := func(x, y, cx, cy float64) {
		if q := geom.Pt(x, y); geom.Dist(q, p.cur) > 1e-12*(w+h) { // more than rounding
			p.lineTo(q)
		}
		p.arcTo(rx, ry, 0, false, true, geom.Pt(cx, cy))
	}
	side(x+w-rx, y, x+w, y+ry)
	side(x+w, y+h-ry, x+w-rx, y+h)
	side(x+rx, y+h, x, y+h-ry)
	side(x, y+ry, x+rx, y)
	p.closePath()
	return nil
}

// radii reads rx and ry; one that is absent is as the other (SVG 2, 10.2).
func (n *node) radii(v viewport) (rx, ry float64, err error) {
	rx, err = n.measure("rx", v, across, -1)
	if err == nil {
		ry, err = n.measure("ry", v, down, -1)
	}
	switch {
	case rx < 0 && ry < 0:
		rx, ry = 0, 0
	case rx < 0:
		rx = ry
	case ry < 0:
		ry = rx
	}
	return rx, ry, err
}

func drawCircle(n *node, p *pen, v viewport) error {
	var x, y, r float64
	err := n.measures(v, measured{"cx", across, &x}, measured{"cy", down, &y}, measured{"r", either, &r})
	if err != nil {
		return err
	}
	return drawRound(p, geom.Pt(x, y), r, r)
}

func drawEllipse(n *node, p *pen, v viewport) error {
	var x, y float64
	err := n.measures(v, measured{"cx", across, &x}, measured{"cy", down, &y})
	if err != nil {
		return err
	}
	rx, ry, err := n.radii(v)
	if err != nil {
		return err
	}
	return drawRound(p, geom.Pt(x, y), rx, ry)
}

// drawRound draws clockwise from the right (SVG 2, 10.3).
func drawRound(p *pen, c geom.Point, rx, ry float64) error {
	if err := drawable("radius", rx, ry); err != nil {
		return err
	}
	p.moveTo(geom.Pt(c.X+rx, c.Y))
	p.sweep(ellipse{centre: c, rx: rx, ry: ry}, 0, 2*math.Pi, p.start)
	p.closePath()
	return nil
}

// drawable tells what is wrong with two sizes.
func drawable(what string, a, b float64) error {
	if a < 0 || b < 0 {
		return fmt.Errorf("its %s is less than 0", what)
	}
	if a == 0 || b == 0 {
		return errNothing
	}
	return nil
}
