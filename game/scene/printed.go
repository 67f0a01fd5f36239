package scene

import (
	"slices"

	"unthreaded/game/plan"
	"unthreaded/path/geom"
	"unthreaded/path/route"
)

// Printed returns the route as the place Route shows it at rest: the drawing, the
// thread, arrows, numbers of steps, start and exit; of the steps from first up to, not
// including, after.
func (p Planned) Printed(first, after int) []Item {
	p.Desk, p.Why = part(p.Desk, first, after), false
	items := p.Lines()
	thread, _ := RouteThread(p.Desk, p.View, p.Palette)
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

// part returns the desk with a route of which only some steps are left.
func part(k plan.Desk, first, after int) plan.Desk {
	if len(k.Choices) == 0 || first == 0 && after >= len(k.Route().Steps) {
		return k
	}
	c := k.Choices[k.Pick]
	pieces := make([]route.Piece, len(c.Pieces))
	for i, p := range c.Pieces {
		pieces[i] = p
		pieces[i].Stretches = nil
		for _, st := range p.Stretches {
			if st.Step >= first && st.Step < after {
				pieces[i].Stretches = append(pieces[i].Stretches, st)
			}
		}
	}
	c.Pieces = pieces
	if first < after && after <= len(c.Route.Steps) {
		c.Route.Start, c.Route.Exit = c.Route.Steps[first].From, c.Route.Steps[after-1].To
	}
	k.Choices = slices.Clone(k.Choices)
	k.Choices[k.Pick] = c
	return k
}
