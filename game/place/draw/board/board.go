// Package board is the board on which the lines of one block are drawn: a ready
// motif fitted to the block, strokes of the hand made smooth, ruler lines from dot
// to dot, lines from a file. It knows nothing of screens; places are in mm in the
// box of the block.
package board

import (
	"image"

	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
	"unthreaded/path/sketch"
)

// Tool is what the pointer does on the board.
type Tool string

// The tools: the pencil draws by hand, the ruler from dot to dot, and lines are
// chosen and changed.
const (
	Pencil Tool = "pencil"
	Ruler  Tool = "ruler"
	Change Tool = "change"
)

// None is the number of no line and of no point.
const None = -1

// Board is the state of the board. Make one with Open; a method returns the board
// after it and leaves the one before as it was.
type Board struct {
	// Design is what is drawn. Change it with the methods only: they keep the steps
	// for undo.
	Design quilt.Design
	// Work holds the lines of the design, the fitted motif's among them, Dots the
	// places of its dots; Trouble says why the motif cannot be fitted.
	Work    []motif.Piece
	Dots    []geom.Point
	Trouble error

	// Photo is the picture of the design's photo.
	Photo Photo

	Tool Tool
	// Chosen is the drawn line that changes are about, None or All; Node is the point
	// of it that was touched last.
	Chosen, Node int
	// spot is the place on the chosen line that was touched last.
	spot geom.Spot
	held held

	// Stroke is the pencil stroke in hand, Chain the dots of the ruler line in
	// hand, At where the pointer or the keyboard's cross is, snapped to what is near.
	Stroke geom.Polyline
	Chain  []geom.Point
	At     geom.Point
	// Cross tells that At is to be shown: the keyboard moves it.
	Cross bool

	// Fitted tells what was made of the last pencil stroke; HasFitted that there
	// was one.
	Fitted    sketch.Fitted
	HasFitted bool
	hand      handLine
	// Said is a word on the last change, for the page.
	Said words.Msg
	// Book is the language in which new lines are named.
	Book words.Book

	// Finger tells that the pointer in use is a finger, which covers what it points at.
	Finger bool
	// Pixel is the size of a screen pixel in mm, which tells how exact a hand is.
	Pixel float64
	// Rev grows with each change of what is to be seen, but for what is in hand.
	Rev int

	// photos holds the pictures by the IDs of their photos: one that was changed for
	// another comes back by undo.
	photos  map[string]*image.RGBA
	squared squared

	past, future []step
	// unset are the dots of the ruler line in hand that were taken back, the last one last.
	unset []geom.Point
	// held by a control that sends many values, such as a slider: they are one step.
	lastKey string
}

// step is a design as it was before a change.
type step struct{ design quilt.Design }

// All stands for all drawn lines in Chosen.
const All = -2

// Open lays a design on the board.
func Open(d quilt.Design) Board {
	b := Board{Design: d, Tool: Pencil, Chosen: None, Node: None, Pixel: 25.4 / 96}
	return b.laid()
}

// Renamed returns the board with the design under another ID and name, in all its
// steps; what is in hand stays.
func (b Board) Renamed(id, name string) Board {
	again := func(steps []step) []step {
		out := make([]step, len(steps))
		for i, s := range steps {
			s.design.ID, s.design.Name = id, name
			out[i] = s
		}
		return out
	}
	b.Design.ID, b.Design.Name = id, name
	b.past, b.future = again(b.past), again(b.future)
	return b
}

// laid makes anew what follows from the design.
func (b Board) laid() Board {
	b.Rev++
	b.Trouble = nil
	work, err := b.Design.Work()
	if err != nil {
		b.Trouble = err
		work = nil
		if bare, err := b.bare().Work(); err == nil {
			work = bare // what was drawn stays to be seen
		}
	}
	b.Work = work
	b.Dots = b.Design.DotPlaces()
	if b.Chosen >= len(b.Design.Lines) || (b.Chosen == All && len(b.Design.Lines) == 0) {
		b.Chosen, b.Node = None, None
	}
	return b
}

// bare is the design without its fitted motif.
func (b Board) bare() quilt.Design {
	d := b.Design
	d.Recipe = nil
	return d
}

// set takes a changed design; one that could not be kept is refused, and Said says
// why. Changes of the same key that follow each other, as from a slider, are one
// step for undo; the empty key is always a step of its own.
func (b Board) set(d quilt.Design, key string) Board {
	if err := d.Validate(); err != nil {
		b.Said = words.Why(err)
		return b
	}
	if key == "" || key != b.lastKey {
		b.past = append(b.past[:len(b.past):len(b.past)], step{b.Design})
	}
	b.lastKey = key
	b.future, b.unset = nil, nil
	b.Design = d
	return b.laid()
}

// CanUndo tells whether a change can be taken back, CanRedo whether one can be done
// again.
func (b Board) CanUndo() bool { return len(b.past) > 0 || len(b.Chain) > 0 }

// CanRedo tells whether a change that was taken back can be done again.
func (b Board) CanRedo() bool { return len(b.future) > 0 || len(b.unset) > 0 }

// Undo takes the last change back: a dot of the ruler line in hand, or a change of
// the design.
func (b Board) Undo() Board {
	if n := len(b.Chain); n > 0 {
		b.unset = append(b.unset[:len(b.unset):len(b.unset)], b.Chain[n-1])
		b.Chain = b.Chain[: n-1 : n-1]
		return b
	}
	n := len(b.past)
	if n == 0 {
		return b
	}
	b.future = append(b.future[:len(b.future):len(b.future)], step{b.Design})
	b.Design, b.past = b.past[n-1].design, b.past[:n-1]
	return b.afterStep()
}

// Redo does again what was taken back last: a change of the design, or a dot of the ruler
// line in hand, which was taken back before it.
func (b Board) Redo() Board {
	n := len(b.future)
	if k := len(b.unset); n == 0 && k > 0 {
		b.Chain = append(b.Chain[:len(b.Chain):len(b.Chain)], b.unset[k-1])
		b.unset = b.unset[: k-1 : k-1]
		return b
	}
	if n == 0 {
		return b
	}
	b.past = append(b.past[:len(b.past):len(b.past)], step{b.Design})
	b.Design, b.future = b.future[n-1].design, b.future[:n-1]
	return b.afterStep()
}

func (b Board) afterStep() Board {
	b.lastKey, b.Said, b.HasFitted = "", words.Msg{}, false
	b.Stroke, b.held = nil, held{}
	return b.laid().under().refound()
}

// Steps returns how many changes can be taken back.
func (b Board) Steps() int { return len(b.past) }

// withLines returns the design with other lines; the slice is a copy that may be
// changed.
func (b Board) lines() []quilt.Line {
	return append([]quilt.Line{}, b.Design.Lines...)
}

func (b Board) withLines(lines []quilt.Line, key string) Board {
	d := b.Design
	d.Lines = lines
	return b.set(d, key)
}

// SetTool takes another tool in hand. A ruler line in hand is finished.
func (b Board) SetTool(t Tool) Board {
	if t != Pencil && t != Ruler && t != Change {
		return b
	}
	b = b.Finish()
	b.Tool, b.Stroke, b.held, b.Said = t, nil, held{}, words.Msg{}
	if t != Change {
		b.Chosen, b.Node = None, None
	}
	b.Rev++
	return b
}
