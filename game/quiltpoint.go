package game

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// press is what lies on the top: one pointer, or two that hold it like cloth.
type press struct {
	// pointer went down at from on the screen, when around was in the middle; now is
	// where it is, moved tells that it is no tap any more.
	pointer   int
	from, now geom.Point
	around    geom.Point
	moved     bool
	// second is the other finger, nil for none; held are the places on the top that the
	// two took hold of.
	second *otherFinger
	held   [2]geom.Point
}

// otherFinger is a further pointer that is down.
type otherFinger struct {
	pointer int
	now     geom.Point
}

// tapSlack is how far in pixels a pointer may move and still be a tap.
const tapSlack = 8.0

// quiltPoint takes one report of a pointer: a tap chooses a place, a drag moves a top
// that is shown larger than the screen, two fingers move it and make it larger.
func (m Model) quiltPoint(p Pointer) (Model, []Effect) {
	d := &m.Quilting
	at := geom.Pt(p.X, p.Y)
	switch {
	case d.press == nil && p.Kind == Down:
		d.press = &press{pointer: p.ID, from: at, now: at, around: m.topMiddle()}
	case d.press == nil:
	case p.Kind == Down && d.press.second == nil && p.ID != d.press.pointer:
		next := *d.press
		next.moved, next.second = true, &otherFinger{p.ID, at}
		next.held = [2]geom.Point{m.View.ToCloth(next.now), m.View.ToCloth(at)}
		d.press = &next
	case p.ID != d.press.pointer && (d.press.second == nil || p.ID != d.press.second.pointer):
	case p.Kind == Move && d.press.second != nil:
		m = m.topPinched(p.ID, at)
	case p.Kind == Move:
		m = m.topDragged(at)
	case d.press.second != nil:
		m = m.oneLifted(p.ID)
	case p.Kind == Up && !d.press.moved:
		d.press = nil
		d.Top = d.Top.Choose(d.Top.CellAt(m.View.ToCloth(at)))
	default:
		d.press = nil
	}
	return m, nil
}

// topMiddle returns the place on the top in the middle of the screen.
func (m Model) topMiddle() geom.Point {
	return m.View.ToCloth(geom.Pt(m.Screen.W/2, m.Screen.H/2))
}

// topDragged moves the top along with one pointer.
func (m Model) topDragged(at geom.Point) Model {
	d := &m.Quilting
	next := *d.press
	next.now = at
	next.moved = next.moved || geom.Dist(at, next.from) > tapSlack
	d.press = &next
	if next.moved && d.zoom > 1 {
		d.around = r2.Add(next.around, r2.Scale(1/m.View.Scale, r2.Sub(next.from, at)))
		m = m.relaid()
	}
	return m
}

// topPinched moves and scales the top so that the middle of what the two fingers took hold
// of stays between them, as far apart as they are.
func (m Model) topPinched(id int, at geom.Point) Model {
	d := &m.Quilting
	next := *d.press
	if id == next.pointer {
		next.now = at
	} else {
		next.second = &otherFinger{id, at}
	}
	d.press = &next
	apart, held := geom.Dist(next.now, next.second.now), geom.Dist(next.held[0], next.held[1])
	if apart < tapSlack || held == 0 {
		return m // so near that it tells no scale
	}
	whole := m.fitted()
	d.zoom = math.Max(1, math.Min(apart/held/m.Screen.TrueSize(), mostZoom)/whole)
	scale := m.Screen.TrueSize() * whole * d.zoom
	between := geom.Lerp(next.now, next.second.now, 0.5)
	d.around = r2.Add(geom.Lerp(next.held[0], next.held[1], 0.5), r2.Scale(1/scale, r2.Sub(geom.Pt(m.Screen.W/2, m.Screen.H/2), between)))
	return m.relaid()
}

// oneLifted goes on with the finger that is still down; it chooses nothing any more.
func (m Model) oneLifted(id int) Model {
	d := &m.Quilting
	next := press{pointer: d.press.pointer, now: d.press.now, moved: true}
	if id == next.pointer {
		next.pointer, next.now = d.press.second.pointer, d.press.second.now
	}
	next.from, next.around = next.now, m.topMiddle()
	d.press = &next
	return m
}
