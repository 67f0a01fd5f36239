package route

import (
	"unthreaded/game/look"
	"unthreaded/game/scene"
	"unthreaded/path/geom"
)

// ownLines shows the person's order: the lines taken so far, numbered, those taken more
// than once in the colour of a warning, and dotted ways across where it breaks off.
func (r Room) ownLines(pal look.Palette) []scene.Item {
	k, v := r.Desk, r.view
	var items []scene.Item
	times := map[int]int{}
	for _, e := range r.own.Lines {
		times[e]++
		c := pal.Thread
		if times[e] > 1 {
			c = pal.Long
		}
		items = append(items, scene.Line(scene.RouteWidth+0.6, c, scene.OnScreen(k.Graph.Edges[e].Path, v)...))
	}
	if f := r.own.Found; f != nil {
		for _, g := range f.Gaps {
			way := []geom.Point{v.ToScreen(k.Graph.Nodes[g.From]), v.ToScreen(k.Graph.Nodes[g.To])}
			items = append(items, scene.Dashes(way, 3, 5, 2, pal.Long)...)
		}
	}
	for i, e := range r.own.Lines {
		l, err := geom.NewLine(k.Graph.Edges[e].Path)
		if err != nil {
			continue
		}
		// A line taken again has its numbers side by side.
		earlier := 0
		for _, before := range r.own.Lines[:i] {
			if before == e {
				earlier++
			}
		}
		items = append(items, scene.Number(i+1, scene.Beside(l, l.Length()/2, 15-30*float64(earlier%2), v), pal)...)
	}
	return items
}
