package sewing

import (
	"math"

	"unthreaded/game/plan"
	"unthreaded/path/geom"
)

// Margin is what stays free at the edges of a page in mm: printers reach within 5
// to 6 mm of an edge.
const Margin = 10.0

// Overlap is how far neighbouring sheets of a template show the same, in mm: room
// for the crosses on it and for glue.
const Overlap = 10.0

// StripMM is the height of the line of text over a sheet.
const StripMM = 8.0

// Tiling lays a drawing of W x H mm out on sheets.
type Tiling struct {
	Cols, Rows int
	// Landscape tells how the paper is held; W and H are what a sheet shows, in mm.
	Landscape bool
	W, H      float64
	// X and Y are the upper left corner of the first sheet on the drawing.
	X, Y float64
}

// Tile returns the Tiling with the fewest sheets, the paper upright if either way
// takes as many; the drawing lies in the middle.
func Tile(lo, hi geom.Point, paperW, paperH float64) Tiling {
	var best Tiling
	for _, landscape := range []bool{false, true} {
		w, h := usable(paperW, paperH, landscape)
		t := Tiling{Landscape: landscape, W: w, H: h - StripMM}
		t.Cols, t.Rows = sheets(hi.X-lo.X, t.W), sheets(hi.Y-lo.Y, t.H)
		if best.Cols == 0 || t.Cols*t.Rows < best.Cols*best.Rows {
			best = t
		}
	}
	best.X = (lo.X+hi.X)/2 - Covered(best.Cols, best.W)/2
	best.Y = (lo.Y+hi.Y)/2 - Covered(best.Rows, best.H)/2
	return best
}

// EdgeMM is kept free round the drawing on the outer sheets, so that its border
// lies clear of the crosses.
const EdgeMM = Overlap/2 + 1

// sheets returns how many windows cover a length, each showing Overlap of the one
// before; covered what a number of them covers.
func sheets(length, window float64) int {
	need := length + 2*EdgeMM
	return max(1, int(math.Ceil((need-Overlap)/(window-Overlap)-1e-9)))
}

// Covered returns what so many windows cover.
func Covered(n int, window float64) float64 { return float64(n)*(window-Overlap) + Overlap }

// Cross returns the place on the drawing of the registration mark in column i and
// row j: the middle of an overlap, or of as much beside the outer sheets.
func (t Tiling) Cross(i, j int) geom.Point {
	return geom.Pt(t.X+float64(i)*(t.W-Overlap)+Overlap/2, t.Y+float64(j)*(t.H-Overlap)+Overlap/2)
}

// TemplatePages returns how many pages the template of the plan takes: a sheet to
// measure first, and the tiles.
func TemplatePages(j Job) int {
	t := j.Tiling()
	return 1 + t.Cols*t.Rows
}

// Tiling returns how the template of the plan lies on sheets.
func (j Job) Tiling() Tiling {
	lo, hi := plan.Bounds(j.Desk.Graph)
	return Tile(lo, hi, j.W, j.H)
}

// usable is the part of a paper of w x h mm within its margins.
func usable(w, h float64, landscape bool) (float64, float64) {
	if landscape {
		w, h = h, w
	}
	return w - 2*Margin, h - 2*Margin
}
