// Package plane turns the line work of a block into a planar multigraph:
// junctions, and the pieces of line between them.
//
// In the field's terms it makes the arrangement of the strokes by snap rounding (Hobby,
// Computational Geometry 13, 1999), in whole micrometres; near misses are clustered to one
// junction; what lies twice is kept once, and reported. Gaps are largest empty
// circles, found by branch and bound over a quadtree.
package plane

import "unthreaded/path/geom"

// Kind tells what a line is and so how a route may use it.
type Kind string

// The kinds of line. A sewn line and a ruler line must be sewn once; a ruler
// line is taken dot to dot. A seam need not be sewn but may be travelled hidden,
// in the ditch.
const (
	Sewn  Kind = "sewn"
	Ruler Kind = "ruler"
	Seam  Kind = "seam"
)

// Must tells whether a line of this kind has to be sewn.
func (k Kind) Must() bool { return k != Seam }

// Edge is a piece of line between two junctions. Two edges may join the same
// junctions, and an edge may be a loop (U == V).
type Edge struct {
	// U and V index Graph.Nodes; Path runs from U to V.
	U, V int
	Kind Kind
	// Stroke names the drawn line that the piece is part of.
	Stroke string
	// Block names the block of a row that the piece belongs to, if any.
	Block string
	// Path is the piece in mm, at least two points; its ends give the
	// directions at the junctions.
	Path geom.Polyline
	// Length is what walking the piece costs, in mm: the true length of the
	// curve, of which Path is a flattened picture.
	Length float64
	// Part and From and To tell which stretch of the stroke the piece is. A stroke
	// is one part unless something of it is missing, branches or was drawn
	// elsewhere; its parts are counted from 0. The piece begins, at U, From mm along
	// its part, and ends, at V, To mm along it: To < From where the piece runs
	// against the way that the part was drawn. The pieces of a part by rising min(From, To) are the line
	// from its beginning to its end, or once round.
	Part     int
	From, To float64
}

// Graph is a planar multigraph; the index of a node or an edge is its identity.
type Graph struct {
	Nodes []geom.Point
	Edges []Edge
}
