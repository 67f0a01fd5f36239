package card

import (
	"fmt"
	"math"

	"unthreaded/game/scene"
	"unthreaded/game/sewing"
	"unthreaded/path/geom"
)

// crossName names a mark: a letter for its column, a number for its row.
func crossName(i, j int) string {
	name := ""
	for i++; i > 0; i = (i - 1) / 26 {
		name = string(rune('A'+(i-1)%26)) + name
	}
	return fmt.Sprintf("%s%d", name, j+1)
}

// Template returns the pages of the full-size template.
func Template(j sewing.Job) []Page {
	t := j.Tiling()
	pages := []Page{first(j, t)}
	for row := range t.Rows {
		for col := range t.Cols {
			pages = append(pages, sheet(j, t, col, row))
		}
	}
	return pages
}

// sheet is the tile in a column and a row.
func sheet(j sewing.Job, t sewing.Tiling, col, row int) Page {
	w, h := j.W, j.H
	if t.Landscape {
		w, h = h, w
	}
	pg := blank(w, h)
	head := j.Book.Say("card.sheet", row*t.Cols+col+1, t.Cols*t.Rows, col+1, row+1, j.Name)
	pg.text(fitted(head, bodySize, w-2*Margin), bodySize, scene.Left, ink.Ink, Margin, Margin+sewing.StripMM/2-1)
	from := geom.Pt(t.X+float64(col)*(t.W-sewing.Overlap), t.Y+float64(row)*(t.H-sewing.Overlap))
	win := window{from: from, to: geom.Pt(from.X+t.W, from.Y+t.H), dx: Margin - from.X, dy: Margin + sewing.StripMM - from.Y}
	lines(&pg, j, win)
	if t.Cols*t.Rows > 1 {
		for a := range 2 {
			for b := range 2 {
				mark(&pg, win.onPage(t.Cross(col+a, row+b)), crossName(col+a, row+b))
			}
		}
		trim(&pg, t, col, row, win)
	}
	return pg
}

// trim draws the lines along which sheets are cut or laid over each other: through
// the crosses, where there is a neighbour.
func trim(pg *Page, t sewing.Tiling, i, j int, win window) {
	a, b := t.Cross(i, j), t.Cross(i+1, j+1)
	cut := func(p, q geom.Point) {
		p, q = win.onPage(p), win.onPage(q)
		n := int(geom.Dist(p, q) / 5)
		for k := range n {
			u, v := geom.Lerp(p, q, (float64(k)+0.3)/float64(n)), geom.Lerp(p, q, (float64(k)+0.6)/float64(n))
			pg.rule(0.15, ink.Mute, u, v)
		}
	}
	if i > 0 {
		cut(a, geom.Pt(a.X, b.Y))
	}
	if i+1 < t.Cols {
		cut(geom.Pt(b.X, a.Y), b)
	}
	if j > 0 {
		cut(a, geom.Pt(b.X, a.Y))
	}
	if j+1 < t.Rows {
		cut(geom.Pt(a.X, b.Y), b)
	}
}

// mark draws a registration mark with its middle at p, in mm on the page.
func mark(pg *Page, p geom.Point, name string) {
	pg.rule(0.2, ink.Ink, geom.Pt(p.X-4, p.Y), geom.Pt(p.X+4, p.Y))
	pg.rule(0.2, ink.Ink, geom.Pt(p.X, p.Y-4), geom.Pt(p.X, p.Y+4))
	pg.rule(0.2, ink.Ink, geom.Arc(p, 2, 0, 2*math.Pi)...)
	pg.text(name, smallSize, scene.Left, ink.Ink, p.X+1, p.Y+3.2)
}
