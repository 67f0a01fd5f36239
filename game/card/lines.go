package card

import (
	"math"

	"unthreaded/game/glyph"
	"unthreaded/game/plan"
	"unthreaded/game/scene"
	"unthreaded/game/sewing"
	"unthreaded/path/geom"
	"unthreaded/path/machine"
	"unthreaded/path/plane"
)

// lines draws the drawing at true size as far as the window shows it: seams thin,
// lines to be sewn full, dots to stop at, start and exit.
func lines(pg *Page, j sewing.Job, win window) {
	k := j.Desk
	for _, e := range k.Graph.Edges {
		width, c := 0.5, ink.Ink
		if e.Kind == plane.Seam {
			width, c = 0.2, ink.Mute
		}
		for _, run := range win.clip(e.Path) {
			pg.rule(width, c, run...)
		}
	}
	for _, p := range k.Pieces() {
		for _, s := range p.Line.Dots {
			if q := p.Line.At(s); win.holds(q, 2) {
				o := win.onPage(q)
				pg.add(dot(at(o.X, o.Y))...)
			}
		}
	}
	ends(pg, j, win)
}

// ends marks start and exit.
func ends(pg *Page, j sewing.Job, win window) {
	k := j.Desk
	start, ok := k.PlaceOf(plan.StartHandle)
	exit, leaves := k.PlaceOf(plan.ExitHandle)
	together := ok && leaves && geom.Dist(start, exit) < 0.5
	name := j.Book.Say("route.start")
	if together {
		name = j.Book.Say("route.start-and-leave")
	}
	if ok && win.holds(start, 2) {
		p := win.onPage(start)
		pg.rule(3.6, ink.Ink, p)
		outside(pg, k, name, start, p)
	}
	if leaves && !together && win.holds(exit, 2) {
		p := win.onPage(exit)
		pg.rule(0.5, ink.Ink, geom.Arc(p, 1.8, 0, 2*math.Pi)...)
		outside(pg, k, j.Book.Say("route.leave"), exit, p)
	}
}

// outside writes a name beside a place, away from the middle of the drawing where
// the page has room for it, since lines are to be seen whole.
func outside(pg *Page, k plan.Desk, name string, on, p geom.Point) {
	lo, hi := plan.Bounds(k.Graph)
	w := glyph.Width(name, bodySize) / Px
	left := on.X < (lo.X+hi.X)/2
	dy := 0.0
	// At the upper or the lower border it stands over or under the line.
	if on.Y-lo.Y < 1 {
		dy = -4
	} else if hi.Y-on.Y < 1 {
		dy = 4
	}
	if left && p.X-4-w < Margin || !left && p.X+4+w > pg.W-Margin {
		left = !left
	}
	if left {
		pg.text(name, bodySize, scene.Right, ink.Ink, p.X-3.5, p.Y+dy)
	} else {
		pg.text(name, bodySize, scene.Left, ink.Ink, p.X+3.5, p.Y+dy)
	}
}

// inch is the side of the smaller test square in mm.
const inch = machine.MMPerInch
