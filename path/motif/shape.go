package motif

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
)

// ShapeKind names a shape of block.
type ShapeKind string

// The shapes of block. The two triangles fill the rim of a top: a half-square
// triangle is a square cut once, a setting triangle fills the side of a top whose
// blocks stand on point.
const (
	Square          ShapeKind = "square"
	OnPoint         ShapeKind = "on-point"
	Rectangle       ShapeKind = "rectangle"
	HalfSquare      ShapeKind = "half-square"
	SettingTriangle ShapeKind = "setting-triangle"
	Hexagon         ShapeKind = "hexagon"
	Octagon         ShapeKind = "octagon"
	Circle          ShapeKind = "circle"
)

// Shapes returns the kinds in the order in which the page offers them.
func Shapes() []ShapeKind {
	return []ShapeKind{Square, OnPoint, Rectangle, HalfSquare, SettingTriangle, Hexagon, Octagon, Circle}
}

// The least and the largest measure of a block in mm: from a small hexagon of
// paper piecing to a whole top.
const (
	MinShape = 10.0
	MaxShape = 3000.0
)

// Shape is the finished shape of a block, measured in mm without seam allowance.
//
//	square, on-point   W is the side
//	rectangle          W x H
//	half-square        both legs are W, the right angle lies lower left
//	setting-triangle   W is the long side, level at the bottom; the height is W/2
//	hexagon            W is the side; two corners lie at the left and the right
//	octagon            W across the flats
//	circle             W is the diameter
type Shape struct {
	Kind ShapeKind `json:"kind"`
	W    float64   `json:"w"`
	H    float64   `json:"h,omitempty"`
}

// Validate reports a kind that does not exist and a measure out of range.
func (s Shape) Validate() error {
	known := false
	for _, k := range Shapes() {
		known = known || k == s.Kind
	}
	if !known {
		return fmt.Errorf("%q is no shape of block", s.Kind)
	}
	check := func(what string, v float64) error {
		if !(v >= MinShape && v <= MaxShape) {
			return fmt.Errorf("the %s of the %s is %g mm: it takes %g to %g mm", what, s.Kind, v, MinShape, MaxShape)
		}
		return nil
	}
	if err := check("width", s.W); err != nil {
		return err
	}
	if s.Kind == Rectangle {
		return check("height", s.H)
	}
	return nil
}

// Box returns the width and the height in mm of the smallest upright box round
// the shape.
func (s Shape) Box() (w, h float64) {
	switch s.Kind {
	case OnPoint:
		return s.W * math.Sqrt2, s.W * math.Sqrt2
	case Rectangle:
		return s.W, s.H
	case SettingTriangle:
		return s.W, s.W / 2
	case Hexagon:
		return 2 * s.W, s.W * math.Sqrt(3)
	}
	return s.W, s.W
}

// corners returns the corners clockwise to the eye, each once; none of a circle.
func (s Shape) corners() []geom.Point {
	w, h := s.Box()
	switch s.Kind {
	case OnPoint:
		return []geom.Point{{X: w / 2}, {X: w, Y: h / 2}, {X: w / 2, Y: h}, {Y: h / 2}}
	case HalfSquare:
		return []geom.Point{{}, {X: w, Y: h}, {Y: h}}
	case SettingTriangle:
		return []geom.Point{{X: w / 2}, {X: w, Y: h}, {Y: h}}
	case Hexagon:
		return []geom.Point{{X: w / 4}, {X: 3 * w / 4}, {X: w, Y: h / 2}, {X: 3 * w / 4, Y: h}, {X: w / 4, Y: h}, {Y: h / 2}}
	case Octagon:
		c := w / (2 + math.Sqrt2) // what is cut off each corner of the square
		return []geom.Point{
			{X: c}, {X: w - c}, {X: w, Y: c}, {X: w, Y: h - c},
			{X: w - c, Y: h}, {X: c, Y: h}, {Y: h - c}, {Y: c},
		}
	case Circle:
		return nil
	}
	return []geom.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}}
}

// Outline returns the closed outline clockwise to the eye, its box starting at
// (0, 0). A circle is flattened, from its top.
func (s Shape) Outline() geom.Polyline {
	if s.Kind == Circle {
		return ring(s.middle(), s.W/2)
	}
	return closed(s.corners())
}

// ring returns the flattened circle from its top, clockwise to the eye.
func ring(centre geom.Point, radius float64) geom.Polyline {
	pl := geom.Arc(centre, radius, -math.Pi/2, 3*math.Pi/2)
	pl[len(pl)-1] = pl[0]
	return pl
}

func closed(corners []geom.Point) geom.Polyline {
	return append(append(geom.Polyline{}, corners...), corners[0])
}

// Area returns the area in mm^2.
func (s Shape) Area() float64 {
	if s.Kind == Circle {
		return math.Pi * s.W * s.W / 4
	}
	return area(s.corners())
}

// area returns the area of a polygon whose corners run clockwise to the eye (the
// shoelace formula).
func area(corners []geom.Point) float64 {
	var sum float64
	for i, p := range corners {
		q := corners[(i+1)%len(corners)]
		sum += p.X*q.Y - q.X*p.Y
	}
	return sum / 2
}

// Contains tells whether p lies in the shape or on its outline.
func (s Shape) Contains(p geom.Point) bool {
	return newField(s, 0).depth(p) >= -1e-9
}
