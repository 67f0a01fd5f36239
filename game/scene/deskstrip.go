package scene

import (
	"fmt"
	"image/color"
	"math"

	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/game/plan"
	"unthreaded/path/geom"
	"unthreaded/path/route"
)

// routeStrip is the route pulled straight: its steps in order, those that are sewn
// twice or travelled hidden told apart, with the numbers that have room.
func routeStrip(m game.Model, pal look.Palette) []Item {
	s := m.Screen
	top := s.H - s.Strip
	total := m.Desk.Clock.Length * m.Desk.SpeedMM
	if s.Strip == 0 || total == 0 {
		return nil
	}
	head := label("The route pulled straight", geom.Pt(StripSide, top+13), pal.Mute)
	head.Align = Left
	items := []Item{head}
	if c := m.Desk.Choices[m.Desk.Pick]; c.Second > 0 {
		note := label("first pass out, second pass home", geom.Pt(s.W-StripSide, top+13), pal.Mute)
		note.Align = Right
		items = append(items, note)
	}
	a := axes{left: StripSide, right: s.W - StripSide, length: total}
	y := top + stripTop + (s.Strip-stripTop)*0.4
	done, lastLabel := 0.0, math.Inf(-1)
	for _, p := range m.Desk.Pieces() {
		for _, st := range p.Stretches {
			x0, x1 := a.x(done+st.From), a.x(done+st.To)
			items = append(items, wayStroke([]geom.Point{geom.Pt(x0+1.5, y), geom.Pt(x1-1.5, y)}, st.Way, pal)...)
			items = append(items, line(1, pal.Mute, geom.Pt(x1, y-7), geom.Pt(x1, y+7)))
			if mid := (x0 + x1) / 2; mid-lastLabel > 22 {
				lastLabel = mid
				l := label(fmt.Sprint(st.Step+1), geom.Pt(mid, y+20), stripInk(m.Desk, st, pal))
				l.Width = numberSize
				items = append(items, l)
			}
		}
		done += p.Line.Length()
	}
	return items
}

// wayStroke draws a path as it is sewn: thread, thread once more, or travel.
func wayStroke(path []geom.Point, w route.Way, pal look.Palette) []Item {
	switch w {
	case route.Again:
		return dashes(path, 7, 5, threadWidth+2, pal.Long)
	case route.Hidden:
		return dashes(path, 1, 6, threadWidth+0.6, pal.Short)
	}
	return []Item{line(threadWidth+2, pal.Thread, path...)}
}

// stripInk sets the numbers of the second pass apart.
func stripInk(k plan.Desk, st route.Stretch, pal look.Palette) color.NRGBA {
	ink := pal.Ink
	if second := k.Choices[k.Pick].Second; second > 0 && st.Step >= second {
		ink = pal.Short
	}
	return ink
}
