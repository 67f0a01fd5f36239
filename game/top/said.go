package top

import (
	"unthreaded/game/words"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// SpotName says where a place lies: "row 2, block 3".
func SpotName(s quilt.Spot) words.Msg {
	var args []any
	switch s.Code {
	case quilt.EdgeRowSpot, quilt.BorderLineSpot:
		args = []any{s.N}
	case quilt.LevelSpot:
		args = []any{s.Row}
	case quilt.CornerSpot:
		args = []any{s.Side}
	case quilt.EdgeSpot, quilt.BorderSpot, quilt.BorderCornerSpot:
		args = []any{s.N, s.Side}
	case quilt.StripAtSpot, quilt.StoneAtSpot, quilt.HalfStoneAtSpot:
		args = []any{s.N, s.Row}
	default:
		args = []any{s.Row, s.N}
	}
	return words.Of("quilt.spot."+string(s.Code), args...)
}

// KindName names a kind of place.
func KindName(k quilt.Kind) words.Msg {
	switch n, corner := k.Border(); {
	case corner:
		return words.Of("quilt.border-corner", n)
	case n > 0:
		return words.Of("quilt.border", n)
	}
	return words.Of("quilt.kind." + string(k))
}

// ShapeName names a shape of block.
func ShapeName(k motif.ShapeKind) words.Msg { return words.Of("motif.shape." + string(k)) }

// ShapeSize tells the finished size of a shape.
func ShapeSize(s motif.Shape) words.Msg {
	w, h := words.SizeMM(s.W), words.SizeMM(s.H)
	switch s.Kind {
	case motif.Square, motif.OnPoint:
		return words.Of("quilt.size.square", w)
	case motif.Rectangle:
		return words.Of("quilt.size.sides", w, h)
	case motif.HalfSquare:
		return words.Of("quilt.size.short", w)
	}
	return words.Of("quilt.size.long", w)
}

// RowSaid names a sewing row as RowName does.
func (t Top) RowSaid(r int) words.Msg {
	word, n := t.rowNumber(r)
	return words.Of("order.stage."+word, n)
}
