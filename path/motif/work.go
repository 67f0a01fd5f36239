package motif

import (
	"unthreaded/path/geom"
)

// Piece is one line of a drawing.
type Piece struct {
	Name string
	Path geom.Polyline
	// Length is the true length of the curve in mm, 0 for that of Path.
	Length float64
	// Ruler marks a straight line sewn along a ruler, Seam one that need not be
	// sewn but may be travelled in the ditch.
	Ruler, Seam bool
	// Block names the block of a row that the piece belongs to.
	Block string
}

// Work is a ready drawing of several lines, whose order is for a route to find.
type Work struct {
	// ID names the work in records; it never changes.
	ID string
	// Row tells that the blocks of the pieces stand side by side, left to right.
	Row bool
	// Pieces makes the lines.
	Pieces func() []Piece
}

// Rect is the place of a block in mm: its upper left corner and its size.
type Rect struct{ X, Y, W, H float64 }

// Inset returns the rectangle less a margin on all sides.
func (r Rect) Inset(d float64) Rect { return Rect{r.X + d, r.Y + d, r.W - 2*d, r.H - 2*d} }

// Outline returns the four sides as pieces, seams that may be travelled.
func (r Rect) Outline(block string) []Piece {
	a, b := geom.Pt(r.X, r.Y), geom.Pt(r.X+r.W, r.Y)
	c, d := geom.Pt(r.X+r.W, r.Y+r.H), geom.Pt(r.X, r.Y+r.H)
	side := func(name string, p, q geom.Point) Piece {
		return Piece{Name: name + " seam", Path: geom.Polyline{p, q}, Seam: true, Block: block}
	}
	return []Piece{side("upper", a, b), side("right", b, c), side("lower", c, d), side("left", d, a)}
}

// Works returns the ready drawings in the order in which the page offers them.
func Works() []Work {
	return []Work{
		orangePeelWork, orangePeelRow, crosshatchWork, diagonalWork,
		clamshellWork, diamondsWork, starChainWork, echoWork,
	}
}
