package top

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// into returns the place in a shape's own mm of a point of the top.
func into(w quilt.Transform, p geom.Point) geom.Point {
	sin, cos := math.Sincos(-w.Turn)
	d := r2.Scale(1/w.Scale, r2.Sub(p, w.Move))
	return geom.Pt(d.X*cos-d.Y*sin, d.X*sin+d.Y*cos)
}

// Choose chooses a place, None for none.
func (t Top) Choose(i int) Top {
	if i < None || i >= len(t.Laying.Cells) || i == t.Chosen {
		return t
	}
	t.Chosen, t.lastKey = i, ""
	t.Rev++
	return t
}

// Middle returns the middle of a place on the top.
func (t Top) Middle(i int) geom.Point {
	lo, hi := t.Laying.Cells[i].Outline().Bounds()
	return r2.Scale(0.5, r2.Add(lo, hi))
}

// Toward chooses the next place in a direction: among those within 60 degrees of
// it, the one for which the way there and the way aside are least together. Without
// one chosen it is the first.
func (t Top) Toward(way geom.Point) Top {
	if t.Chosen == None {
		return t.Choose(0)
	}
	at := t.Middle(t.Chosen)
	best, found := math.Inf(1), t.Chosen
	for i := range t.Laying.Cells {
		d := r2.Sub(t.Middle(i), at)
		ahead, aside := r2.Dot(d, way), math.Abs(r2.Cross(way, d))
		if ahead < 1 || aside > ahead*math.Sqrt(3) {
			continue
		}
		if cost := ahead + 2*aside; cost < best-1e-6 {
			best, found = cost, i
		}
	}
	return t.Choose(found)
}

// Next chooses the next place in sewing order, or by -1 the one before, round and
// round.
func (t Top) Next(by int) Top {
	n := len(t.Laying.Cells)
	switch {
	case n == 0:
		return t
	case t.Chosen == None:
		return t.Choose(0)
	}
	return t.Choose(((t.Chosen+by)%n + n) % n)
}

// SetScope tells whether choices count for all places of a kind or for one.
func (t Top) SetScope(s Scope) Top {
	if s == AllOfKind || s == OnlyThis {
		t.Scope, t.lastKey = s, ""
	}
	return t
}

// Choice returns what lies in the place chosen.
func (t Top) Choice() quilt.Choice {
	c, ok := t.Cell()
	if !ok {
		return quilt.Choice{}
	}
	return t.Quilt.Choice(c)
}

// Give lays a design, or none for "", in the place chosen, or in all of its kind.
func (t Top) Give(design string) Top {
	choice := quilt.Choice{Design: design}
	if old := t.Choice(); design != "" {
		choice.QuarterTurns = old.QuarterTurns
	}
	return t.give(choice)
}

func (t Top) give(choice quilt.Choice) Top {
	c, ok := t.Cell()
	if !ok {
		return t
	}
	if t.Scope == AllOfKind {
		return t.set(t.Quilt.PlaceAll(c.Kind, choice), "")
	}
	return t.set(t.Quilt.Place(c.ID, choice), "")
}

// CanTurn tells whether the design in the place chosen can be turned: a triangle's
// cannot.
func (t Top) CanTurn() bool {
	c, ok := t.Cell()
	return ok && turnStep(c.Shape.Kind) > 0 && t.Choice().Design != ""
}

// turnStep returns by how many quarters a design in a shape can be turned.
func turnStep(k motif.ShapeKind) int {
	switch k {
	case motif.Rectangle:
		return 2
	case motif.HalfSquare, motif.SettingTriangle:
		return 0
	}
	return 1
}

// Turn turns the design in the place chosen, and with it those of its kind, by a
// quarter clockwise; in a rectangle by a half.
func (t Top) Turn() Top {
	c, _ := t.Cell()
	if !t.CanTurn() {
		return t
	}
	choice := t.Choice()
	choice.QuarterTurns = (choice.QuarterTurns + turnStep(c.Shape.Kind)) % 4
	return t.give(choice)
}

// Row returns the number of the sewing row in which the place chosen lies; None
// where none is chosen.
func (t Top) Row() int {
	for r, row := range t.Rows {
		for _, i := range row {
			if i == t.Chosen {
				return r
			}
		}
	}
	return None
}
