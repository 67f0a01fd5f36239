package card

import (
	"fmt"
	"math"

	"unthreaded/game/plan"
	"unthreaded/game/scene"
	"unthreaded/path/geom"
)

// Overlap is how far neighbouring sheets of a template show the same, in mm: room
// for the crosses on it and for glue.
const Overlap = 10.0

// stripMM is the height of the line of text over a sheet.
const stripMM = 8.0

// tiling lays a drawing of W x H mm out on sheets.
type tiling struct {
	cols, rows int
	// landscape tells how the paper is held; w and h are what a sheet shows, in mm.
	landscape bool
	w, h      float64
	// x and y are the upper left corner of the first sheet on the drawing.
	x, y float64
}

// tile returns the tiling with the fewest sheets, the paper upright if either way
// takes as many; the drawing lies in the middle.
func tile(lo, hi geom.Point, paperW, paperH float64) tiling {
	var best tiling
	for _, landscape := range []bool{false, true} {
		w, h := usable(paperW, paperH, landscape)
		t := tiling{landscape: landscape, w: w, h: h - stripMM}
		t.cols, t.rows = sheets(hi.X-lo.X, t.w), sheets(hi.Y-lo.Y, t.h)
		if best.cols == 0 || t.cols*t.rows < best.cols*best.rows {
			best = t
		}
	}
	best.x = (lo.X+hi.X)/2 - covered(best.cols, best.w)/2
	best.y = (lo.Y+hi.Y)/2 - covered(best.rows, best.h)/2
	return best
}

// edgeMM is kept free round the drawing on the outer sheets, so that its border
// lies clear of the crosses.
const edgeMM = Overlap/2 + 1

// sheets returns how many windows cover a length, each showing Overlap of the one
// before; covered what a number of them covers.
func sheets(length, window float64) int {
	need := length + 2*edgeMM
	return max(1, int(math.Ceil((need-Overlap)/(window-Overlap)-1e-9)))
}

func covered(n int, window float64) float64 { return float64(n)*(window-Overlap) + Overlap }

// cross returns the place on the drawing of the registration mark in column i and
// row j: the middle of an overlap, or of as much beside the outer sheets.
func (t tiling) cross(i, j int) geom.Point {
	return geom.Pt(t.x+float64(i)*(t.w-Overlap)+Overlap/2, t.y+float64(j)*(t.h-Overlap)+Overlap/2)
}

// crossName names a mark: a letter for its column, a number for its row.
func crossName(i, j int) string {
	name := ""
	for i++; i > 0; i = (i - 1) / 26 {
		name = string(rune('A'+(i-1)%26)) + name
	}
	return fmt.Sprintf("%s%d", name, j+1)
}

// TemplatePages returns how many pages the template of the plan takes: a sheet to
// measure first, and the tiles.
func TemplatePages(j Job) int {
	t := j.tiling()
	return 1 + t.cols*t.rows
}

func (j Job) tiling() tiling {
	lo, hi := plan.Bounds(j.Desk.Graph)
	return tile(lo, hi, j.W, j.H)
}

// Template returns the pages of the full-size template.
func Template(j Job) []Page {
	t := j.tiling()
	pages := []Page{first(j, t)}
	for row := range t.rows {
		for col := range t.cols {
			pages = append(pages, sheet(j, t, col, row))
		}
	}
	return pages
}

// sheet is the tile in a column and a row.
func sheet(j Job, t tiling, col, row int) Page {
	w, h := j.W, j.H
	if t.landscape {
		w, h = h, w
	}
	pg := blank(w, h)
	head := j.Book.Say("card.sheet", row*t.cols+col+1, t.cols*t.rows, col+1, row+1, j.Name)
	pg.text(fitted(head, bodySize, w-2*Margin), bodySize, scene.Left, ink.Ink, Margin, Margin+stripMM/2-1)
	from := geom.Pt(t.x+float64(col)*(t.w-Overlap), t.y+float64(row)*(t.h-Overlap))
	win := window{from: from, to: geom.Pt(from.X+t.w, from.Y+t.h), dx: Margin - from.X, dy: Margin + stripMM - from.Y}
	lines(&pg, j, win)
	if t.cols*t.rows > 1 {
		for a := range 2 {
			for b := range 2 {
				mark(&pg, win.onPage(t.cross(col+a, row+b)), crossName(col+a, row+b))
			}
		}
		trim(&pg, t, col, row, win)
	}
	return pg
}

// trim draws the lines along which sheets are cut or laid over each other: through
// the crosses, where there is a neighbour.
func trim(pg *Page, t tiling, i, j int, win window) {
	a, b := t.cross(i, j), t.cross(i+1, j+1)
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
	if i+1 < t.cols {
		cut(geom.Pt(b.X, a.Y), b)
	}
	if j > 0 {
		cut(a, geom.Pt(b.X, a.Y))
	}
	if j+1 < t.rows {
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
