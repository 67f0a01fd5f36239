package run

import (
	"unthreaded/game/card"
	"unthreaded/game/work"
)

// carded makes a card as a file.
func carded(in work.CardIn) work.CardOut {
	f, err := card.Make(in.Job, in.What, in.As)
	if err != nil {
		return work.CardOut{}
	}
	return work.CardOut{Name: f.Name, Type: f.Type, Data: f.Data, Pages: f.Pages}
}

// proofed draws the first page of a card.
func proofed(in work.ProofIn, tell Tell) work.ProofOut {
	p, err := card.NewProof(in.Job, in.What, in.Width)
	if err != nil {
		return work.ProofOut{}
	}
	for p.Step() {
		tell(p.Done())
	}
	return work.ProofOut{Image: p.Image()}
}
