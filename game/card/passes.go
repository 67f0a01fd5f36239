package card

import (
	"fmt"

	"unthreaded/game/plan"
	"unthreaded/game/sewing"
	"unthreaded/game/words"
)

// Passes returns the two passes of a row on one page.
func Passes(j sewing.Job) (Page, error) {
	if !j.OutAndBack() {
		return Page{}, fmt.Errorf("the plan is sewn in one pass")
	}
	second := j.Desk.Choices[j.Desk.Pick].Second
	moves := len(j.Desk.Moves())
	pg := blank(j.W, j.H)
	y := title(&pg, j, j.Book.Say("card.passes"))
	room := (pg.H - Margin - y - 2*legendRoom) / 2
	for _, pass := range []struct {
		key          string
		first, after int
	}{{"out", 0, second}, {"home", second, moves}} {
		c := column{page: &pg, x: Margin, w: pg.W - 2*Margin, y: y, bottom: pg.H - Margin}
		c.head(j.Book.Say("card.way."+pass.key, pass.first+1, pass.after, passLength(j.Desk, pass.first, pass.after)))
		y = picture(&pg, j, pass.first, pass.after, c.y, room-(c.y-y))
	}
	legend(&pg, j, y)
	return pg, nil
}

// passLength tells how long the moves from first up to after are.
func passLength(k plan.Desk, first, after int) words.LengthMM {
	sum := 0.0
	for _, m := range k.Moves()[first:after] {
		sum += m.Length
	}
	return words.LengthMM(sum)
}
