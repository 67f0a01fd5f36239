package machine

import (
	"math"

	"unthreaded/game/look"
	"unthreaded/game/place/machine/bench"
	"unthreaded/game/scene"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/machine"
)

// aboveView shows a quilt as it lies at the machine: the rows run up and down.
type aboveView struct {
	l      bench.Layout
	scale  float64
	x, y   float64 // the upper left corner of the box
	turned bool
}

// at returns the place on the screen of a place along and across the rows. Unturned,
// the first edge is on the right.
func (v aboveView) at(p geom.Point) geom.Point {
	if v.turned {
		return geom.Pt(v.x+p.Y*v.scale, v.y+(v.l.Along-p.X)*v.scale)
	}
	return geom.Pt(v.x+(v.l.Across-p.Y)*v.scale, v.y+p.X*v.scale)
}

// part is the quilt between two places across the rows, filled.
func (v aboveView) part(from, to float64) scene.Item {
	return scene.Item{Shape: scene.Fill, Points: v.cut(from, to)}
}

// cut returns the outline of the quilt between two places across the rows: that of a
// convex polygon cut by two half planes.
func (v aboveView) cut(from, to float64) []geom.Point {
	pts := v.l.Outline[:len(v.l.Outline)-1]
	pts = halfPlane(pts, from, 1)
	pts = halfPlane(pts, to, -1)
	return geom.Polyline(pts).Map(v.at)
}

// halfPlane returns the part of a convex polygon where sign x (Y - edge) >= 0.
func halfPlane(pts []geom.Point, edge, sign float64) []geom.Point {
	var out []geom.Point
	for i, p := range pts {
		q := pts[(i+1)%len(pts)]
		a, b := sign*(p.Y-edge), sign*(q.Y-edge)
		if a >= 0 {
			out = append(out, p)
		}
		if a > 0 && b < 0 || a < 0 && b > 0 {
			out = append(out, geom.Lerp(p, q, a/(a-b)))
		}
	}
	return out
}

// fromAbove is the quilt with the row under the needle; the part right of the needle
// goes through the throat.
func (r Room) fromAbove(o machine.RowOrder, f machine.Fit, a area, pal look.Palette) []scene.Item {
	l := r.bench.Layout()
	v := aboveView{l: l, scale: math.Min(a.w/l.Across, a.h/l.Along), turned: f.Turned}
	v.x, v.y = a.x+(a.w-l.Across*v.scale)/2, a.y+(a.h-l.Along*v.scale)/2
	row := l.Rows[f.Row]
	right := v.part(0, row.To)
	if f.Turned {
		right = v.part(row.From, l.Across)
	}
	under, whole := v.part(row.From, row.To), v.part(0, l.Across)
	whole.Colour, right.Colour, under.Colour = scene.Mix(pal.Cloth, pal.Paper, 0.7), scene.Mix(pal.Cloth, pal.Short, 0.3), scene.Mix(pal.Cloth, pal.Thread, 0.3)
	items := append([]scene.Item{whole, right, under}, v.rows(o, f, pal)...)
	edge := l.Outline.Map(v.at)
	items = append(items, scene.Line(2.4, pal.Ink, edge...))
	near := v.at(geom.Pt((row.Begin+row.End)/2, row.To))
	if f.Turned {
		near = v.at(geom.Pt((row.Begin+row.End)/2, row.From))
	}
	items = append(items, scene.Needle(near, pal)...)
	book, far := r.Book(), words.LengthMM(f.Right)
	head, foot := book.Say("machine.seen.above"), book.Say("machine.seen.right-of-needle", far)
	switch {
	case a.w < captionRoom:
		head, foot = book.Say("machine.seen.above-short"), book.Say("machine.seen.right", far)
	case f.Turned:
		head = book.Say("machine.seen.above-turned")
	}
	return append(items, r.captions(a, head, foot, pal)...)
}

// captionRoom is the width in pixels that whole captions take; a narrower picture has
// short ones.
const captionRoom = 260

// hair is half the width in mm of a cut that shows as a line.
const hair = 1e-3

// rows are the borders of the rows, with the place of each in the order.
func (v aboveView) rows(o machine.RowOrder, now machine.Fit, pal look.Palette) []scene.Item {
	var items []scene.Item
	for i, g := range o.Fits {
		r := v.l.Rows[g.Row]
		for _, edge := range []float64{r.From, r.To} {
			if ends := v.cut(edge-hair, edge+hair); len(ends) > 1 {
				items = append(items, scene.Line(1, pal.Mute, ends...))
			}
		}
		narrow := (r.To-r.From)*v.scale <= 20
		if narrow && g != now {
			continue
		}
		at := v.at(geom.Pt((r.Begin+r.End)/2, (r.From+r.To)/2))
		if !v.l.Slant {
			at.Y = v.y + 18
			if narrow { // clear of its neighbours
				at.Y += 24
			}
		}
		items = append(items, scene.Number(i+1, at, pal)...)
	}
	return items
}
