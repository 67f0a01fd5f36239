package motif

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// lie is how a shape is turned while rows are laid in it level: back turns what was
// laid to where it belongs.
type lie struct {
	shape Shape
	back  func(geom.Point) geom.Point
}

func asIs(s Shape) lie { return lie{s, func(p geom.Point) geom.Point { return p }} }

// tall is how many times as high as wide a rectangle is whose rows run upright.
const tall = 1.7

// ownWay returns the shape with the sides along which its rows run level: a square
// on point as a square, and a tall rectangle, such as an upright sashing, lying.
func ownWay(s Shape) lie {
	switch {
	case s.Kind == OnPoint:
		square := Shape{Kind: Square, W: s.W}
		from, to := square.middle(), s.middle()
		return lie{square, func(p geom.Point) geom.Point {
			return r2.Add(to, r2.Sub(r2.Rotate(p, math.Pi/4, from), from))
		}}
	case s.Kind == Rectangle && s.H > tall*s.W:
		return lie{Shape{Kind: Rectangle, W: s.H, H: s.W}, func(p geom.Point) geom.Point {
			return geom.Pt(p.Y, s.H-p.X)
		}}
	}
	return asIs(s)
}
