package draw

import (
	"maps"
	"strings"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/place/draw/board"
	"unthreaded/path/quilt"
)

// jot tells what has been written down of the stroke in hand.
type jot struct {
	on     bool
	at     float64 // s
	points int
}

// jotted writes the block into the journal as it would be if the stroke in hand ended
// here, every now and then, and once more as it is when nothing is in hand.
func (r Room) jotted() (Room, []place.Effect) {
	b := r.Board
	n := len(b.Stroke)
	switch {
	case r.hand == nil && r.jot.on:
		// The line is on the block, or given up; the block itself is kept next.
		r.jot = jot{}
	case r.hand == nil || b.Tool != board.Pencil || b.Cornering():
		return r, nil
	case n <= r.jot.points || r.Now()-r.jot.at < place.JotEvery:
		return r, nil
	default:
		r.jot = jot{true, r.Now(), n}
		b = b.Up()
	}
	doc, err := quilt.EncodeDesign(b.Design)
	if err != nil {
		return r, nil
	}
	id := b.Design.ID
	piece, err := keep.EncodePiece(keep.Piece{Thing: &keep.ThingPiece{Kind: place.DesignThing, ID: id, Doc: string(doc)}})
	if err != nil {
		return r, nil
	}
	return r, []place.Effect{place.Jot{ID: place.DesignThing + "." + id, Doc: piece}}
}

// clashed keeps both blocks where another tab has changed one too: what this tab made goes
// on as a copy, with all its steps, and what the other tab made keeps its name.
func (r Room) clashed(c place.Clashed) (Room, []place.Effect) {
	mine, known := r.Design(c.ID)
	theirs, err := quilt.DecodeDesign(c.Theirs)
	if !known || err != nil {
		return r, nil // it was deleted here, or what stands there is damaged and stays
	}
	mine.ID, mine.Name = r.FreshID("block"), r.FreeName(r.Book().Say("draw.this-tab", strings.TrimSpace(mine.Name)))
	r.Library = r.WithDesign(theirs)
	if r.Board.Design.ID == c.ID {
		r.Board = r.Board.Renamed(mine.ID, mine.Name)
		mine = r.Board.Design
		r.OnBoard = mine.ID
	}
	if b, aside := r.boards[c.ID]; aside {
		r.boards = maps.Clone(r.boards)
		delete(r.boards, c.ID)
		r.boards[mine.ID] = b.Renamed(mine.ID, mine.Name)
	}
	r.Library = r.WithDesign(mine)
	r.Notice = place.Say("draw.clashed", theirs.Name, mine.Name)
	return r, place.KeepDesign(mine)
}
