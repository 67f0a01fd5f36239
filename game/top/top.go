// Package top is the table on which a quilt top is laid out: rows and columns of
// blocks, their sashing and borders, which design lies in which place, how wide the
// gaps between the lines are and in which order the top is sewn. It knows nothing
// of screens; places are in mm on the top.
//
// # The one order
//
// Places read the order in which the quilt on the table is sewn from Top.Plan, as
// r.Library.Top.Plan or in short r.Top.Plan:
//
//	Plan.Any()    tells that there is an order of the top as it lies
//	Plan.Order    the order: stages, programs, moves (order.Order), its Fingerprint
//	Plan.Choices  what she decided about it; changed with Top.Decide
//	Plan.Sewn     the ticks; changed with Top.Tick
//	Plan.Trouble  why there is none: order.ErrNothing on a top with nothing to sew
//
// The root of the program has it worked out anew (game/work) after a change, once it has
// rested for a moment or another place than the table is opened. Until the answer comes a
// place finds the plan not current; then every place hears place.Worked. Choices and ticks are
// kept beside the quilt when they change, and are reached by undo. Plan.StageOf
// finds the stage of a row; a stage has the same Number everywhere.
package top

import (
	"reflect"
	"slices"

	"unthreaded/path/geom"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

// None is the number of no place.
const None = -1

// Scope tells for which places a choice counts.
type Scope string

// A choice counts for all places of a kind or for one place only.
const (
	AllOfKind Scope = "all"
	OnlyThis  Scope = "one"
)

// Top is the state of the table. Make one with Open; a method returns the top after
// it and leaves the one before as it was.
type Top struct {
	// Quilt is what is laid out. Change it with the methods only: they keep the
	// steps for undo.
	Quilt quilt.Quilt
	// Laying is the quilt with its designs in place, Rows the places of each row in
	// sewing order.
	Laying quilt.Laying
	Rows   [][]int
	// Chosen is the place that changes are about, None or an index into
	// Laying.Cells; Scope tells which others change with it.
	Chosen int
	Scope  Scope
	// Want is the size asked for, zero for none.
	Want quilt.Size
	// Measures are what was measured on the top as it is.
	Measures Measures
	// Plan is the one order in which the top is sewn, with what she decided about it and
	// what is sewn so far.
	Plan Plan
	// Rev grows with each change of what is to be seen, Changes with each of the
	// quilt, the choices or the ticks.
	Rev, Changes int
	// Laid counts how often the top was laid anew; number is that of the quilt among its
	// states.
	Laid, number int

	// the person's designs, and the steps for undo and for redo
	designs      quilt.Designs
	past, future []state
	// lastKey is the control of the last change: changes of the same one that follow
	// each other are one step.
	lastKey string
}

// state is what undo brings back. Quilts of the same number are the same.
type state struct {
	quilt   quilt.Quilt
	number  int
	choices order.Choices
	sewn    order.Sewn
}

func (t Top) state() state { return state{t.Quilt, t.number, t.Plan.Choices, t.Plan.Sewn} }

// Open lays a quilt, which must be valid, on the table with a person's designs.
func Open(q quilt.Quilt, designs quilt.Designs) Top {
	t := Top{Quilt: q, Chosen: None, Scope: AllOfKind, designs: designs}
	return t.laid()
}

// laid makes anew what follows from the quilt and the designs. The place chosen
// stays chosen as long as the layout has it.
func (t Top) laid() Top {
	chosen := ""
	if c, ok := t.Cell(); ok {
		chosen = c.ID
	}
	t.Rev++
	t.Laid++
	t.Laying = t.Quilt.LayAfter(t.Laying, t.designs)
	t.Rows = t.Quilt.SewingRows()
	t.Chosen = slices.IndexFunc(t.Laying.Cells, func(c quilt.Cell) bool { return c.ID == chosen })
	t.Measures = Measures{}
	return t.unplanned()
}

// WithDesigns takes other designs, as they are after some were drawn.
func (t Top) WithDesigns(designs quilt.Designs) Top {
	t.designs = designs
	return t.laid()
}

// Cell returns the place that is chosen.
func (t Top) Cell() (quilt.Cell, bool) {
	if t.Chosen < 0 || t.Chosen >= len(t.Laying.Cells) {
		return quilt.Cell{}, false
	}
	return t.Laying.Cells[t.Chosen], true
}

// step notes the top as it is for undo, before a change. Changes of the same key that
// follow each other are one step; the empty key is always a step of its own.
func (t Top) step(key string) Top {
	if key == "" || key != t.lastKey {
		t.past = append(t.past[:len(t.past):len(t.past)], t.state())
	}
	t.lastKey, t.future = key, nil
	t.Changes++
	return t
}

// set takes a changed quilt, with a step.
func (t Top) set(q quilt.Quilt, key string) Top {
	t = t.step(key)
	t.Quilt = q
	t.number = t.Changes
	return t.laid()
}

// CanUndo tells whether a change can be taken back, CanRedo whether one can be done
// again.
func (t Top) CanUndo() bool { return len(t.past) > 0 }

// CanRedo tells whether a change that was taken back can be done again.
func (t Top) CanRedo() bool { return len(t.future) > 0 }

// Undo takes the last change back.
func (t Top) Undo() Top {
	n := len(t.past)
	if n == 0 {
		return t
	}
	t.future = append(t.future[:len(t.future):len(t.future)], t.state())
	last := t.past[n-1]
	t.past = t.past[:n-1]
	return t.brought(last)
}

// Redo does again what was taken back last.
func (t Top) Redo() Top {
	n := len(t.future)
	if n == 0 {
		return t
	}
	t.past = append(t.past[:len(t.past):len(t.past)], t.state())
	next := t.future[n-1]
	t.future = t.future[:n-1]
	return t.brought(next)
}

// brought returns the top as it was, or is to be again.
func (t Top) brought(s state) Top {
	other, decided := s.number != t.number, !reflect.DeepEqual(s.choices, t.Plan.Choices)
	t.Quilt, t.number, t.Plan.Choices, t.Plan.Sewn, t.lastKey = s.quilt, s.number, s.choices, s.sewn, ""
	t.Changes++
	switch {
	case other:
		return t.laid()
	case decided:
		return t.unplanned()
	}
	t.Rev++
	return t
}

// Renamed returns the top with the quilt under another ID and name, in all its steps.
func (t Top) Renamed(id, name string) Top {
	again := func(states []state) []state {
		out := slices.Clone(states)
		for i := range out {
			out[i].quilt.ID, out[i].quilt.Name = id, name
		}
		return out
	}
	t.Quilt.ID, t.Quilt.Name = id, name
	t.past, t.future = again(t.past), again(t.future)
	return t.unplanned()
}

// Outline returns the edge of the top, closed, in mm.
func (t Top) Outline() geom.Polyline {
	s := t.Quilt.Size()
	return geom.Polyline{geom.Pt(0, 0), geom.Pt(s.W, 0), geom.Pt(s.W, s.H), geom.Pt(0, s.H), geom.Pt(0, 0)}
}
