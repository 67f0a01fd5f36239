//go:build js

package main

import (
	"unthreaded/game"
	"unthreaded/game/card"
	"unthreaded/wasm/dom"
)

// card makes a card of the model as it is and hands it to the person.
func (a *app) card(e game.MakeCard) {
	f, err := card.Make(a.model, e.What, e.As)
	if err != nil {
		a.step(game.CardMade{Err: err.Error()})
		return
	}
	dom.Download(f.Name, f.Type, f.Data)
	a.step(game.CardMade{Name: f.Name, Pages: f.Pages})
}
