package game

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/path/geom"
)

// pinch is what two fingers hold: the place on the cloth that lay between them when
// they came down, their distance in CSS pixels then, and the zoom.
type pinch struct {
	held geom.Point
	wide float64
	zoom float64
}

// MaxDrawZoom is how much larger than the whole block the board can be shown.
const MaxDrawZoom = 8.0

// Zoomed tells whether a part of the block is shown larger.
func (d Drawing) Zoomed() bool { return d.zoom > 1 }

// pinchBegun takes hold of the cloth with the first two fingers.
func (m Model) pinchBegun() Model {
	d := &m.Drawing
	a, b := d.fingers[0].at, d.fingers[1].at
	d.pinch = &pinch{m.View.ToCloth(r2.Scale(0.5, r2.Add(a, b))), math.Max(1, geom.Dist(a, b)), d.zoom}
	return m
}

// pinched keeps what two fingers hold under them: spread, they show it larger.
func (m Model) pinched() Model {
	a, b := m.Drawing.fingers[0].at, m.Drawing.fingers[1].at
	p := *m.Drawing.pinch
	return m.showing(p.held, r2.Scale(0.5, r2.Add(a, b)), p.zoom*geom.Dist(a, b)/p.wide)
}

// showing shows the block at a zoom with a place of the cloth (mm) at one of the
// screen (CSS pixels), as far as the block stays in sight.
func (m Model) showing(cloth, screen geom.Point, zoom float64) Model {
	d := &m.Drawing
	scale := m.View.Scale / d.zoom
	d.zoom = math.Max(1, math.Min(MaxDrawZoom, zoom))
	middle := geom.Pt(m.Screen.W/2, m.Screen.H/2)
	d.around = r2.Add(cloth, r2.Scale(1/(scale*d.zoom), r2.Sub(middle, screen)))
	return m.relaid()
}

// aroundBlock keeps the middle of the view on the block.
func (d *Drawing) aroundBlock() {
	w, h := d.Board.Design.Shape.Box()
	d.around.X = math.Max(0, math.Min(w, d.around.X))
	d.around.Y = math.Max(0, math.Min(h, d.around.Y))
}

// wheelZoom is by how much the block grows for each CSS pixel of a wheel turned with
// ctrl, or of two fingers spread on a touchpad: a click of a wheel, 100 pixels in
// most browsers, is 1.28 times.
const wheelZoom = 1.0025

// drawWheel takes a turn of the wheel over the board: c.Value is "right down" in CSS
// pixels, c.Item the place "x y", with "zoom" after it where ctrl was held.
func (m Model) drawWheel(c Control) Model {
	var by, at geom.Point
	var how string
	if n, _ := fmt.Sscan(c.Value, &by.X, &by.Y); n != 2 || !geom.Finite(by) {
		return m
	}
	if n, _ := fmt.Sscan(c.Item, &at.X, &at.Y, &how); n < 2 || !geom.Finite(at) {
		return m
	}
	d := &m.Drawing
	if d.pointer != nil {
		return m // a hand is at work
	}
	if how == "zoom" {
		return m.showing(m.View.ToCloth(at), at, d.zoom*math.Pow(wheelZoom, -by.Y))
	}
	return m.showing(m.View.ToCloth(r2.Add(at, by)), at, d.zoom)
}
