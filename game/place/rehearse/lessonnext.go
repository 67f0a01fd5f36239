package rehearse

import (
	"strings"

	"unthreaded/game/place"
	"unthreaded/game/place/rehearse/lesson"
	"unthreaded/game/plan"
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
	// FromOrder is the order in which the quilt on the table is sewn, FromTop a quilt that
	// has none yet.
	FromOrder NextFrom = "order"
	FromTop   NextFrom = "top"
	FromBoard NextFrom = "board"
	FromTrace NextFrom = "trace"
)

// nextKey tells apart what the next block follows from.
type nextKey struct {
	motif, desk, table, board string
	line, deskRev, topRev     int
	traces, quilts            int
	// designs is where the list of blocks begins: a change makes a new one.
	designs *quilt.Design
}

// foreseen works out the next block while she is asked how long the warm-up shall be,
// once for as long as nothing changes that it follows from.
func (r Room) foreseen() Room {
	if !r.Learning.Choosing || r.Place != place.Rehearse || r.Live != nil {
		return r
	}
	if key := r.nextKey(); key != r.Learning.nextKey {
		r.Learning.Next, r.Learning.nextKey = r.toSew(), key
	}
	return r
}

// nextBlock returns the next block, as it was foreseen where it was.
func (r Room) nextBlock() NextBlock {
	if r.Learning.Choosing && r.nextKey() == r.Learning.nextKey {
		return r.Learning.Next
	}
	return r.toSew()
}

func (r Room) nextKey() nextKey {
	return nextKey{
		r.Motif.ID, r.Desk.Drawing.ID, r.Top.Quilt.ID, r.OnBoard, r.LineRev, r.Desk.Rev, r.Top.Rev, len(r.Records), len(r.Quilts),
		first(r.Designs),
	}
}

func first[T any](list []T) *T {
	if len(list) == 0 {
		return nil
	}
	return &list[0]
}

// toSew returns what she is about to sew: a route or a block of hers on the cloth, that
// of the desk, one of the quilt, that of the board, the one she traced last.
func (r Room) toSew() NextBlock {
	here := lesson.LineOf(r.Motif, r.Repeats, r.Line)
	if here.Path != nil && !strings.HasPrefix(here.ID, motif.ExercisePrefix) {
		return NextBlock{Line: here, Name: here.Name, From: FromCloth}
	}
	if r.Desk.Drawing.ID != "" {
		if l, ok := firstPiece(r.Desk); ok {
			return NextBlock{Line: l, Name: l.Name, From: FromDesk}
		}
	}
	if next, ok := r.inQuilt(); ok {
		return next
	}
	if d, ok := r.onBoard(); ok {
		if l, ok := firstPiece(plan.Open(place.DrawingOf(d))); ok {
			return NextBlock{Line: l, Name: l.Name, From: FromBoard}
		}
	}
	for _, s := range r.Records {
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
func (r Room) onBoard() (quilt.Design, bool) {
	d, ok := r.Design(r.OnBoard)
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
// the one that is sewn first: in the order in which the quilt is sewn, where there is one,
// else in that in which it is laid.
func (r Room) inQuilt() (NextBlock, bool) {
	q, ok := r.laidOut()
	if !ok {
		return NextBlock{}, false
	}
	next := NextBlock{Quilt: q.Name, From: FromTop}
	pieces, order := laying(q, r.DesignsByID())
	if sewn := r.InOrder(); len(sewn) > 0 && q.ID == r.Top.Quilt.ID {
		order, next.From = sewn, FromOrder
	}
	d, ok := r.leastTraced(order, pieces)
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
func (r Room) laidOut() (quilt.Quilt, bool) {
	for _, q := range r.Quilts {
		if q.ID == r.Top.Quilt.ID {
			return q, true
		}
	}
	demo, _ := quilt.Demo()
	if len(r.Quilts) == 0 || r.Quilts[0].ID == demo.ID {
		return quilt.Quilt{}, false
	}
	return r.Quilts[0], true
}

// laying returns the pieces of each design in a quilt, and the designs in sewing order.
func laying(q quilt.Quilt, designs quilt.Designs) (pieces map[string][]motif.Piece, order []string) {
	laid := q.Lay(designs)
	works := map[int]int{}
	for _, p := range laid.Placed {
		works[p.Cell] = p.Work
	}
	pieces = map[string][]motif.Piece{}
	for _, row := range q.SewingRows() {
		for _, c := range row {
			if w, filled := works[c]; filled {
				id := laid.Works[w].Design.ID
				pieces[id] = laid.Works[w].Pieces
				order = append(order, id)
			}
		}
	}
	return pieces, order
}

// leastTraced returns the design of those in order of which she has kept the fewest
// traces, of several the first; designs without a line to sew are passed over.
func (r Room) leastTraced(order []string, pieces map[string][]motif.Piece) (quilt.Design, bool) {
	var best quilt.Design
	least, seen := -1, map[string]bool{}
	for _, id := range order {
		d, known := r.Design(id)
		if seen[id] || !known || len(place.Sewn(pieces[id])) == 0 {
			continue
		}
		seen[id] = true
		if n := r.tracesOf(id); least < 0 || n < least {
			best, least = d, n
		}
	}
	return best, least >= 0
}

// tracesOf counts the kept traces of the lines of a design.
func (r Room) tracesOf(design string) int {
	n := 0
	for _, s := range r.Records {
		if place.OfDesign(s.Motif, design) {
			n++
		}
	}
	return n
}
