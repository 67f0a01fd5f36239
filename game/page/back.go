package page

import "unthreaded/game"

// Back holds what the page shows where traces are looked back on.
type Back struct{}

// onWeeks fills the page of the place.
func onWeeks(p *Page, m game.Model) {
	p.Sentence = "traces are looked back on"
}
