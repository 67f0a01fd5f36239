package run

import (
	"unthreaded/game/film"
	"unthreaded/game/work"
)

// filmed draws a reel and writes it as a GIF.
func filmed(in work.FilmIn, tell Tell) work.FilmOut {
	f := film.Of(in.Reel)
	for f.Step() {
		tell(f.Done())
	}
	doc, err := f.Encode()
	if err != nil {
		return work.FilmOut{}
	}
	return work.FilmOut{Doc: doc, Speed: in.Reel.Speed}
}
