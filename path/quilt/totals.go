package quilt

import (
	"math"

	"unthreaded/path/motif"
)

// Size is a width and a height in mm.
type Size struct{ W, H float64 }

// Inner returns the finished size of the blocks with their sashing and setting
// triangles, without the borders.
func (q Quilt) Inner() Size {
	side := func(n int) float64 {
		if q.Setting == OnPoint {
			return 2 * float64(n) * q.step()
		}
		strips := n - 1
		if q.Sashing.Round {
			strips = n + 1
		}
		return float64(n)*q.BlockMM + float64(strips)*q.Sashing.WidthMM
	}
	return Size{side(q.Cols), side(q.Rows)}
}

// framed returns the width of all borders on one side.
func (q Quilt) framed() float64 {
	var sum float64
	for _, b := range q.Borders {
		sum += b.WidthMM
	}
	return sum
}

// Size returns the finished size of the top.
func (q Quilt) Size() Size {
	in, w := q.Inner(), 2*q.framed()
	return Size{in.W + w, in.H + w}
}

// Seam allowances of triangles in mm, added to the finished measure to get the
// square that is cut, for seams of 1/4 in: 1 1/4 in where a square is cut twice
// diagonally into four (the finished measure is the long side), 7/8 in where it is
// cut once into two (the finished measure is the leg). Common practice. They follow
// from the seam s: (2 + 2 sqrt2) s = 1.21 in and (2 + sqrt2) s = 0.854 in, rounded
// up to the eighth.
const (
	QuarterSquareMM = 1.25 * inch
	HalfSquareMM    = 0.875 * inch
	inch            = 25.4
)

// Triangles tells about the triangles of a kind.
type Triangles struct {
	// LongMM and LegMM are the finished long side and legs.
	LongMM, LegMM float64
	// CutMM is the side of the square to cut, of which one makes PerSquare
	// triangles with the straight grain along the edge of the top.
	CutMM     float64
	PerSquare int
	// Count triangles are needed, from Squares squares.
	Count, Squares int
}

// KindCount is how many places of a kind there are, and their finished shapes.
type KindCount struct {
	Kind   Kind
	Count  int
	Shapes []motif.Shape // each once, in the order of Cells
}

// Totals is what a top adds up to.
type Totals struct {
	Top, Inner Size
	// Side and Corner are the triangles of a setting on point, else zero.
	// DiagonalMM is the finished diagonal of a block, its side times sqrt2.
	DiagonalMM   float64
	Side, Corner Triangles
	Counts       []KindCount // in the order of Cells
}

// Totals adds the top up. The quilt must be valid. Cost O(places).
func (q Quilt) Totals() Totals {
	t := Totals{Top: q.Size(), Inner: q.Inner(), DiagonalMM: q.BlockMM * math.Sqrt2}
	at := map[Kind]int{}
	for _, c := range q.Cells() {
		i, known := at[c.Kind]
		if !known {
			i = len(t.Counts)
			at[c.Kind] = i
			t.Counts = append(t.Counts, KindCount{Kind: c.Kind})
		}
		k := &t.Counts[i]
		k.Count++
		k.Shapes = withShape(k.Shapes, c.Shape)
	}
	if q.Setting == OnPoint {
		long := t.DiagonalMM
		t.Side = Triangles{LongMM: long, LegMM: q.BlockMM, CutMM: long + QuarterSquareMM, PerSquare: 4}
		t.Corner = Triangles{LongMM: q.BlockMM, LegMM: long / 2, CutMM: long/2 + HalfSquareMM, PerSquare: 2}
		for _, k := range t.Counts {
			switch k.Kind {
			case SettingTriangle:
				t.Side.count(k.Count)
			case CornerTriangle:
				t.Corner.count(k.Count)
			}
		}
	}
	return t
}

func (t *Triangles) count(n int) {
	t.Count, t.Squares = n, (n+t.PerSquare-1)/t.PerSquare
}

func withShape(shapes []motif.Shape, s motif.Shape) []motif.Shape {
	for _, t := range shapes {
		if t.Kind == s.Kind && math.Abs(t.W-s.W) < shapeSlack && math.Abs(t.H-s.H) < shapeSlack {
			return shapes
		}
	}
	return append(shapes, s)
}
