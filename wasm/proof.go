//go:build js

package main

import (
	"unthreaded/game"
	"unthreaded/game/card"
	"unthreaded/wasm/dom"
)

// proofTime is how long a frame of the page works on a proof, in s: half of the time
// that a frame has at 60 Hz.
const proofTime = 0.008

// proofing is a proof in the making, nil once it is made.
type proofing struct {
	of    game.ProofKey
	proof *card.Proof
}

// proof works for a part of this frame on the proof that is wanted, if any is; what it
// is made of may have changed since it was begun.
func (a *app) proof() {
	key, wanted := a.model.ProofWanted()
	switch {
	case !wanted:
		a.proofing = proofing{}
		return
	case key != a.proofing.of:
		p, err := card.NewProof(a.model, key.What, key.Width)
		if err != nil {
			p = nil // cannot be: a proof is wanted of a plan only
		}
		a.proofing = proofing{of: key, proof: p}
		return
	case a.proofing.proof == nil:
		return
	}
	for begin := dom.Now(); dom.Now()-begin < proofTime; {
		if a.proofing.proof.Step() {
			continue
		}
		a.step(game.Proofed{Of: key, Image: a.proofing.proof.Image()})
		a.proofing.proof = nil
		return
	}
}
