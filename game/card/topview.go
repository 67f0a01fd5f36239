package card

import (
	"image/color"
	"math"
	"slices"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/glyph"
	"unthreaded/game/scene"
	"unthreaded/game/sewing"
	"unthreaded/path/geom"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
	"unthreaded/path/route/steps"
)

// rect is a part of a page in mm.
type rect struct{ x, y, w, h float64 }

// topView shows a part of a top on a page: turned, scaled by mm of paper for each mm of
// cloth, and moved.
type topView struct {
	turn, scale float64
	move        geom.Point
	// beside and under are how many rings of numbers have room beside it and under it.
	beside, under int
}

func (v topView) onPage(p geom.Point) geom.Point {
	sin, cos := math.Sincos(v.turn)
	return r2.Add(v.move, r2.Scale(v.scale, geom.Pt(p.X*cos-p.Y*sin, p.X*sin+p.Y*cos)))
}

// viewOf shows places of a top in the middle of a part of a page, as large as fits.
func viewOf(turn float64, pts geom.Polyline, in rect) topView {
	v := topView{turn: turn, scale: 1}
	lo, hi := pts.Map(v.onPage).Bounds()
	v.scale = min(in.w/max(1, hi.X-lo.X), in.h/max(1, hi.Y-lo.Y))
	mid := r2.Scale(v.scale/2, r2.Add(lo, hi))
	v.move = r2.Sub(geom.Pt(in.x+in.w/2, in.y+in.h/2), mid)
	return v
}

// turnOf is the turn by which a stage is shown: rows on point lie level.
func turnOf(w sewing.Whole, stage int) float64 {
	k := w.Order.Stages[stage].Kind
	if w.Quilt.Setting == quilt.OnPoint && k != order.Ditch && k != order.Border && k != order.EdgeRow {
		return math.Pi / 4
	}
	return 0
}

// thinMM is how far on paper lines are simplified: a third of the thinnest line.
const thinMM = 0.06

// path draws a line of the top.
func (v topView) path(pg *Page, width float64, c color.NRGBA, pl geom.Polyline) {
	pg.rule(width, c, pl.Map(v.onPage).Thinned(thinMM)...)
}

// dashed draws a line of the top with dashes of so many mm on paper.
func (v topView) dashed(pg *Page, width, dash, space float64, c color.NRGBA, pl geom.Polyline) {
	px := pl.Map(v.onPage).Map(func(p geom.Point) geom.Point { return at(p.X, p.Y) })
	pg.add(scene.Dashes(px, dash*Px, space*Px, width*Px, c)...)
}

// sewn draws a move as its kind is drawn everywhere: full where lines are sewn, in
// dashes where they are once more, with bars across in the ditch, as dots for a stop.
func (v topView) sewn(pg *Page, width float64, m steps.Move) {
	switch m.Kind {
	case steps.AgainMove:
		v.dashed(pg, width, 0.9, 0.5, ink.Long, m.Path)
	case steps.DitchMove:
		px := m.Path.Map(v.onPage).Map(func(p geom.Point) geom.Point { return at(p.X, p.Y) })
		pg.add(scene.Barred(px, 1.4*Px, 0.6*width*Px, ink.Short)...)
	case steps.StopMove:
		v.dashed(pg, width*0.6, 0.05, 1.2, ink.Mute, m.Path)
	default:
		v.path(pg, width, ink.Thread, m.Path)
	}
}

// arrow draws an arrow head of size mm on a line of the top, so far along it as a share.
func (v topView) arrow(pg *Page, size, share float64, c color.NRGBA, pl geom.Polyline) {
	l, err := geom.NewLine(pl.Map(v.onPage))
	if err != nil {
		return
	}
	s := share * l.Length()
	head(pg, size, c, l.At(s), l.Tangent(s))
}

// head is an arrow head at a place in mm.
func head(pg *Page, size float64, c color.NRGBA, tip, along geom.Point) {
	back, side := r2.Sub(tip, r2.Scale(0.7*size, along)), r2.Scale(0.45*size, geom.Pt(-along.Y, along.X))
	tip = r2.Add(tip, r2.Scale(0.3*size, along))
	var px []geom.Point
	for _, p := range []geom.Point{tip, r2.Add(back, side), r2.Sub(back, side)} {
		px = append(px, at(p.X, p.Y))
	}
	pg.add(scene.Item{Shape: scene.Fill, Colour: c, Points: px})
}

// badge is a number on a ground of its own, size in pixels; filled where it is done.
func badge(pg *Page, n int, size float64, p geom.Point, filled bool) {
	badgeIn(pg, n, size, size/Px*badgeHigh, p, filled)
}

// badgeIn is a badge that is high mm high.
func badgeIn(pg *Page, n int, size, high float64, p geom.Point, filled bool) {
	half := badgeHalf(n, size)
	ends := []geom.Point{geom.Pt(p.X-half, p.Y), geom.Pt(p.X+half, p.Y)}
	pg.rule(high, ink.Ink, ends...)
	c := ink.Paper
	if !filled {
		pg.rule(high-0.5, ink.Paper, ends...)
		c = ink.Ink
	}
	pg.text(strconv.Itoa(n), size, scene.Centre, c, p.X, p.Y)
}

// badgeHigh is how high a badge is, in heights of its letters.
const badgeHigh = 1.5

// badgeHalf is half the length in mm of the straight middle of a badge.
func badgeHalf(n int, size float64) float64 {
	return max(0, glyph.Width(strconv.Itoa(n), size)/Px-size/Px*0.6) / 2
}

// badgesTouch tells whether two badges come nearer to each other than a quarter of a mm.
func badgesTouch(n int, p geom.Point, m int, q geom.Point, size float64) bool {
	apart := max(0, math.Abs(p.X-q.X)-badgeHalf(n, size)-badgeHalf(m, size))
	return math.Hypot(apart, p.Y-q.Y) < size/Px*badgeHigh+0.25
}

// badgeRoom is how far in mm two badges keep apart.
func badgeRoom(size float64) float64 { return size / Px * 1.7 }

// drawn are a stage's moves by legs, and the places that it goes through.
type drawn struct {
	moves [][]steps.Move // of each leg, without the way to it
	comes []steps.Move   // the way to each leg, without a path for none
	cells []quilt.Cell   // of each leg; with an empty outline for a seam
}

func drawnOf(w sewing.Whole, stage int) drawn {
	cells := cellsOf(w)
	legs := w.Order.Stages[stage].Legs
	d := drawn{make([][]steps.Move, len(legs)), make([]steps.Move, len(legs)), make([]quilt.Cell, len(legs))}
	for k, l := range legs {
		d.cells[k] = cells[l.Cell]
	}
	for _, m := range w.Order.Moves(stage) {
		if m.Come {
			d.comes[m.Leg] = m.Move
			continue
		}
		d.moves[m.Leg] = append(d.moves[m.Leg], m.Move)
	}
	return d
}

func cellsOf(w sewing.Whole) map[string]quilt.Cell {
	out := map[string]quilt.Cell{}
	for _, c := range w.Order.Places(w.Quilt.Cells()) {
		out[c.ID] = c
	}
	return out
}

// places are the outlines that a stage's picture has to hold: those of its places, or
// for what goes round or through the quilt the whole top.
func placesOf(w sewing.Whole, stage int, d drawn) geom.Polyline {
	s := w.Order.Stages[stage]
	if s.Kind == order.Ditch || s.Kind == order.Border {
		return edgeOf(w)
	}
	var all geom.Polyline
	for _, c := range d.cells {
		all = append(all, c.Outline()...)
	}
	return all
}

// edge is the edge of the top.
func edgeOf(w sewing.Whole) geom.Polyline {
	s := w.Quilt.Size()
	return geom.Polyline{geom.Pt(0, 0), geom.Pt(s.W, 0), geom.Pt(s.W, s.H), geom.Pt(0, s.H), geom.Pt(0, 0)}
}

// middle is where the number of a leg stands: in the middle of its place, or at the
// beginning of a seam.
func (d drawn) middle(k int) geom.Point {
	if d.cells[k].ID == "" {
		return d.moves[k][0].Path[0]
	}
	lo, hi := d.cells[k].Outline().Bounds()
	return geom.Lerp(lo, hi, 0.5)
}

// bobbinsOf returns the changes of the bobbin in a stage.
func bobbinsOf(w sewing.Whole, stage int) []int {
	var out []int
	for i, c := range w.Sum.Bobbins {
		if c.Stage == stage {
			out = append(out, i)
		}
	}
	return out
}

// programs returns the different programs of a stage in the order in which they are met
// first, each with its legs.
func programsOf(w sewing.Whole, stage int) []used {
	var out []used
	for k, l := range w.Order.Stages[stage].Legs {
		i := slices.IndexFunc(out, func(u used) bool { return u.program == l.Program })
		if i < 0 {
			i, out = len(out), append(out, used{program: l.Program})
		}
		out[i].legs = append(out[i].legs, k)
	}
	return out
}

// used is a program with the legs of a stage in which it is sewn.
type used struct {
	program int
	legs    []int
}
