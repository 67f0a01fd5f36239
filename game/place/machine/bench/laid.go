package bench

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"unthreaded/game/top"
	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/quilt"
)

// Quilted is a quilt of hers in which the plan lies.
type Quilted struct {
	ID, Name string
	Layout   Layout
}

// QuiltOf returns how the plan of a drawing lies in a top; false where it lies nowhere
// in it as it was planned.
func QuiltOf(t top.Top, drawing string) (Quilted, bool) {
	held, other := t.Holds(drawing)
	if len(held) == 0 {
		return Quilted{}, false
	}
	onlyRound := !slices.ContainsFunc(held, func(h top.Held) bool { return !t.Round(h.Row) })
	f := frame{t: t, slant: t.Quilt.Setting == quilt.OnPoint && !onlyRound}
	l := f.box()
	l.Other = other
	for _, h := range held {
		switch {
		case !t.Round(h.Row):
			l.Rows = append(l.Rows, f.row(h))
		case f.slant:
			l.Beside += h.Times
		default:
			l.Rows = append(l.Rows, f.border(h)...)
			l.Turn = l.Turn || f.sides(h)
		}
	}
	slices.SortFunc(l.Rows, func(a, b Row) int { return cmp.Compare(a.From, b.From) })
	return Quilted{ID: t.Quilt.ID, Name: t.Quilt.Name, Layout: l}, true
}

// frame looks at a top along its rows. On point these run from the lower left to the
// upper right, and the first edge is the upper left corner.
type frame struct {
	t     top.Top
	slant bool
}

// at returns a place of the top, along and across the rows.
func (f frame) at(p geom.Point) geom.Point {
	if !f.slant {
		return p
	}
	return geom.Pt((p.X-p.Y+f.t.Quilt.Size().H)/math.Sqrt2, (p.X+p.Y)/math.Sqrt2)
}

func (f frame) box() Layout {
	l := Layout{Outline: f.t.Outline().Map(f.at), Slant: f.slant}
	_, hi := l.Outline.Bounds()
	l.Along, l.Across = hi.X, hi.Y
	return l
}

// row is a row of blocks or of sashing, as broad as its places that hold the plan.
func (f frame) row(h top.Held) Row {
	var all geom.Polyline
	for _, i := range h.Cells {
		all = append(all, f.t.Laying.Cells[i].Outline().Map(f.at)...)
	}
	lo, hi := all.Bounds()
	return Row{
		Band: machine.Band{From: math.Max(0, lo.Y), To: hi.Y}, Name: f.t.RowName(h.Row),
		Begin: math.Max(0, lo.X), End: hi.X, Times: h.Times,
	}
}

// border is a border as two rows, its upper and its lower side. The left side is sewn
// like the upper and the right like the lower, with the quilt turned by a quarter.
func (f frame) border(h top.Held) []Row {
	size, outer, width := f.t.Quilt.Size(), 0.0, 0.0
	for k := len(f.t.Quilt.Borders) - 1; k >= 0; k-- {
		width = f.t.Quilt.Borders[k].WidthMM
		if f.holdsBorder(h, k) {
			break
		}
		outer += width
	}
	upper := Row{Band: machine.Band{From: outer, To: outer + width}, Begin: outer, End: size.W - outer}
	lower := upper
	lower.From, lower.To = size.H-outer-width, size.H-outer
	name := f.t.RowName(h.Row)
	upper.Name, lower.Name = name+" upper", name+" lower"
	for _, i := range h.Cells {
		if f.t.Middle(i).Y > lower.From || f.onSide(i) && f.t.Middle(i).X > size.W/2 {
			lower.Times++
		} else {
			upper.Times++
		}
	}
	return slices.DeleteFunc([]Row{upper, lower}, func(r Row) bool { return r.Times == 0 })
}

// holdsBorder tells whether the places are those of border k, counted from the inside.
func (f frame) holdsBorder(h top.Held, k int) bool {
	kind := f.t.Laying.Cells[h.Cells[0]].Kind
	return kind == quilt.BorderKind(k) || kind == quilt.BorderCornerKind(k)
}

// onSide tells whether a place is the left or the right side of a border.
func (f frame) onSide(i int) bool {
	lo, hi := f.t.Laying.Cells[i].Outline().Bounds()
	return hi.Y-lo.Y > hi.X-lo.X+0.01
}

// sides tells whether some of the places are sides.
func (f frame) sides(h top.Held) bool { return slices.ContainsFunc(h.Cells, f.onSide) }

// Among tells the bench, before a plan is sewn on it, in which quilts that lies, the
// one on the table first.
func (b Bench) Among(quilts []Quilted) Bench {
	b.Quilts = quilts
	return b
}

// Quilt returns the quilt that she takes the rows from; false where she types them, or
// where the one she chose no longer holds the plan.
func (b Bench) Quilt() (Quilted, bool) {
	i := slices.IndexFunc(b.Quilts, func(q Quilted) bool { return q.ID == b.Job.Quilt && q.ID != "" })
	if i < 0 {
		return Quilted{}, false
	}
	return b.Quilts[i], true
}

// QuiltLost tells that the quilt that she took the rows from no longer holds the plan.
func (b Bench) QuiltLost() bool {
	_, there := b.Quilt()
	return b.Job.Quilt != "" && !there
}

// checkQuilt tells whether a document can name a quilt so.
func checkQuilt(id string) error {
	if len(id) > maxID {
		return fmt.Errorf("quilt: an ID has at most %d characters", maxID)
	}
	return nil
}
