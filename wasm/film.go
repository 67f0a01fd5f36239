//go:build js

package main

import (
	"unthreaded/game"
	"unthreaded/game/film"
	"unthreaded/wasm/dom"
)

// filmTime is how long a frame of the page works on a film, in s: half of the time
// that a frame has at 60 Hz.
const filmTime = 0.008

// filming is a film in the making.
type filming struct {
	film  *film.Film
	name  string
	share float64 // that was told last
}

func (a *app) beginFilm(name string) {
	f, err := film.Of(a.model.Rehearsal())
	if err != nil {
		a.step(game.FilmNews{Err: why(err)})
		return
	}
	a.filming = &filming{film: f, name: name}
}

// shoot works on the film in the making for a part of this frame.
func (a *app) shoot() {
	f := a.filming
	if f == nil {
		return
	}
	for begin := dom.Now(); dom.Now()-begin < filmTime; {
		if f.film.Step() {
			continue
		}
		a.filming = nil
		doc, err := f.film.Encode()
		if err != nil {
			a.step(game.FilmNews{Err: why(err)})
			return
		}
		dom.Download(f.name, "image/gif", doc)
		a.step(game.FilmNews{Bytes: len(doc), Speed: f.film.Speed})
		return
	}
	// A text that changes all the time would cost more than the film.
	if s := f.film.Done(); s >= f.share+0.02 {
		f.share = s
		a.step(game.FilmNews{Share: s})
	}
}
