package page

import "unthreaded/game"

// Draw holds what the page shows where the lines of a block are drawn.
type Draw struct{}

// onBoard fills the page of the place.
func onBoard(p *Page, m game.Model) {
	p.Sentence = "the lines of a block are drawn"
}
