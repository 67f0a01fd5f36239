package card

import (
	"fmt"

	"unthreaded/game"
	"unthreaded/game/words"
	"unthreaded/path/route"
)

// Passes returns the two passes of a row on one page.
func Passes(m game.Model) (Page, error) {
	if !m.Bench.Plan.OutAndBack {
		return Page{}, fmt.Errorf("the plan is sewn in one pass")
	}
	second := m.Desk.Choices[m.Desk.Pick].Second
	steps := len(m.Desk.Route().Steps)
	pg := blank(m.Bench.Mine.Paper.Size())
	y := title(&pg, m, "Both passes")
	room := (pg.H - Margin - y - 2*legendRoom) / 2
	for _, pass := range []struct {
		name         string
		first, after int
	}{{"The way out", 0, second}, {"The way home", second, steps}} {
		c := column{page: &pg, x: Margin, w: pg.W - 2*Margin, y: y, bottom: pg.H - Margin}
		c.head(fmt.Sprintf("%s: steps %d to %d, %s", pass.name, pass.first+1, pass.after, passLength(m, pass.first, pass.after)))
		y = picture(&pg, m.Desk, m.Book(), pass.first, pass.after, c.y, room-(c.y-y))
	}
	legend(&pg, m.Desk, y)
	return pg, nil
}

// passLength tells how long the steps from first up to after are.
func passLength(m game.Model, first, after int) string {
	sum := 0.0
	for _, s := range m.Desk.Route().Steps[first:after] {
		if s.Way != route.Jump {
			sum += m.Desk.Graph.Edges[s.Edge].Length
		}
	}
	return words.Length(sum, m.Settings.Units == game.Inches)
}
