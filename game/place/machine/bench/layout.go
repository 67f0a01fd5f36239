package bench

import (
	"fmt"
	"math"

	"unthreaded/path/geom"
	"unthreaded/path/machine"
)

// Layout tells how the plan lies on the quilt: the rows along which it is sewn, and
// the box that holds the top with its sides along and across them. Lengths are mm,
// from the box's first corner.
type Layout struct {
	Along, Across float64
	// Rows ascend from the first edge and do not overlap.
	Rows []Row
	// Beside is how often the plan is sewn apart from these rows.
	Beside int
	// Other is the number of places that hold the plan's design at another size; its
	// line is another there, and they count nowhere.
	Other int
	// Outline is the edge of the top within the box, X along and Y across the rows.
	Outline geom.Polyline
	// Slant tells that the rows run aslant, so that the top does not fill its box; Turn
	// that the sides of a border count with its upper and lower one, as they lie when
	// the quilt is turned by a quarter.
	Slant, Turn bool
}

// Row is a row of a layout.
type Row struct {
	machine.Band
	// Name is the row in words: "row 3".
	Name string
	// Begin and End are the places along it between which the plan is sewn.
	Begin, End float64
	// Times is how often it is sewn there.
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
	n := l.Beside
	for _, r := range l.Rows {
		n += r.Times
	}
	return n
}

// Fullest returns how often the plan is sewn in the row that has most of it, and
// whether all rows have as much.
func (l Layout) Fullest() (times int, all bool) {
	all = true
	for _, r := range l.Rows {
		all = all && r.Times == l.Rows[0].Times
		times = max(times, r.Times)
	}
	return max(1, times), all
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
		l.Rows = append(l.Rows, Row{Band: band, Name: fmt.Sprintf("row %d", i+1), End: j.Along, Times: times})
	}
	return l
}

// Layout returns how the plan lies on the quilt: as it lies in the quilt that she
// chose, else as she typed it.
func (b Bench) Layout() Layout {
	if q, ok := b.Quilt(); ok {
		return q.Layout
	}
	return typed(b.Job, b.Plan)
}

// Times returns how often the plan is sewn on the whole top.
func (b Bench) Times() int { return b.Layout().Times() }

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
