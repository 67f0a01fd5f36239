package game

import (
	"unthreaded/game/place"
	"unthreaded/game/words"
)

// MakeFilm makes an animated GIF of the replay, in small steps, and hands it to the
// person under this name.
type MakeFilm struct{ Name string }

// StopFilm gives the film in the making up.
type StopFilm struct{}

func (MakeFilm) IsEffect() {}
func (StopFilm) IsEffect() {}

// FilmNews tells how far a film has come: the share that is done, 0 to 1, or with
// Bytes that it is finished and runs Speed times as fast as the hand; Err tells why
// there is none.
type FilmNews struct {
	Share, Speed float64
	Bytes        int
	Err          place.Why
}

func (FilmNews) IsMsg() {}

// filmControl begins a film of the replay or gives it up.
func (m Model) filmControl(c Control) (Model, []Effect) {
	switch {
	case c.Name == "film" && m.Rehearsal().Open != nil && m.Filming.None():
		m.Filming = words.Of("page.film.begun")
		return m, []Effect{MakeFilm{Name: m.Rehearsal().FileName("gif")}}
	case c.Name == "film-stop" && !m.Filming.None():
		m.Filming = words.Msg{}
		return m, []Effect{StopFilm{}}
	}
	return m, nil
}

// filmNews says how far the film has come and what came of it.
func (m Model) filmNews(n FilmNews) Model {
	switch {
	case m.Filming.None():
		return m // it was given up
	case n.Err != "":
		m.Filming = words.Msg{}
		m.Notice = place.Say("page.film.failed")
	case n.Bytes > 0:
		m.Filming = words.Msg{}
		digits := 1
		if n.Speed >= 10 {
			digits = 0
		}
		m.Notice = place.Say("page.film.done", words.Decimal{Value: float64(n.Bytes) / 1e6, Digits: 1}, n.Speed == 1, words.Decimal{Value: n.Speed, Digits: digits})
	default:
		m.Filming = words.Of("page.film.making", words.Share(n.Share))
	}
	return m
}
