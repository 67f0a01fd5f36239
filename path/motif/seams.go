package motif

import (
	"fmt"
	"math"
	"slices"

	"unthreaded/path/geom"
)

// SeamKind names how a block is pieced.
type SeamKind string

// The ways in which a block is pieced. Rails are three level strips; flying geese
// is one large triangle between two small ones; spokes run from the middle to the
// corners.
const (
	NoSeams         SeamKind = "none"
	FourPatch       SeamKind = "four-patch"
	NinePatch       SeamKind = "nine-patch"
	HalfSquareSeam  SeamKind = "half-square"
	Hourglass       SeamKind = "hourglass"
	FourHalfSquares SeamKind = "four-half-squares"
	SquareInSquare  SeamKind = "square-in-square"
	FlyingGeese     SeamKind = "flying-geese"
	Rails           SeamKind = "rails"
	Spokes          SeamKind = "spokes"
	Halves          SeamKind = "halves"
)

// SeamKinds returns the kinds in the order in which the page offers them.
func SeamKinds() []SeamKind {
	return []SeamKind{
		NoSeams, FourPatch, NinePatch, HalfSquareSeam, Hourglass, FourHalfSquares,
		SquareInSquare, FlyingGeese, Rails, Spokes, Halves,
	}
}

// SeamKinds returns the ways of piecing that this shape can have.
func (s Shape) SeamKinds() []SeamKind {
	var out []SeamKind
	for _, k := range SeamKinds() {
		if _, ok := s.seamLines(k); ok {
			out = append(out, k)
		}
	}
	return out
}

// Seams returns the seams inside a block pieced in the given way: straight pieces,
// Seam set, whose ends lie on the outline or on another seam; none for NoSeams or
// the empty kind. It fails on a shape that is not valid, and on a way of piecing
// that does not fit the shape.
func (s Shape) Seams(k SeamKind) ([]Piece, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	if k == "" {
		k = NoSeams
	}
	lines, ok := s.seamLines(k)
	if !ok && !slices.Contains(SeamKinds(), k) {
		return nil, fmt.Errorf("%q is no way of piecing a block", k)
	}
	if !ok {
		return nil, fmt.Errorf("a %s can't be pieced as %s: take one of %v", s.Kind, k, s.SeamKinds())
	}
	var out []Piece
	for i, pl := range lines {
		out = append(out, Piece{Name: fmt.Sprintf("inner-seam %d", i+1), Path: pl, Seam: true})
	}
	return out, nil
}

func (s Shape) seamLines(k SeamKind) ([]geom.Polyline, bool) {
	switch {
	case k == NoSeams:
		return nil, true
	case s.Kind == Square || s.Kind == Rectangle || s.Kind == OnPoint:
		return s.fourSided(k)
	case k == Halves && (s.Kind == HalfSquare || s.Kind == SettingTriangle):
		// From the right angle to the middle of the long side.
		c := s.corners()
		apex, p, q := c[0], c[1], c[2]
		if s.Kind == HalfSquare {
			apex, p, q = c[2], c[0], c[1]
		}
		return []geom.Polyline{{apex, geom.Lerp(p, q, 0.5)}}, true
	case k == Spokes && (s.Kind == Hexagon || s.Kind == Octagon):
		var out []geom.Polyline
		for _, c := range s.corners() {
			out = append(out, geom.Polyline{s.middle(), c})
		}
		return out, true
	case k == Halves && s.Kind == Hexagon:
		return []geom.Polyline{{s.corners()[5], s.corners()[2]}}, true
	case k == FourPatch && s.Kind == Circle:
		w, h := s.Box()
		return []geom.Polyline{{geom.Pt(w/2, 0), geom.Pt(w/2, h)}, {geom.Pt(0, h/2), geom.Pt(w, h/2)}}, true
	}
	return nil, false
}

// fourSided returns the seams of a four-sided block in the coordinates of the
// unit square laid on its sides.
func (s Shape) fourSided(k SeamKind) ([]geom.Polyline, bool) {
	unit := map[SeamKind][][4]float64{
		FourPatch:       {{.5, 0, .5, 1}, {0, .5, 1, .5}},
		NinePatch:       {{1. / 3, 0, 1. / 3, 1}, {2. / 3, 0, 2. / 3, 1}, {0, 1. / 3, 1, 1. / 3}, {0, 2. / 3, 1, 2. / 3}},
		HalfSquareSeam:  {{0, 1, 1, 0}},
		Hourglass:       {{0, 1, 1, 0}, {0, 0, 1, 1}},
		FourHalfSquares: {{.5, 0, .5, 1}, {0, .5, 1, .5}, {0, 0, .5, .5}, {.5, .5, 1, 1}, {.5, .5, 1, 0}, {0, 1, .5, .5}},
		SquareInSquare:  {{.5, 0, 1, .5}, {1, .5, .5, 1}, {.5, 1, 0, .5}, {0, .5, .5, 0}},
		FlyingGeese:     {{0, 1, .5, 0}, {.5, 0, 1, 1}},
		Rails:           {{0, 1. / 3, 1, 1. / 3}, {0, 2. / 3, 1, 2. / 3}},
	}
	lines, ok := unit[k]
	// A goose is twice as wide as high; the others of triangles need equal sides.
	oblong := s.Kind == Rectangle && math.Abs(s.W-s.H) > 1e-6
	switch {
	case k == FlyingGeese && !(s.Kind == Rectangle && math.Abs(s.W-2*s.H) < 1e-6):
		return nil, false
	case oblong && (k == HalfSquareSeam || k == Hourglass || k == FourHalfSquares):
		return nil, false
	case !ok:
		return nil, false
	}
	c := s.corners()
	at := func(u, v float64) geom.Point {
		return geom.Lerp(geom.Lerp(c[0], c[1], u), geom.Lerp(c[3], c[2], u), v)
	}
	var out []geom.Polyline
	for _, l := range lines {
		out = append(out, geom.Polyline{at(l[0], l[1]), at(l[2], l[3])})
	}
	return out, true
}

// OutlinePieces returns the sides of the block as seams, clockwise to the eye; a
// circle is one closed piece.
func (s Shape) OutlinePieces() []Piece {
	pl := s.Outline()
	if s.Kind == Circle {
		return []Piece{{Name: "rim-seam", Path: pl, Length: math.Pi * s.W, Seam: true}}
	}
	var out []Piece
	for i := range pl[1:] {
		out = append(out, Piece{Name: fmt.Sprintf("side %d seam", i+1), Path: geom.Polyline{pl[i], pl[i+1]}, Seam: true})
	}
	return out
}
