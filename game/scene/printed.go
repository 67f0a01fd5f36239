package scene

import (
	"unthreaded/path/geom"
)

// Printed returns the route as the place Route shows it at rest: the drawing, the
// thread, arrows, numbers of moves, start and exit; of the moves from first up to, not
// including, after.
func (p Planned) Printed(first, after int) []Item {
	p.first, p.after, p.Why, p.OnPaper, p.Open = first, after, false, true, -1
	items := p.Lines()
	thread, _ := p.Thread()
	return append(append(items, joined(thread)...), p.Marks()...)
}

// joined makes one stroke of those that go on from each other alike.
func joined(items []Item) []Item {
	var out []Item
	for _, it := range items {
		if n := len(out); n > 0 && len(it.Points) > 0 {
			last := &out[n-1]
			end := last.Points[len(last.Points)-1]
			if last.Colour == it.Colour && last.Width == it.Width && geom.Dist(end, it.Points[0]) < 0.05 {
				last.Points = append(last.Points[:len(last.Points):len(last.Points)], it.Points[1:]...)
				continue
			}
		}
		out = append(out, it)
	}
	return out
}
