package page

import "unthreaded/game"

// Quilt holds what the page shows where the top is laid out.
type Quilt struct{}

// onQuilt fills the page of the place.
func onQuilt(p *Page, m game.Model) {
	p.Sentence = "the top is laid out"
}
