package scene

import (
	"slices"

	"unthreaded/game"
	"unthreaded/game/look"
	"unthreaded/game/plan"
	"unthreaded/path/route"
)

// Route returns the picture of a desk's route as the place Route shows it at rest:
// the drawing, the thread, arrows, numbers of steps, start and exit; of the steps
// from first up to, not including, after. screen bounds the labels.
func Route(k plan.Desk, first, after int, v game.View, screen game.Resized, pal look.Palette) []Item {
	k = part(k, first, after)
	k.Why = false
	items := drawing(k, v, pal)
	thread, _ := routeThread(k, v, pal)
	return append(append(items, thread...), marks(k, v, screen, pal)...)
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
