package game

import (
	"strings"

	"unthreaded/game/lesson"
	"unthreaded/game/place"
	"unthreaded/game/plan"
	"unthreaded/game/top"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// NextBlock is what she is about to sew, with which a warm-up ends.
type NextBlock struct {
	Line lesson.Line
	// Name is that of the block, Quilt that of the quilt it lies in, if it is taken from
	// one.
	Name, Quilt string
	From        NextFrom
}

// NextFrom tells where the next block was found.
type NextFrom string

// The places that are asked, in order.
const (
	FromCloth NextFrom = "cloth"
	FromDesk  NextFrom = "desk"
	// FromOrder is the first row in the order that was found for a quilt, FromTop the
	// whole quilt.
	FromOrder NextFrom = "order"
	FromTop   NextFrom = "top"
	FromBoard NextFrom = "board"
	FromTrace NextFrom = "trace"
)

// nextKey tells apart what the next block follows from.
type nextKey struct {
	motif, desk, top, board string
	blocks                  *quilt.Design // the list of blocks, another after each change
	line, deskRev, topRev   int
	traces, quilts          int
}

// foreseen works out the next block while she is asked how long the warm-up shall be,
// once for as long as nothing changes that it follows from.
func (m Model) foreseen() Model {
	if !m.Learning.Choosing || m.Place != Rehearse || m.Live != nil {
		return m
	}
	if key := m.nextKey(); key != m.Learning.nextKey {
		m.Learning.Next, m.Learning.nextKey = m.toSew(), key
	}
	return m
}

// nextBlock returns the next block, as it was foreseen where it was.
func (m Model) nextBlock() NextBlock {
	if m.Learning.Choosing && m.nextKey() == m.Learning.nextKey {
		return m.Learning.Next
	}
	return m.toSew()
}

func (m Model) nextKey() nextKey {
	var blocks *quilt.Design
	if len(m.Designs) > 0 {
		blocks = &m.Designs[0]
	}
	return nextKey{
		m.Motif.ID, m.Desk.Drawing.ID, m.Quilting.Top.Quilt.ID, m.OnBoard, blocks,
		m.LineRev, m.Desk.Rev, m.Quilting.Top.Rev, len(m.Records), len(m.Quilts),
	}
}

// toSew returns what she is about to sew: a route or a block of hers on the cloth, that
// of the desk, one of the quilt, that of the board, the one she traced last.
func (m Model) toSew() NextBlock {
	here := lesson.LineOf(m.Motif, m.Repeats, m.Line)
	if here.Path != nil && !strings.HasPrefix(here.ID, motif.ExercisePrefix) {
		return NextBlock{Line: here, Name: here.Name, From: FromCloth}
	}
	if m.Desk.Drawing.ID != "" {
		if l, ok := firstPiece(m.Desk); ok {
			return NextBlock{Line: l, Name: l.Name, From: FromDesk}
		}
	}
	if next, ok := m.inQuilt(); ok {
		return next
	}
	if d, ok := m.onBoard(); ok {
		if l, ok := firstPiece(plan.Open(place.DrawingOf(d))); ok {
			return NextBlock{Line: l, Name: l.Name, From: FromBoard}
		}
	}
	for _, s := range m.Records {
		l := lesson.Line{ID: s.Motif, Name: s.Name, From: s.ID}
		if _, ready := motif.Find(s.Motif); ready {
			l.From = ""
		}
		if !strings.HasPrefix(s.Motif, motif.ExercisePrefix) {
			return NextBlock{Line: l, Name: l.Name, From: FromTrace}
		}
	}
	return NextBlock{Line: here, Name: here.Name, From: FromCloth}
}

// onBoard returns the block on the board, if it has lines to sew.
func (m Model) onBoard() (quilt.Design, bool) {
	d, ok := m.Design(m.OnBoard)
	if !ok {
		return d, false
	}
	work, err := d.Work()
	return d, err == nil && len(place.Sewn(work)) > 0
}

// firstPiece returns the first piece of a desk's route.
func firstPiece(k plan.Desk) (lesson.Line, bool) {
	pieces := k.Pieces()
	if len(pieces) == 0 {
		return lesson.Line{}, false
	}
	l := pieces[0].Line
	return lesson.LineOf(motif.Of(place.LineID(place.RoutePrefix, k.Drawing.ID, l), k.Drawing.Name, "", l), 1, l), true
}

// inQuilt returns the block of the quilt laid out that she has traced least, of several
// the one that is sewn first: in the first row, where an order of the rows was found,
// else anywhere in the order in which the quilt is laid.
func (m Model) inQuilt() (NextBlock, bool) {
	t, ok := m.laidOut()
	if !ok {
		return NextBlock{}, false
	}
	next := NextBlock{Quilt: t.Quilt.Name, From: FromTop}
	var places []int
	for _, row := range t.Rows {
		places = append(places, row...)
	}
	if legs := t.Order.Legs; len(legs) > 0 {
		places, next.From = legs[0].Places, FromOrder
	}
	d, ok := m.leastTraced(t, places)
	if !ok {
		return NextBlock{}, false
	}
	k := plan.Open(place.DrawingOf(d))
	if !k.Trouble.None() {
		k = k.SetStops(true) // its lines lie apart
	}
	next.Name = d.Name
	next.Line, ok = firstPiece(k)
	return next, ok
}

// laidOut returns the quilt on the table, or before that was opened the first of her
// own; the one that came with the program counts only on the table.
func (m Model) laidOut() (top.Top, bool) {
	if t := m.Quilting.Top; t.Quilt.ID != "" {
		return t, true
	}
	demo, _ := quilt.Demo()
	if len(m.Quilts) == 0 || m.Quilts[0].ID == demo.ID {
		return top.Top{}, false
	}
	return top.Open(m.Quilts[0], m.DesignsByID()), true
}

// leastTraced returns the design in some places of which she has kept the fewest
// traces, of several the first; designs without a line to sew are passed over.
func (m Model) leastTraced(t top.Top, places []int) (quilt.Design, bool) {
	works := map[int]int{}
	for _, p := range t.Laying.Placed {
		works[p.Cell] = p.Work
	}
	var best quilt.Design
	least, seen := -1, map[string]bool{}
	for _, c := range places {
		w, filled := works[c]
		if !filled || seen[t.Laying.Works[w].Design.ID] {
			continue
		}
		id := t.Laying.Works[w].Design.ID
		seen[id] = true
		d, known := m.DesignsByID()[id]
		if !known || len(place.Sewn(t.Laying.Works[w].Pieces)) == 0 {
			continue
		}
		if n := m.tracesOf(id); least < 0 || n < least {
			best, least = d, n
		}
	}
	return best, least >= 0
}

// tracesOf counts the kept traces of the lines of a design.
func (m Model) tracesOf(design string) int {
	n := 0
	for _, s := range m.Records {
		if place.OfDesign(s.Motif, design) {
			n++
		}
	}
	return n
}
