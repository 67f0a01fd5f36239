package bench

import (
	"math"

	"unthreaded/path/machine"
)

// Layout tells how the plan lies on the quilt.
type Layout interface {
	// Size is that of the top along and across its rows, in mm.
	Size() (along, across float64)
	// Bands are the rows, from the first edge on.
	Bands() []machine.Band
	// InRow is how often the plan is sewn in one row, at least once.
	InRow() int
}

// typed is the layout that she typed: equal rows, as many plans side by side in
// each as its length holds.
type typed struct {
	job  Job
	plan Plan
}

func (t typed) Size() (along, across float64) { return t.job.Along, t.job.Across }

func (t typed) Bands() []machine.Band {
	out := make([]machine.Band, t.job.Rows)
	for i := range out {
		height := t.job.Across / float64(t.job.Rows)
		out[i] = machine.Band{From: height * float64(i), To: height * float64(i+1)}
	}
	return out
}

func (t typed) InRow() int {
	// A hair's breadth of rounding loses no block.
	return max(1, int(math.Floor(t.job.Along/t.plan.Work.BlockW+1e-6)))
}

// Layout returns how the plan lies on the quilt.
func (b Bench) Layout() Layout { return typed{b.Job, b.Plan} }

// Times returns how often the plan is sewn on the whole top.
func (b Bench) Times() int {
	l := b.Layout()
	return l.InRow() * len(l.Bands())
}

// Overfull returns how high the rows of the plan would be together, in mm, where
// that is more than the quilt has room for; else 0.
func (b Bench) Overfull() float64 {
	_, across := b.Layout().Size()
	if high := b.Plan.Work.BlockH * float64(len(b.Layout().Bands())); high > across+0.5 {
		return high
	}
	return 0
}
