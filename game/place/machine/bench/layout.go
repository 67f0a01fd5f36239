package bench

import (
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/quilt/order"
)

// Layout tells how the plan lies on the quilt: the rows along which it is sewn, and
// the box that holds the top with its sides along and across them. Lengths are mm,
// from the box's first corner.
type Layout struct {
	Along, Across float64
	// Rows ascend from the first edge and do not overlap.
	Rows []Row
	// Sewn lists the rows in the order in which they are sewn, Turned tells of each whether
	// the quilt lies turned half way then; empty where no order is given.
	Sewn   []int
	Turned []bool
	// Outline is the edge of the top within the box, X along and Y across the rows.
	Outline geom.Polyline
	// Slant tells that the rows run aslant, so that the top does not fill its box.
	Slant bool
}

// Row is a row of a layout.
type Row struct {
	machine.Band
	// Kind and Number name the row: the third row of blocks, or of sashing. Stage is its
	// place in the order of a quilt.
	Kind   order.StageKind
	Number int
	Stage  int
	// Begin and End are the places along it between which it is sewn.
	Begin, End float64
	// Times is how often the plan is sewn in a row that is typed.
	Times int
}

// Bands returns the rows as they go through the throat.
func (l Layout) Bands() []machine.Band {
	out := make([]machine.Band, len(l.Rows))
	for i, r := range l.Rows {
		out[i] = r.Band
	}
	return out
}

// Times returns how often the plan is sewn on the whole top.
func (l Layout) Times() int {
	n := 0
	for _, r := range l.Rows {
		n += r.Times
	}
	return n
}

// share returns the part of the box that the top fills.
func (l Layout) share() float64 {
	area := 0.0
	for i := range l.Outline[1:] {
		a, b := l.Outline[i], l.Outline[i+1]
		area += (a.X*b.Y - b.X*a.Y) / 2
	}
	return math.Abs(area) / (l.Along * l.Across)
}

// boxOutline is the edge of a top that fills its box.
func boxOutline(along, across float64) geom.Polyline {
	return geom.Polyline{geom.Pt(0, 0), geom.Pt(along, 0), geom.Pt(along, across), geom.Pt(0, across), geom.Pt(0, 0)}
}

// typed is the layout that she typed: equal rows, as many plans side by side in
// each as its length holds.
func typed(j Job, p Plan) Layout {
	l := Layout{Along: j.Along, Across: j.Across, Outline: boxOutline(j.Along, j.Across)}
	// A hair's breadth of rounding loses no block.
	times := max(1, int(math.Floor(j.Along/p.Work.BlockW+1e-6)))
	height := j.Across / float64(j.Rows)
	for i := range j.Rows {
		band := machine.Band{From: height * float64(i), To: height * float64(i+1)}
		l.Rows = append(l.Rows, Row{Band: band, Kind: order.RowOf, Number: i + 1, End: j.Along, Times: times})
	}
	return l
}

// Layout returns the rows that are sewn: those of the quilt on the table, or as she typed
// them.
func (b Bench) Layout() Layout {
	if q, ok := b.Quilt(); ok {
		return q.Layout
	}
	return typed(b.Job, b.Plan)
}

// Times returns how often the plan is sewn on a top that is typed.
func (b Bench) Times() int { return typed(b.Job, b.Plan).Times() }

// Overfull returns how high the typed rows of the plan would be together, in mm, where
// that is more than the quilt has room for; else 0.
func (b Bench) Overfull() float64 {
	if _, ok := b.Quilt(); ok {
		return 0
	}
	if high := b.Plan.Work.BlockH * float64(b.Job.Rows); high > b.Job.Across+0.5 {
		return high
	}
	return 0
}
