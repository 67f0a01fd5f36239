package card

import (
	"strconv"

	"unthreaded/game/plan"
	"unthreaded/game/scene"
	"unthreaded/game/sewing"
	"unthreaded/path/geom"
)

// square is the side of the larger test square in mm.
const square = 50.0

// first is the sheet to print and measure before the others: the test squares, and
// how the tiles lie.
func first(j sewing.Job, t sewing.Tiling) Page {
	pg := blank(j.W, j.H)
	y := title(&pg, j, j.Book.Say("card.template"))
	c := column{page: &pg, x: Margin, w: pg.W - 2*Margin, y: y, bottom: pg.H - Margin}
	c.write(j.Book.Say("card.measure-first"), bodySize, ink.Ink)
	y = c.y + 6
	squareAt(&pg, Margin+5, y, square, j.Book.Say("card.square-mm"))
	squareAt(&pg, Margin+square+25, y, inch, j.Book.Say("card.square-in"))
	c.y = y + square + 8
	c.write(j.Book.Say("card.follows", t.Cols*t.Rows, t.Cols, t.Rows), bodySize, ink.Ink)
	overview(&pg, j, t, c.y+6)
	return pg
}

// squareAt draws a square of side mm, measured from the middle of its lines.
func squareAt(pg *Page, x, y, side float64, name string) {
	pg.box(0.2, ink.Ink, x, y, side, side)
	pg.text(name, bodySize, scene.Centre, ink.Ink, x+side/2, y+side/2)
}

// overview shows from y mm on how the sheets lie.
func overview(pg *Page, j sewing.Job, t sewing.Tiling, y float64) {
	w, h := sewing.Covered(t.Cols, t.W), sewing.Covered(t.Rows, t.H)
	scale := min((pg.W-2*Margin)/w, (pg.H-Margin-y)/h, 0.4)
	left := Margin
	onPage := func(p geom.Point) geom.Point { return geom.Pt(left+(p.X-t.X)*scale, y+(p.Y-t.Y)*scale) }
	for _, e := range j.Desk.Graph.Edges {
		path := make([]geom.Point, len(e.Path))
		for i, p := range e.Path {
			path[i] = onPage(p)
		}
		pg.rule(0.25, ink.Chalk, path...)
	}
	if t.Cols*t.Rows == 1 {
		return
	}
	for k := range t.Rows {
		for i := range t.Cols {
			a, b := onPage(t.Cross(i, k)), onPage(t.Cross(i+1, k+1))
			pg.box(0.2, ink.Mute, a.X, a.Y, b.X-a.X, b.Y-a.Y)
			pg.text(strconv.Itoa(k*t.Cols+i+1), headSize, scene.Centre, ink.Ink, (a.X+b.X)/2, (a.Y+b.Y)/2)
		}
	}
}

// inOne is the template in one piece, on a page as large as it takes.
func inOne(j sewing.Job) Page {
	lo, hi := plan.Bounds(j.Desk.Graph)
	pg := blank(hi.X-lo.X+2*Margin, hi.Y-lo.Y+2*Margin+sewing.StripMM)
	pg.text(fitted(j.Name, bodySize, pg.W-2*Margin), bodySize, scene.Left, ink.Ink, Margin, Margin)
	win := window{from: geom.Pt(lo.X-Margin, lo.Y-Margin), to: geom.Pt(hi.X+Margin, hi.Y+Margin), dx: Margin - lo.X, dy: Margin + sewing.StripMM - lo.Y}
	lines(&pg, j, win)
	return pg
}
