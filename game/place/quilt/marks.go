package quilt

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/game/screen"
	"unthreaded/game/top"
	"unthreaded/path/geom"
)

// topMarks are places with nothing or the wrong design in them, the place that is chosen,
// and over them the widest gaps or the order of the rows; none when she stands back.
func topMarks(r Room, pal look.Palette) []scene.Item {
	if r.Away.Back {
		return nil
	}
	var items []scene.Item
	for _, f := range r.Top.Laying.Misfits {
		items = append(items, misfit(r.Top, f.Cell, r.View, pal)...)
	}
	if c, ok := r.Top.Cell(); ok {
		outline := scene.OnScreen(c.Outline(), r.View)
		items = append(items, scene.Line(6, pal.Paper, outline...), scene.Line(3.4, pal.Thread, outline...))
	}
	if r.seesGaps() {
		return append(items, gaps(r, pal)...)
	}
	return append(items, stageMarks(r, pal)...)
}

// misfit crosses out a place whose design cannot lie in it.
func misfit(t top.Top, cell string, v screen.View, pal look.Palette) []scene.Item {
	for i, c := range t.Laying.Cells {
		if c.ID != cell {
			continue
		}
		at, arm := v.ToScreen(t.Middle(i)), 7.0
		return []scene.Item{
			scene.Line(2.4, pal.Long, r2.Sub(at, geom.Pt(arm, arm)), r2.Add(at, geom.Pt(arm, arm))),
			scene.Line(2.4, pal.Long, r2.Sub(at, geom.Pt(arm, -arm)), r2.Add(at, geom.Pt(arm, -arm))),
		}
	}
	return nil
}

// gaps are circles: those wider than the batting allows heavy and numbered as in
// the list, else the widest one dashed, with its width.
func gaps(r Room, pal look.Palette) []scene.Item {
	ms := r.Top.Measures
	if !ms.Done || ms.Failed {
		return nil
	}
	var items []scene.Item
	for i, g := range ms.Wide {
		width := 2.4
		if i == r.Gap {
			width = 4.4
		}
		at := r.View.ToScreen(g.Centre)
		items = append(items, scene.Ring(at, g.Radius*r.View.Scale, width, pal.Long))
		items = append(items, scene.Number(i+1, at, pal)...)
	}
	if len(ms.Wide) == 0 {
		g := ms.Largest
		at := r.View.ToScreen(g.Centre)
		circle := geom.Arc(at, g.Radius*r.View.Scale, 0, 2*math.Pi)
		items = append(items, scene.Dashes(circle, 6, 5, 2, pal.Ink)...)
		items = append(items, tag(r.say(g.Width()), r2.Add(at, geom.Pt(0, beyond(at, g.Radius*r.View.Scale+tagRoom))), pal)...)
	}
	return items
}

// tagRoom is how far in pixels a label stands from the circle that it tells of.
const tagRoom = 16.0

// beyond returns the way from the middle of a circle to where its label stands: above
// it, or below where there is no room.
func beyond(at geom.Point, d float64) float64 {
	if at.Y-d < tagRoom {
		return d
	}
	return -d
}

// tag is a label on a ground of its own, so that it is read over lines.
func tag(text string, at geom.Point, pal look.Palette) []scene.Item {
	half := geom.Pt(float64(len(text))*scene.LabelSize*0.24, 0)
	return []scene.Item{scene.Line(scene.LabelSize+8, pal.Paper, r2.Sub(at, half), r2.Add(at, half)), scene.Text(text, at, pal.Ink)}
}

// arrowHead is a head at the end of a path; it stands a little before the end, where
// the next row may begin.
func arrowHead(path []geom.Point, pal look.Palette) []scene.Item {
	n := len(path)
	if n < 2 || geom.Dist(path[n-2], path[n-1]) < 1 {
		return nil
	}
	d := r2.Unit(r2.Sub(path[n-1], path[n-2]))
	tip, side := path[n-1], r2.Scale(scene.ArrowLength*0.6, geom.Pt(-d.Y, d.X))
	back := r2.Sub(tip, r2.Scale(scene.ArrowLength*1.3, d))
	return []scene.Item{{Shape: scene.Fill, Colour: pal.Thread, Points: []geom.Point{tip, r2.Add(back, side), r2.Sub(back, side)}}}
}
