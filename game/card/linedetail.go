package card

import (
	"math"

	"unthreaded/game/sewing"
	"unthreaded/path/geom"
	"unthreaded/path/quilt/order"
	"unthreaded/path/route/steps"
)

// lineDetail shows a part of a line that lies over the top as large as there is room: of a
// row its beginning, of a border its upper left corner, where it is begun.
func lineDetail(pg *Page, j sewing.Job, d drawn, stage int, in rect) {
	c := column{page: pg, x: in.x, w: in.w, y: in.y, bottom: in.y + in.h}
	c.write(j.Book.Say("card.line-detail"), bodySize, ink.Mute)
	room := rect{in.x + blockEdge, c.y + blockEdge, in.w - 2*blockEdge, in.y + in.h - c.y - 2*blockEdge}
	lo, hi := d.cells[0].Outline().Bounds()
	s := j.Whole.Order.Stages[stage]
	side := 4 * breadthOf(j.Whole, s)
	if s.Kind == order.EdgeRow {
		high := hi.Y - lo.Y
		wide := math.Min(hi.X-lo.X, high*math.Max(2.5, room.w/room.h))
		if s.FarEnd {
			lo.X = hi.X - wide
		}
		hi.X = lo.X + wide
	} else {
		hi = geom.Pt(lo.X+side*math.Min(1.6, room.w/room.h), lo.Y+side)
	}
	box := geom.Polyline{lo, {X: hi.X, Y: lo.Y}, hi, {X: lo.X, Y: hi.Y}, lo}
	v := viewOf(0, box, room)
	for _, cell := range j.Whole.Quilt.Cells() {
		for _, part := range within(cell.Outline(), lo, hi) {
			v.path(pg, 0.15, ink.Line, part)
		}
	}
	var seen []steps.Move
	for _, m := range d.moves[0] {
		for _, part := range within(m.Path, lo, hi) {
			m.Path = part
			v.sewn(pg, 0.6, m)
			if part.Length() > 0.2*(hi.Y-lo.Y) {
				seen = append(seen, m)
			}
		}
	}
	for i, m := range seen[:min(len(seen), 4)] {
		v.arrow(pg, 3, 0.5, ink.Thread, m.Path)
		if len(d.moves[0]) > 1 {
			at := m.Path[0]
			p := v.onPage(at)
			badge(pg, i+1, smallSize, geom.Pt(p.X, p.Y-3), false)
		}
	}
	first := d.moves[0][0].Path[0]
	if first.X >= lo.X && first.X <= hi.X && first.Y >= lo.Y && first.Y <= hi.Y {
		pg.rule(2.8, ink.Ink, v.onPage(first))
	}
}

// breadth is the width of the border that a stage is of, 0 for none.
func breadthOf(w sewing.Whole, s order.Stage) float64 {
	if s.Kind != order.Border {
		return 0
	}
	return w.Quilt.Borders[s.Number-1].WidthMM
}

// within returns the parts of a path whose points lie in a box. Long straight parts are cut
// at its sides to a hundredth of their length.
func within(path geom.Polyline, lo, hi geom.Point) []geom.Polyline {
	var out []geom.Polyline
	var part geom.Polyline
	end := func() {
		if len(part) > 1 {
			out = append(out, part)
		}
		part = nil
	}
	in := func(p geom.Point) bool { return p.X >= lo.X && p.X <= hi.X && p.Y >= lo.Y && p.Y <= hi.Y }
	for i, p := range path {
		if i > 0 && in(path[i-1]) != in(p) || i > 0 && !in(p) && geom.Dist(path[i-1], p) > hi.X-lo.X {
			for k := 1; k < 100; k++ {
				if q := geom.Lerp(path[i-1], p, float64(k)/100); in(q) {
					part = append(part, q)
				} else {
					end()
				}
			}
		}
		if in(p) {
			part = append(part, p)
		} else {
			end()
		}
	}
	end()
	return out
}
