package page

import "unthreaded/game"

// Machine holds what the page shows where the sewing machine is set up.
type Machine struct{}

// onMachine fills the page of the place.
func onMachine(p *Page, m game.Model) {
	p.Sentence = "the sewing machine is set up"
}
