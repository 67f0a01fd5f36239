//go:build js

package main

import (
	"unthreaded/game"
	"unthreaded/game/film/reel"
	"unthreaded/wasm/dom"
)

// filmTime is how long a frame of the page takes a replay down, in s: half of the time
// that a frame has at 60 Hz.
const filmTime = 0.008

func (a *app) beginFilm() { a.filming = a.model.Rehearsal().Film() }

// shoot takes the replay that is to be filmed down for a part of this frame.
func (a *app) shoot() {
	if a.filming == nil {
		return
	}
	for begin := dom.Now(); dom.Now()-begin < filmTime; {
		if a.filming.Step() {
			continue
		}
		done := game.Filmed{Reel: a.filming.Reel}
		a.filming = (*reel.Recorder)(nil)
		a.step(done)
		return
	}
}
