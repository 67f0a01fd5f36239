package bench

import (
	"cmp"
	"math"
	"slices"

	"unthreaded/game/top"
	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

// Laid is the quilt on the table as it is sewn: its order, the choices that led to it, and
// what is ticked off.
type Laid struct {
	Quilt   quilt.Quilt
	Order   order.Order
	Choices order.Choices
	Sewn    order.Sewn
	// Layout are its rows as they go through the throat, Feet what its lines ask for.
	Layout Layout
	Feet   []Foot
}

// LaidOn returns the quilt on the table; false before there is an order of it as it lies.
func LaidOn(t top.Top) (Laid, bool) {
	if !t.Plan.Any() {
		return Laid{}, false
	}
	l := Laid{Quilt: t.Quilt, Order: t.Plan.Order, Choices: t.Plan.Choices, Sewn: t.Plan.Sewn}
	l.Layout, l.Feet = layoutOf(t), feetOf(t.Plan.Order)
	return l, true
}

// layoutOf returns the rows and the strips of sashing in the order in which they are sewn.
// The ditch and the borders are none: Seams tells of them.
func layoutOf(t top.Top) Layout {
	f := frame{q: t.Quilt, slant: t.Quilt.Setting == quilt.OnPoint && t.Quilt.Overall == nil}
	l := f.box(t.Outline())
	at := map[int]int{} // rows by stage
	for i, s := range t.Plan.Order.Stages {
		if s.Kind == order.RowOf || s.Kind == order.Sashing || s.Kind == order.EdgeRow {
			l.Rows = append(l.Rows, f.row(t, i))
		}
	}
	slices.SortFunc(l.Rows, func(a, b Row) int { return cmp.Compare(a.From, b.From) })
	end := 0.0
	for i := range l.Rows {
		// Rounding must not lay one row over the next.
		r := &l.Rows[i]
		r.From = math.Max(r.From, end)
		r.To = math.Min(math.Max(r.From, r.To), l.Across)
		end, at[r.Stage] = r.To, i
	}
	for i, s := range t.Plan.Order.Stages {
		if row, ok := at[i]; ok {
			l.Sewn, l.Turned = append(l.Sewn, row), append(l.Turned, s.Turned)
		}
	}
	return l
}

// frame looks at a top along its rows. On point these run from the lower left to the
// upper right, and the first edge is the upper left corner.
type frame struct {
	q     quilt.Quilt
	slant bool
}

// at returns a place of the top, along and across the rows.
func (f frame) at(p geom.Point) geom.Point {
	if !f.slant {
		return p
	}
	return geom.Pt((p.X-p.Y+f.q.Size().H)/math.Sqrt2, (p.X+p.Y)/math.Sqrt2)
}

func (f frame) box(outline geom.Polyline) Layout {
	l := Layout{Outline: outline.Map(f.at), Slant: f.slant}
	_, hi := l.Outline.Bounds()
	l.Along, l.Across = hi.X, hi.Y
	return l
}

// row is the row of a stage, as broad as all its places.
func (f frame) row(t top.Top, stage int) Row {
	s := t.Plan.Order.Stages[stage]
	var all geom.Polyline
	if s.Row == top.None {
		all = append(all, t.Plan.Order.Over[s.Number-1].Outline().Map(f.at)...)
	} else {
		for _, i := range t.Rows[s.Row] {
			all = append(all, t.Laying.Cells[i].Outline().Map(f.at)...)
		}
	}
	lo, hi := all.Bounds()
	return Row{
		Band: machine.Band{From: math.Max(0, lo.Y), To: hi.Y}, Kind: s.Kind, Number: s.Number, Stage: stage,
		Begin: math.Max(0, lo.X), End: hi.X,
	}
}

// OnTable tells the bench which quilt lies on the table, nil for none that has an order. A
// job that is new, and as it began, takes its rows from it also where its order comes later.
func (b Bench) OnTable(l *Laid) Bench {
	if _, kept := b.shelf.jobs[b.Plan.ID]; b.laid == nil && l != nil && !kept && b.Plan.ID != "" && len(b.past) == 0 {
		b.Job.Quilt = l.Quilt.ID
	}
	b.laid = l
	b.Rev++
	return b.inRows()
}

// Laid returns the quilt on the table.
func (b Bench) Laid() (Laid, bool) {
	if b.laid == nil {
		return Laid{}, false
	}
	return *b.laid, true
}

// Quilt returns the quilt that she takes the rows from; false where she types them, or
// where none lies on the table.
func (b Bench) Quilt() (Laid, bool) {
	if b.Job.Quilt == "" {
		return Laid{}, false
	}
	return b.Laid()
}

// QuiltLost tells that no quilt lies on the table though the rows are taken from one.
func (b Bench) QuiltLost() bool { return b.Job.Quilt != "" && b.laid == nil }
