package quilt

import (
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// middle returns the centroid of a shape, which every similarity keeps.
func middle(s motif.Shape) geom.Point {
	w, h := s.Box()
	switch s.Kind {
	case motif.HalfSquare:
		return geom.Pt(w/3, 2*h/3)
	case motif.SettingTriangle:
		return geom.Pt(w/2, 2*h/3)
	}
	return geom.Pt(w/2, h/2)
}

// likeness is the scale and the turn that make one shape of another.
type likeness struct{ scale, turn float64 }

// likenessOf tells whether two shapes are similar, and how.
func likenessOf(from, to motif.Shape) (likeness, bool) {
	pair := [2]motif.ShapeKind{from.Kind, to.Kind}
	switch pair {
	case [2]motif.ShapeKind{motif.Square, motif.OnPoint}:
		return likeness{to.W / from.W, math.Pi / 4}, true
	case [2]motif.ShapeKind{motif.OnPoint, motif.Square}:
		return likeness{to.W / from.W, -math.Pi / 4}, true
	case [2]motif.ShapeKind{motif.HalfSquare, motif.SettingTriangle}:
		return likeness{to.W / (from.W * math.Sqrt2), 3 * math.Pi / 4}, true
	case [2]motif.ShapeKind{motif.SettingTriangle, motif.HalfSquare}:
		return likeness{to.W * math.Sqrt2 / from.W, -3 * math.Pi / 4}, true
	}
	scale := to.W / from.W
	return likeness{scale: scale}, from.Kind == to.Kind && math.Abs(from.H*scale-to.H) <= shapeSlack
}
