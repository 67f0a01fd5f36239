package route

import (
	"strconv"

	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/path/geom"
)

// ownLines shows the person's order: her moves in thread, numbered, what is sewn twice
// beside itself in the colour of a warning, dotted ways across where it breaks off, and
// broad what is still missed.
func (r Room) ownLines(pal look.Palette) []scene.Item {
	k, v := r.Desk, r.view
	var items []scene.Item
	times := map[int]int{}
	for _, e := range r.own.Lines {
		times[e]++
	}
	field := scene.NewField(scene.InSight(r.Screen))
	for i, e := range k.Graph.Edges {
		pts := scene.OnScreen(e.Path, v)
		field.Run(pts)
		if e.Kind.Must() && times[i] == 0 {
			items = append(items, scene.Dashes(pts, 9, 6, scene.RouteWidth-0.6, pal.Chalk)...)
		}
	}
	walked := map[int]int{}
	for i, e := range r.own.Lines {
		pts := scene.OnScreen(k.Graph.Edges[e].Path, v)
		c := scene.Hue(pal, float64(i+1)/float64(len(r.own.Lines)))
		if walked[e]++; walked[e] > 1 {
			pts, c = scene.Aside(pts, float64(walked[e]-1)*(scene.RouteWidth+2)), pal.Long
		}
		items = append(items, scene.Line(scene.RouteWidth+0.6, c, pts...))
	}
	if f := r.own.Found; f != nil {
		for _, g := range f.Gaps {
			way := []geom.Point{v.ToScreen(k.Graph.Nodes[g.From]), v.ToScreen(k.Graph.Nodes[g.To])}
			field.Run(way)
			items = append(items, scene.Dashes(way, 3, 5, 2, pal.Long)...)
		}
	}
	for i, m := range r.ownMoves() {
		items = append(items, scene.NumberOn(field, strconv.Itoa(i+1), m.Path, v, pal)...)
	}
	return items
}

// trail shows what a pointer draws along the lines.
func (r Room) trail(pal look.Palette) []scene.Item {
	if len(r.own.Trace) < 2 {
		return nil
	}
	return []scene.Item{scene.Line(scene.RouteWidth+5, scene.Mix(pal.Cloth, pal.Over, 0.6), scene.OnScreen(r.own.Trace, r.view)...)}
}
