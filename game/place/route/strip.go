package route

import (
	"fmt"
	"image/color"
	"math"

	"unthreaded/game/look"
	"unthreaded/game/plan"
	"unthreaded/game/scene"
	"unthreaded/path/geom"
	"unthreaded/path/route"
)

// strip is the route pulled straight: its steps in order, those that are sewn
// twice or travelled hidden told apart, with the numbers that have room.
func (r Room) strip(pal look.Palette) []scene.Item {
	k, s, b := r.Desk, r.Screen, r.Book()
	top := s.H - s.Strip
	total := k.Length()
	if s.Strip == 0 || total == 0 {
		return nil
	}
	head := scene.Text(b.Say("route.strip"), geom.Pt(scene.StripSide, top+13), pal.Mute)
	head.Align = scene.Left
	items := []scene.Item{head}
	if c := k.Choices[k.Pick]; c.Second > 0 {
		note := scene.Text(b.Say("route.strip-passes"), geom.Pt(s.W-scene.StripSide, top+13), pal.Mute)
		note.Align = scene.Right
		items = append(items, note)
	}
	a := scene.Axes{TextLeft: scene.StripSide, TextRight: s.W - scene.StripSide, Length: total}
	y := top + scene.StripTop + (s.Strip-scene.StripTop)*0.4
	done, lastLabel := 0.0, math.Inf(-1)
	groups := scene.GroupsOf(k)
	for _, p := range k.Pieces() {
		for _, st := range p.Stretches {
			x0, x1 := a.X(done+st.From), a.X(done+st.To)
			items = append(items, wayStroke([]geom.Point{geom.Pt(x0+1.5, y), geom.Pt(x1-1.5, y)}, st.Way, pal)...)
			items = append(items, scene.Line(1, pal.Mute, geom.Pt(x1, y-7), geom.Pt(x1, y+7)))
			n, numbered := st.Step+1, true
			if groups != nil {
				n, numbered = groups[st.Step], groups[st.Step] > 0
			}
			if mid := (x0 + x1) / 2; numbered && mid-lastLabel > 22 {
				lastLabel = mid
				l := scene.Text(fmt.Sprint(n), geom.Pt(mid, y+20), stripInk(k, st, pal))
				l.Width = scene.NumberSize
				items = append(items, l)
			}
		}
		done += p.Line.Length()
	}
	return items
}

// wayStroke draws a path as it is sewn: thread, thread once more, or travel.
func wayStroke(path []geom.Point, w route.Way, pal look.Palette) []scene.Item {
	switch w {
	case route.Again:
		return scene.Dashes(path, 7, 5, scene.RouteWidth+2, pal.Long)
	case route.Hidden:
		return scene.Dashes(path, 1, 6, scene.RouteWidth+0.6, pal.Short)
	}
	return []scene.Item{scene.Line(scene.RouteWidth+2, pal.Thread, path...)}
}

// stripInk sets the numbers of the second pass apart.
func stripInk(k plan.Desk, st route.Stretch, pal look.Palette) color.NRGBA {
	ink := pal.Ink
	if second := k.Choices[k.Pick].Second; second > 0 && st.Step >= second {
		ink = pal.Short
	}
	return ink
}
