package quilt

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// straight lays out rows of blocks with sashing between them.
func (q Quilt) straight(l *layout) {
	if q.Sashing.WidthMM > 0 && q.Sashing.Round {
		l.row(q.sashRow(0)...)
	}
	for r := 1; r <= q.Rows; r++ {
		l.row(q.blockRow(r)...)
		if q.Sashing.WidthMM > 0 && (r < q.Rows || q.Sashing.Round) {
			l.row(q.sashRow(r)...)
		}
	}
}

// place returns the centre, across or down, of block i, counted from 1, and with
// strip that of the strip of sashing after it (0: before the first).
func (q Quilt) place(i int, strip bool) float64 {
	b, s := q.BlockMM, q.Sashing.WidthMM
	at := q.framed() + float64(i)*(b+s)
	switch {
	case strip && q.Sashing.Round:
		return at + s/2
	case strip:
		return at - s/2
	case q.Sashing.Round:
		return at - b/2
	}
	return at - s - b/2
}

func (q Quilt) blockRow(r int) []Cell {
	var out []Cell
	strip := motif.Shape{Kind: motif.Rectangle, W: q.BlockMM, H: q.Sashing.WidthMM}
	upright := func(c int) {
		out = append(out, cellAt(fmt.Sprintf("upright-%d-%d", r, c), Spot{Code: UprightSpot, Row: float64(r), N: float64(c)},
			Strip, strip, geom.Pt(q.place(c, true), q.place(r, false)), math.Pi/2))
	}
	if q.Sashing.WidthMM > 0 && q.Sashing.Round {
		upright(0)
	}
	for c := 1; c <= q.Cols; c++ {
		out = append(out, cellAt(fmt.Sprintf("block-%d-%d", r, c), Spot{Code: BlockSpot, Row: float64(r), N: float64(c)},
			q.blockKind(r, r+c), motif.Shape{Kind: motif.Square, W: q.BlockMM}, geom.Pt(q.place(c, false), q.place(r, false)), 0))
		if q.Sashing.WidthMM > 0 && (c < q.Cols || q.Sashing.Round) {
			upright(c)
		}
	}
	return out
}

// blockKind tells the kind of a block in a row, counted from 1, and with a place on
// the chequerboard, even for the first block.
func (q Quilt) blockKind(row, square int) Kind {
	if q.Alternate == Checkerboard && square%2 != 0 || q.Alternate == ByRow && row%2 == 0 {
		return Alternate
	}
	return Block
}

// sashRow returns the strips, or the one long strip, below row r.
func (q Quilt) sashRow(r int) []Cell {
	if !q.Sashing.Cornerstones {
		inner := q.Inner()
		return []Cell{cellAt(fmt.Sprintf("level-%d", r), Spot{Code: LevelSpot, Row: float64(r)}, Strip,
			motif.Shape{Kind: motif.Rectangle, W: inner.W, H: q.Sashing.WidthMM},
			geom.Pt(q.framed()+inner.W/2, q.place(r, true)), 0)}
	}
	var out []Cell
	stone := func(c int) {
		out = append(out, cellAt(fmt.Sprintf("stone-%d-%d", r, c), Spot{Code: StoneSpot, Row: float64(r), N: float64(c)},
			Cornerstone, motif.Shape{Kind: motif.Square, W: q.Sashing.WidthMM}, geom.Pt(q.place(c, true), q.place(r, true)), 0))
	}
	if q.Sashing.Round {
		stone(0)
	}
	for c := 1; c <= q.Cols; c++ {
		out = append(out, cellAt(fmt.Sprintf("level-%d-%d", r, c), Spot{Code: LevelPieceSpot, Row: float64(r), N: float64(c)}, Strip,
			motif.Shape{Kind: motif.Rectangle, W: q.BlockMM, H: q.Sashing.WidthMM}, geom.Pt(q.place(c, false), q.place(r, true)), 0))
		if c < q.Cols || q.Sashing.Round {
			stone(c)
		}
	}
	return out
}

// borders lays out the frames from the inside outwards.
func (q Quilt) borders(l *layout) {
	inner, at := q.Inner(), q.framed()
	for i, b := range q.Borders {
		w := b.WidthMM
		l.row(borderCells(i, b, inner, at)...)
		inner, at = Size{inner.W + 2*w, inner.H + 2*w}, at-w
	}
}

// borderCells returns the sides of border i clockwise from its upper left, round an
// inner part that begins at (at, at).
func borderCells(i int, b Border, inner Size, at float64) []Cell {
	w, over := b.WidthMM, 2*b.WidthMM
	if b.Corners {
		over = 0
	}
	mid := geom.Pt(at+inner.W/2, at+inner.H/2)
	dx, dy := inner.W/2+w/2, inner.H/2+w/2
	side := func(name string, length, x, y, turn float64) Cell {
		return cellAt(fmt.Sprintf("border-%d-%s", i+1, name), Spot{Code: BorderSpot, N: float64(i + 1), Side: name}, BorderKind(i),
			motif.Shape{Kind: motif.Rectangle, W: length, H: w}, geom.Pt(mid.X+x, mid.Y+y), turn)
	}
	corner := func(name string, x, y float64) Cell {
		return cellAt(fmt.Sprintf("border-%d-%s", i+1, name), Spot{Code: BorderCornerSpot, N: float64(i + 1), Side: name}, BorderCornerKind(i),
			motif.Shape{Kind: motif.Square, W: w}, geom.Pt(mid.X+x, mid.Y+y), 0)
	}
	upper, right := side("upper", inner.W+over, 0, -dy, 0), side("right", inner.H, dx, 0, math.Pi/2)
	lower, left := side("lower", inner.W+over, 0, dy, math.Pi), side("left", inner.H, -dx, 0, 3*math.Pi/2)
	if !b.Corners {
		return []Cell{upper, right, lower, left}
	}
	return []Cell{corner("upper-left", -dx, -dy), upper, corner("upper-right", dx, -dy), right,
		corner("lower-right", dx, dy), lower, corner("lower-left", -dx, dy), left}
}
