package card

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/sewing"
	"unthreaded/path/geom"
	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

// Numbers of stages stand in rings round the quilt, each so many mm wide, the first so
// far from its edge.
const (
	ringMM  = 6.6
	edgeOff = 3.4
)

// wholeView shows the whole top with room round it for numbers, beside it as many rings
// as they need, at the upper end of a part of a page; high is what it takes of that.
func wholeView(w sewing.Whole, in rect) (v topView, high float64) {
	for _, n := range []struct{ beside, under float64 }{{1, 1}, {2, 1}, {3, 1}, {2, 2}, {3, 3}} {
		x, y := 7+(n.beside-1)*ringMM, 7+(n.under-1)*ringMM
		v = viewOf(0, edgeOf(w), rect{in.x + x, in.y + y, in.w - 2*x, in.h - 2*y})
		lo, hi := edgeOf(w).Map(v.onPage).Bounds()
		v.move.Y -= lo.Y - in.y - y
		v.beside, v.under = int(n.beside), int(n.under)
		high = hi.Y - lo.Y + 2*y
		if len(stageNumbers(w, v)) == len(w.Order.Stages) {
			break
		}
	}
	return v, high
}

// stageNumber is the number of a stage beside the quilt: where it stands on the page, and
// the place at the edge that it belongs to.
type stageNumber struct {
	stage    int
	at, edge geom.Point
}

// stageNumbers places the numbers of the stages at the edge of the quilt, where a row
// begins or a seam runs out; those that have no room there farther out, as far as the view
// leaves rings for them. One for which no ring has room is left out, never the first or the last: the list below
// the picture has them all. Cost O(stages^2).
func stageNumbers(w sewing.Whole, v topView) []stageNumber {
	var out []stageNumber
	free := func(stage int, p geom.Point) bool {
		for _, o := range out {
			if badgesTouch(stage+1, p, o.stage+1, o.at, smallSize) {
				return false
			}
		}
		return true
	}
	last := len(w.Order.Stages) - 1
	for k := range w.Order.Stages {
		stage := k - 1 // the last one is placed first
		if k == 0 {
			stage = last
		}
		edge, away := edgePlace(w, stage, v)
		most := v.beside
		if away.Y != 0 {
			most = v.under
		}
		for ring := range most {
			p := r2.Add(edge, r2.Scale(edgeOff+ringMM*float64(ring), away))
			if free(stage, p) {
				out = append(out, stageNumber{stage, p, edge})
				break
			}
		}
	}
	return out
}

// drawStageNumbers draws them, those farther out with a line to their place.
func drawStageNumbers(w sewing.Whole, pg *Page, v topView) {
	all := stageNumbers(w, v)
	for _, n := range all {
		if geom.Dist(n.at, n.edge) > ringMM {
			pg.rule(0.15, ink.Mute, n.at, n.edge)
		}
	}
	for _, n := range all {
		badge(pg, n.stage+1, smallSize, n.at, w.Done(n.stage) != "")
	}
}

// edgePlace returns where on the page a stage meets the edge of the quilt, and the
// direction away from it.
func edgePlace(w sewing.Whole, stage int, v topView) (p, out geom.Point) {
	s := w.Order.Stages[stage]
	lo, hi := edgeOf(w).Map(v.onPage).Bounds()
	onPoint := w.Quilt.Setting == quilt.OnPoint && s.Kind != order.EdgeRow
	switch s.Kind {
	case order.Border:
		return geom.Pt((lo.X+hi.X)/2+8*float64(s.Number-1), lo.Y), geom.Pt(0, -1)
	case order.Ditch:
		path := w.Order.Programs[s.Legs[0].Program].Paths[0]
		a, b := v.onPage(s.Legs[0].Where.Apply(path[0])), v.onPage(s.Legs[0].Where.Apply(path[len(path)-1]))
		if s.Number == 2 && !onPoint {
			return geom.Pt(a.X, hi.Y), geom.Pt(0, 1)
		}
		if a.X < b.X {
			a = b
		}
		return geom.Pt(hi.X, a.Y), geom.Pt(1, 0)
	}
	q := v.onPage(rowEnd(w, stage))
	if s.Kind == order.EdgeRow && s.FarEnd { // rows go to and fro: each has its number where it begins
		return geom.Pt(hi.X, q.Y), geom.Pt(1, 0)
	}
	if onPoint && q.X-lo.X > hi.Y-q.Y { // the row begins at the lower edge
		return geom.Pt(q.X, hi.Y), geom.Pt(0, 1)
	}
	return geom.Pt(lo.X, q.Y), geom.Pt(-1, 0)
}

// rowEnd is the middle of the place of a row that lies farthest to the left, on point
// to the lower left.
func rowEnd(w sewing.Whole, stage int) geom.Point {
	cells := cellsOf(w)
	best, mid := math.Inf(1), geom.Point{}
	for _, l := range w.Order.Stages[stage].Legs {
		lo, hi := cells[l.Cell].Outline().Bounds()
		m := geom.Lerp(lo, hi, 0.5)
		along := m.X
		if w.Quilt.Setting == quilt.OnPoint {
			along -= m.Y
		}
		if along < best {
			best, mid = along, m
		}
	}
	return mid
}
