//go:build js

package main

import (
	"unthreaded/game/card"
	"unthreaded/game/place/machine"
	"unthreaded/wasm/dom"
)

// card makes a card and hands it to the person.
func (a *app) card(e machine.MakeCard) {
	f, err := card.Make(e.Job, e.What, e.As)
	if err != nil {
		a.step(machine.CardMade{Failed: true})
		return
	}
	dom.Download(f.Name, f.Type, f.Data)
	a.step(machine.CardMade{Name: f.Name, Pages: f.Pages})
}

// proofTime is how long a frame of the page works on a proof, in s: half of the time
// that a frame has at 60 Hz.
const proofTime = 0.008

// proofing is a proof in the making, nil for none.
type proofing struct {
	of    machine.ProofKey
	proof *card.Proof
}

// beginProof lays a proof out. An error cannot be: a proof is wanted of a plan only.
func (a *app) beginProof(e machine.MakeProof) {
	p, err := card.NewProof(e.Job, e.Of.What, e.Of.Width)
	if err != nil {
		p = nil
	}
	a.proofing = proofing{of: e.Of, proof: p}
}

// proof works for a part of this frame on the proof that is wanted, if any is.
func (a *app) proof() {
	if a.proofing.proof == nil {
		return
	}
	for begin := dom.Now(); dom.Now()-begin < proofTime; {
		if a.proofing.proof.Step() {
			continue
		}
		made := machine.Proofed{Of: a.proofing.of, Image: a.proofing.proof.Image()}
		a.proofing = proofing{}
		a.step(made)
		return
	}
}
