package order

import (
	"fmt"

	"unthreaded/path/quilt"
)

// Planning is a Plan taken in steps, a stage at a time, so that a page need not stand
// still meanwhile. Make one with Begin; it is changed by its steps.
type Planning struct {
	q       quilt.Quilt
	designs quilt.Designs
	choices Choices
	p       *planner // nil before the first step
	todo    []waiting
	done    bool
	err     error
}

// Begin begins to plan a top; all work is done by Step.
func Begin(q quilt.Quilt, designs quilt.Designs, c Choices) *Planning {
	return &Planning{q: q, designs: designs, choices: c}
}

// Step takes the planning on and tells whether it has ended: first the top is laid out
// and its different blocks readied, then a stage is planned in each step.
func (w *Planning) Step() bool {
	switch {
	case w.done:
	case w.p == nil:
		w.begin()
	case len(w.todo) > 0:
		s := w.todo[0]
		w.todo = w.todo[1:]
		if err := w.p.add(s); err != nil {
			w.end(fmt.Errorf("%s: %w", s.stage.ID, err))
		}
	case len(w.p.out.Stages) == 0:
		w.end(ErrNothing)
	default:
		w.p.out.keepUsed()
		w.end(nil)
	}
	return w.done
}

func (w *Planning) begin() {
	p, err := newPlanner(w.q, w.designs, w.choices)
	if err != nil {
		w.end(err)
		return
	}
	stages, err := p.stages()
	if err != nil {
		w.end(err)
		return
	}
	w.p, w.todo = p, p.sequence(stages)
}

func (w *Planning) end(err error) { w.done, w.err, w.todo = true, err, nil }

// Progress returns how many stages are planned, and of how many.
func (w *Planning) Progress() (done, of int) {
	if w.p == nil {
		return 0, 0
	}
	return len(w.p.out.Stages), len(w.p.out.Stages) + len(w.todo)
}

// Order returns what was planned once it has ended, else an empty order; the errors are
// those of Plan.
func (w *Planning) Order() (Order, error) {
	if !w.done || w.err != nil {
		return Order{}, w.err
	}
	return w.p.out, nil
}
