package draw

import (
	"slices"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/place/draw/board"
	"unthreaded/game/screen"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// resting tells whether a touch is the hand that holds the pen: it means nothing.
func (r Room) resting(p place.Pointer) bool {
	penDown := slices.ContainsFunc(r.grip.Fingers, func(f screen.Finger) bool { return f.Pen })
	return p.Device == trace.Touch && p.Kind == place.Down && penDown
}

// track keeps where the pointers are that are down.
func (r Room) track(p place.Pointer, at geom.Point) Room {
	switch p.Kind {
	case place.Down:
		r.grip = r.grip.Down(screen.Finger{ID: p.ID, At: at, Pen: p.Device == trace.Pen})
	case place.Move:
		r.grip = r.grip.Moved(p.ID, at)
	default:
		r.grip = r.grip.Lifted(p.ID)
	}
	return r
}

// Point takes one report of a pointer. One draws, or moves the view where it holds
// nothing; two hold the cloth.
func (r Room) Point(p place.Pointer) (place.Room, []place.Effect) {
	on := geom.Pt(p.X, p.Y)
	at := r.View.ToCloth(on)
	if r.resting(p) {
		return r, nil
	}
	if p.Kind == place.Down && p.Device == trace.Pen && len(r.grip.Fingers) > 0 {
		// The hand came to rest before its pen: the pen draws.
		r.Board = r.Board.Unpress()
		r = r.letGo()
	}
	drawing := r.hand != nil && *r.hand == p.ID
	r = r.track(p, on)
	fingers := len(r.grip.Fingers)
	switch {
	case p.Kind == place.Down && fingers == 1:
		r = r.pressed(p, at)
	case p.Kind == place.Down && fingers == 2:
		// A second finger means no line: what the first has begun is given up.
		r.Board, r.hand = r.Board.Unpress(), nil
		r.grip = r.grip.Hold(r.pane, r.Screen)
	case p.Kind == place.Move && r.grip.Holds() && (drawing || r.hand == nil):
		r.pane = r.grip.Pull(r.pane, r.Screen)
		return r.laid(), nil
	case !drawing:
		return r, nil
	case p.Kind == place.Move:
		r.Board = r.Board.Move(at)
	case p.Kind == place.Up:
		r.hand = nil
		r.Board = r.Board.Up()
		r = r.laid() // the view may have waited for the hand
	default:
		r.hand = nil
		r.Board = r.Board.Unpress()
		r = r.laid()
	}
	return r.changed()
}

// pressed begins what the tool in hand does, at a place on the cloth.
func (r Room) pressed(p place.Pointer, at geom.Point) Room {
	id := p.ID
	r.hand = &id
	r.Board.Finger = p.Device == trace.Touch
	r.Board = r.Board.Down(at)
	if r.Zoomed() && r.Board.HoldsNothing() {
		r.grip = r.grip.Hold(r.pane, r.Screen)
	}
	return r
}

// interrupted ends a stroke of the pencil where it has come to, and gives up anything
// else in hand.
func interrupted(b board.Board, book words.Book) board.Board {
	if b.Tool != board.Pencil || b.Cornering() {
		b = b.Unpress()
		b.Said = words.Of("draw.let-go")
		return b
	}
	if b = b.Up(); b.Said.None() {
		b.Said = words.Of("draw.view-changed")
	}
	return b
}

// letGo forgets the pointers that are down: what they do after this means nothing.
func (r Room) letGo() Room {
	r.grip, r.hand = screen.Grip{}, nil
	return r
}

// wheeled takes a turn of the wheel over the board, unless a hand is at work.
func wheeled(r Room, e control.Event) (Room, []place.Effect) {
	if r.hand == nil {
		t := e.Turn
		r.pane = r.pane.Wheeled(r.Screen, geom.Pt(t.X, t.Y), geom.Pt(t.DX, t.DY), t.Zoom)
		r = r.laid()
	}
	return r, nil
}
