package quilt

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// diamond is a place of the on-point lattice. Blocks have their centres where X and
// Y are both even or both odd, cornerstones where they are not, strips of sashing
// half way between. One step is half the diagonal of a block with its sashing. The
// edges of the inner part run along X = -1, Y = -1 and through the far corners of the
// last blocks, and halve or quarter what has its centre on them.
type diamond struct{ X, Y int }

// onPoint lays out diagonal rows: the blocks on X+Y = 2k make row k, from lower left
// to upper right, with a triangle at each end. Rows -1 and the last hold one corner.
func (q Quilt) onPoint(l *layout) {
	lastX, lastY := 2*q.Cols-1, 2*q.Rows-1
	for sum := -2; sum <= lastX+lastY; sum += 2 {
		l.row(q.diagonalRow(sum)...)
		if q.Sashing.WidthMM > 0 && sum < lastX+lastY {
			l.row(q.diagonalSash(sum + 1)...)
		}
	}
}

// step is half the diagonal of a block with its sashing.
func (q Quilt) step() float64 { return (q.BlockMM + q.Sashing.WidthMM) / math.Sqrt2 }

// on returns the place on the top of lattice coordinates.
func (q Quilt) on(x, y float64) geom.Point {
	return geom.Pt(q.framed()+(x+1)*q.step(), q.framed()+(y+1)*q.step())
}

// along calls f for the places with X+Y = sum from lower left to upper right.
func (q Quilt) along(sum int, f func(diamond)) {
	lastX, lastY := 2*q.Cols-1, 2*q.Rows-1
	for x := max(-1, sum-lastY); x <= min(lastX, sum+1); x++ {
		f(diamond{x, sum - x})
	}
}

func (q Quilt) diagonalRow(sum int) []Cell {
	var out []Cell
	q.along(sum, func(d diamond) {
		if len(out) > 0 && q.Sashing.WidthMM > 0 {
			// The strip between the block before and this one runs down to the right.
			x, y := float64(d.X)-0.5, float64(d.Y)+0.5
			out = append(out, q.diagonalStrip(fmt.Sprintf("falling-%d-%d", d.Y+2, d.X+1), x, y, math.Pi/4))
		}
		out = append(out, q.diamondCell(d))
	})
	return out
}

func (q Quilt) diagonalStrip(id string, x, y, turn float64) Cell {
	return cellAt(id, Spot{Code: StripAtSpot, N: x + 1.5, Row: y + 1.5}, Strip,
		motif.Shape{Kind: motif.Rectangle, W: q.BlockMM, H: q.Sashing.WidthMM}, q.on(x, y), turn)
}

// diamondCell returns the block, triangle or corner of a place.
func (q Quilt) diamondCell(d diamond) Cell {
	if side := q.edgesOf(d); side != "" {
		return q.edgeCell(d, side)
	}
	at := q.on(float64(d.X), float64(d.Y))
	s := motif.Shape{Kind: motif.OnPoint, W: q.BlockMM}
	// Both coordinates are even or both are odd, so that the sum counts rows by two.
	kind := q.blockKind((d.X+d.Y)/2+1, d.X)
	if d.X%2 == 0 {
		r, c := d.Y/2+1, d.X/2+1
		return cellAt(fmt.Sprintf("block-%d-%d", r, c), Spot{Code: BlockSpot, Row: float64(r), N: float64(c)}, kind, s, at, 0)
	}
	r, c := (d.Y+1)/2, (d.X+1)/2
	return cellAt(fmt.Sprintf("between-%d-%d", r, c), Spot{Code: BetweenSpot, Row: float64(r), N: float64(c)}, kind, s, at, 0)
}

// edgesOf names the edges of the inner part on which a place has its centre.
func (q Quilt) edgesOf(d diamond) string {
	var upDown, leftRight string
	switch d.Y {
	case -1:
		upDown = "upper"
	case 2*q.Rows - 1:
		upDown = "lower"
	}
	switch d.X {
	case -1:
		leftRight = "left"
	case 2*q.Cols - 1:
		leftRight = "right"
	}
	if upDown != "" && leftRight != "" {
		return upDown + "-" + leftRight
	}
	return upDown + leftRight
}

// turnOf is how triangles are turned so that their long side (setting triangles) or
// their right angle (corners) lies on the edge.
var turnOf = map[string]float64{
	"lower": 0, "left": math.Pi / 2, "upper": math.Pi, "right": 3 * math.Pi / 2,
	"lower-left": 0, "upper-left": math.Pi / 2, "upper-right": math.Pi, "lower-right": 3 * math.Pi / 2,
}

// edgeCell returns a quarter of a block in a corner of the inner part, or half of
// one on an edge: a triangle whose long side is the block's diagonal.
func (q Quilt) edgeCell(d diamond, side string) Cell {
	at := q.on(float64(d.X), float64(d.Y))
	if len(side) > len("lower") {
		leg := q.BlockMM / math.Sqrt2
		in := geom.Pt(math.Copysign(leg/2, -float64(d.X)), math.Copysign(leg/2, -float64(d.Y)))
		return cellAt("corner-"+side, Spot{Code: CornerSpot, Side: side}, CornerTriangle,
			motif.Shape{Kind: motif.HalfSquare, W: leg}, geom.Pt(at.X+in.X, at.Y+in.Y), turnOf[side])
	}
	n := (d.X + 1) / 2
	if d.X == -1 || d.X == 2*q.Cols-1 {
		n = (d.Y + 1) / 2
	}
	return q.halfDiamond(fmt.Sprintf("side-%s-%d", side, n), Spot{Code: EdgeSpot, N: float64(n), Side: side},
		SettingTriangle, q.BlockMM, at, side)
}

// halfDiamond returns the half of a square of the given side that stands on point
// with its centre on an edge.
func (q Quilt) halfDiamond(id string, spot Spot, k Kind, side float64, at geom.Point, edge string) Cell {
	long := side * math.Sqrt2
	in := map[string]geom.Point{"upper": {Y: 1}, "lower": {Y: -1}, "left": {X: 1}, "right": {X: -1}}[edge]
	return cellAt(id, spot, k, motif.Shape{Kind: motif.SettingTriangle, W: long},
		geom.Pt(at.X+in.X*long/4, at.Y+in.Y*long/4), turnOf[edge])
}

// diagonalSash returns the strips between two diagonal rows with the cornerstones
// between them, which stand on X+Y = sum, or one long strip; half cornerstones end
// it at the edges either way.
func (q Quilt) diagonalSash(sum int) []Cell {
	var stones []diamond
	q.along(sum, func(d diamond) { stones = append(stones, d) })
	var out []Cell
	for i, d := range stones {
		at := q.on(float64(d.X), float64(d.Y))
		id, spot := fmt.Sprintf("stone-%d-%d", d.Y+2, d.X+2), Spot{Code: StoneAtSpot, N: float64(d.X + 2), Row: float64(d.Y + 2)}
		if i > 0 && (q.Sashing.Cornerstones || i == 1) {
			out = append(out, q.risingStrip(stones, i))
		}
		if edge := q.edgesOf(d); edge != "" {
			spot.Code = HalfStoneAtSpot
			out = append(out, q.halfDiamond(id, spot, HalfCornerstone, q.Sashing.WidthMM, at, edge))
		} else if q.Sashing.Cornerstones {
			out = append(out, cellAt(id, spot, Cornerstone, motif.Shape{Kind: motif.Square, W: q.Sashing.WidthMM}, at, math.Pi/4))
		}
	}
	return out
}

// risingStrip returns the strip before cornerstone i, or the one through them all.
func (q Quilt) risingStrip(stones []diamond, i int) Cell {
	d, before, n := stones[i], stones[i-1], 1
	if !q.Sashing.Cornerstones {
		d, before, n = stones[len(stones)-1], stones[0], len(stones)-1
	}
	x, y := float64(d.X+before.X)/2, float64(d.Y+before.Y)/2
	c := q.diagonalStrip(fmt.Sprintf("rising-%d-%d", before.Y+2, before.X+2), x, y, -math.Pi/4)
	c.Shape.W = float64(n)*q.BlockMM + float64(n-1)*q.Sashing.WidthMM
	return cellAt(c.ID, c.Spot, c.Kind, c.Shape, q.on(x, y), -math.Pi/4)
}
