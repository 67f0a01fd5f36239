package game

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/board"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// finger is a pointer that is down on the board, at a place in CSS pixels.
type finger struct {
	id  int
	at  geom.Point
	pen bool
}

// resting tells whether a touch is the hand that holds the pen: it means nothing.
func (d Drawing) resting(p Pointer) bool {
	penDown := slices.ContainsFunc(d.fingers, func(f finger) bool { return f.pen })
	return p.Device == trace.Touch && p.Kind == Down && penDown
}

// track keeps where the pointers are that are down, in the order they came; when one
// of the two that hold the cloth is lifted, it is let go.
func (d *Drawing) track(p Pointer) {
	d.fingers = slices.Clone(d.fingers)
	i := slices.IndexFunc(d.fingers, func(f finger) bool { return f.id == p.ID })
	at := geom.Pt(p.X, p.Y)
	switch {
	case i < 0 && p.Kind == Down:
		d.fingers = append(d.fingers, finger{p.ID, at, p.Device == trace.Pen})
	case i < 0:
	case p.Kind == Move || p.Kind == Down:
		d.fingers[i].at = at
	default:
		d.fingers = slices.Delete(d.fingers, i, i+1)
		if i < 2 {
			d.pinch = nil
		}
	}
}

// drawPoint takes one report of a pointer.
func (m Model) drawPoint(p Pointer) (Model, []Effect) {
	d := &m.Drawing
	at := m.View.ToCloth(geom.Pt(p.X, p.Y))
	if d.resting(p) {
		return m, nil
	}
	if p.Kind == Down && p.Device == trace.Pen && len(d.fingers) > 0 {
		// The hand came to rest before its pen: the pen draws.
		d.Board = d.Board.Unpress()
		*d = d.letGo()
	}
	drawing := d.pointer != nil && *d.pointer == p.ID
	d.track(p)
	switch {
	case p.Kind == Down && len(d.fingers) == 1:
		m.pressed(p, at)
	case p.Kind == Down && len(d.fingers) == 2:
		// A second finger means no line: what the first has begun is given up.
		d.Board, d.pointer, d.pan = d.Board.Unpress(), nil, nil
		m = m.pinchBegun()
	case p.Kind == Move && d.pinch != nil:
		return m.pinched(), nil
	case !drawing:
		return m, nil
	case p.Kind == Move && d.pan != nil:
		d.around = r2.Add(d.around, r2.Sub(*d.pan, at))
		return m.relaid(), nil
	case p.Kind == Move:
		d.Board = d.Board.Move(at)
	case p.Kind == Up:
		d.pointer = nil
		d.Board = d.Board.Up()
		m = m.relaid() // the view may have waited for the hand
	default:
		d.pointer = nil
		d.Board = d.Board.Unpress()
		m = m.relaid()
	}
	return m.drawChanged()
}

// pressed begins what the tool in hand does, at a place on the cloth.
func (m *Model) pressed(p Pointer, at geom.Point) {
	d := &m.Drawing
	id := p.ID
	d.pointer = &id
	d.Board.Finger = p.Device == trace.Touch
	d.Board = d.Board.Down(at)
	if d.pan = nil; d.zoom > 1 && d.Board.HoldsNothing() {
		d.pan = &at
	}
}

// drawResized takes another size of the cloth's place. A bar of the browser that
// slides away leaves the view alone under a hand that draws; a change that moves the
// block ends what the hand has begun, since its way would go astray.
func (m Model) drawResized(before Resized) Model {
	d := &m.Drawing
	small := m.Screen.W == before.W && m.Screen.DPR == before.DPR && math.Abs(m.Screen.H-before.H) <= before.H/4
	if d.pointer != nil && small {
		return m
	}
	if d.pointer != nil {
		d.Board = interruptedBoard(d.Board)
		m, _ = m.drawChanged()
	}
	m.Drawing = m.Drawing.letGo()
	return m.relaid()
}

// interruptedBoard ends a stroke of the pencil where it has come to, and gives up
// anything else in hand.
func interruptedBoard(b board.Board) board.Board {
	if b.Tool != board.Pencil || b.Cornering() {
		b = b.Unpress()
		b.Said = "The view changed, so what you had in hand was let go."
		return b
	}
	if b = b.Up(); b.Said == "" {
		b.Said = "The view changed, so the line ended there. Undo takes it back."
	}
	return b
}

// letGo forgets the pointers that are down: what they do after this means nothing.
func (d Drawing) letGo() Drawing {
	d.fingers, d.pointer, d.pinch, d.pan = nil, nil, nil, nil
	return d
}
