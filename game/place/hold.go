package place

import (
	"math"

	"unthreaded/game/control"
	"unthreaded/game/screen"
	"unthreaded/path/geom"
	"unthreaded/scoring/trace"
)

// Hold is what pointers do with what a pane shows where none of them draws: one moves it as
// far as it is larger than the screen, two move it and make it larger, and one that stays
// where it went down is a tap.
type Hold struct {
	grip  screen.Grip
	from  geom.Point
	moved bool
}

// tapSlack is how far in CSS pixels a pointer may move and still be a tap.
const tapSlack = 8.0

// Down tells how many pointers are down.
func (h Hold) Down() int { return len(h.grip.Fingers) }

// Moved tells that what is down, or was last, is no tap.
func (h Hold) Moved() bool { return h.moved }

// Point takes one report of a pointer and returns the pane after it, and whether it was the
// end of a tap. The one pointer of a pen or a finger that is busy otherwise moves nothing.
func (h Hold) Point(p Pointer, pane screen.Pane, s screen.Cloth, busy bool) (Hold, screen.Pane, bool) {
	at, down := geom.Pt(p.X, p.Y), len(h.grip.Fingers)
	if p.Kind != Down && h.grip.Find(p.ID) < 0 {
		return h, pane, false
	}
	switch p.Kind {
	case Down:
		if down == 0 {
			h = Hold{from: at}
		}
		h.moved = down > 0
		h.grip = h.grip.Down(screen.Finger{ID: p.ID, At: at, Pen: p.Device == trace.Pen}).Hold(pane, s)
	case Move:
		h.moved = h.moved || geom.Dist(at, h.from) > tapSlack
		h.grip = h.grip.Moved(p.ID, at)
		if down > 1 || h.moved && pane.Larger() && !busy {
			pane = h.grip.Pull(pane, s)
		}
	default:
		tapped := p.Kind == Up && !h.moved
		h.moved = true
		h.grip = h.grip.Lifted(p.ID).Hold(pane, s) // the others hold on
		return h, pane, tapped
	}
	return h, pane, false
}

// Turned returns the pane after a turn of the wheel over it, where nothing is drawn on it
// and a drag moves it: the wheel makes it larger or smaller, aslant it moves it.
func Turned(pane screen.Pane, s screen.Cloth, t control.Turn) screen.Pane {
	zoom := t.Zoom || math.Abs(t.DY) > math.Abs(t.DX)
	return pane.Wheeled(s, geom.Pt(t.X, t.Y), geom.Pt(t.DX, t.DY), zoom)
}
