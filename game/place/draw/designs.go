package draw

import (
	"maps"
	"math"
	"strings"

	"unthreaded/game/place"
	"unthreaded/game/place/draw/board"
	"unthreaded/path/motif"
	"unthreaded/path/quilt"
)

// changed notes a change of the design on the board, to be kept soon.
func (r Room) changed() (Room, []place.Effect) {
	d := r.Board.Design
	if _, known := r.Design(d.ID); !known {
		return r, nil
	}
	if now := (saving{r.Board.Steps(), r.Board.Rev, r.saving.since}); now != r.saving {
		r.saving = now
		r.Library = r.WithDesign(d)
		if r.saving.since == 0 {
			r.saving.since = math.Max(r.Now(), 1e-9)
		}
	}
	return r, r.wantPhoto()
}

// keep keeps the design on the board if it has changed.
func (r Room) keep() (Room, []place.Effect) {
	if r.saving.since == 0 {
		return r, nil
	}
	r.saving.since = 0
	return r, place.KeepDesign(r.Board.Design)
}

// open lays a kept design on the board, with its steps of this visit.
func (r Room) open(id string) (Room, []place.Effect) {
	d, known := r.Design(id)
	if !known || id == r.Board.Design.ID {
		return r, nil
	}
	r, effects := r.keep()
	r = r.putAside()
	b, known := r.boards[id]
	if !known {
		b = board.Open(d)
	}
	return r.onBoard(b, effects)
}

// putAside keeps the board of this visit with its steps.
func (r Room) putAside() Room {
	boards := maps.Clone(r.boards)
	if boards == nil {
		boards = map[string]board.Board{}
	}
	if id := r.Board.Design.ID; id != "" {
		boards[id] = r.Board.SetTool(r.Board.Tool)
	}
	r.boards = boards
	return r
}

func (r Room) onBoard(b board.Board, effects []place.Effect) (Room, []place.Effect) {
	b.Rev = r.Board.Rev + 1
	r.Board = b
	r.OnBoard = b.Design.ID
	r.pane.Zoom, r.Ruler.MarkOn, r.gallery.fold = 1, quilt.OnSides, asNeeded
	r.Copying.Pitch, _ = b.Design.Shape.Box()
	return r.laid(), append(effects, r.wantPhoto()...)
}

// wantPhoto asks for the picture of the board's photo if it is not there.
func (r Room) wantPhoto() []place.Effect {
	if id := r.Board.NeedsPhoto(); id != "" {
		return []place.Effect{place.FetchPhoto{ID: id}}
	}
	return nil
}

// blockMM is the finished side of a new block: 6 in, a usual size.
const blockMM = 6 * place.MMPerInch

// newDesign lays an empty block on the board, of the shape of the last one.
func (r Room) newDesign() (Room, []place.Effect) {
	shape := r.Board.Design.Shape
	if shape.W == 0 {
		shape = motif.Shape{Kind: motif.Square, W: blockMM}
	}
	return r.added(place.NewDesign(shape, r.FreeName(r.Book().Say("draw.my-block"))))
}

// copied lays a copy of the design on the board.
func (r Room) copied() (Room, []place.Effect) {
	d := r.Board.Design
	d.Name = r.FreeName(r.Book().Say("draw.copy-of", strings.TrimSpace(d.Name)))
	return r.added(d)
}

// added puts a new design on the shelf and on the board.
func (r Room) added(d quilt.Design) (Room, []place.Effect) {
	r, effects := r.keep()
	r = r.putAside()
	d.ID = r.FreshID("block")
	r.Library = r.WithDesign(d)
	r, more := r.onBoard(board.Open(d), effects)
	return r, append(more, place.KeepDesign(d)...)
}

// deleted takes the design off the shelf; the notice offers to take that back.
func (r Room) deleted() (Room, []place.Effect) {
	d := r.Board.Design
	r.Library = r.WithoutDesign(d.ID)
	r.saving.since = 0
	r = r.putAside()
	r.Binned = append(r.Binned[:len(r.Binned):len(r.Binned)], d)
	r.Board = board.Board{Rev: r.Board.Rev}
	effects := []place.Effect{place.Discard{Kind: place.DesignThing, ID: d.ID}}
	var more []place.Effect
	if len(r.Designs) > 0 {
		r, more = r.open(r.Designs[0].ID)
	} else {
		r, more = r.newDesign()
	}
	r.Notice = place.Say("draw.deleted", d.Name).Offer("undo")
	return r, append(effects, more...)
}
