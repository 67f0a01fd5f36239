package game

import (
	"unthreaded/game/film/reel"
	"unthreaded/game/place"
	"unthreaded/game/words"
	"unthreaded/game/work"
)

// MakeFilm takes the replay on the cloth down in small steps, for a film of it.
type MakeFilm struct{}

// StopFilm gives that up.
type StopFilm struct{}

func (MakeFilm) IsEffect() {}
func (StopFilm) IsEffect() {}

// Filmed brings the replay as it was taken down.
type Filmed struct{ Reel reel.Reel }

func (Filmed) IsMsg() {}

// filmControl begins a film of the replay or gives it up.
func (m Model) filmControl(c Control) (Model, []Effect) {
	switch {
	case c.Name == "film" && m.Rehearsal().Open != nil && m.Filming.None():
		m.Filming = words.Of("page.film.begun")
		return m, []Effect{MakeFilm{}}
	case c.Name == "film-stop" && !m.Filming.None():
		m.Filming = words.Msg{}
		var effects []Effect
		m.Shared, effects = m.Leaves(work.Film)
		return m, append(effects, StopFilm{})
	}
	return m, nil
}

// filmed has the film drawn.
func (m Model) filmed(f Filmed) (Model, []Effect) {
	if m.Filming.None() {
		return m, nil // it was given up
	}
	var effects []Effect
	m.Shared, effects = m.Asks(work.Film, m.Rehearsal().FileName("gif"), work.FilmIn{Reel: f.Reel})
	return m, effects
}

// filmMade hands the person her film under a name, or says why there is none.
func (m Model) filmMade(name string, out any) (Model, []Effect) {
	m.Filming = words.Msg{}
	film, ok := out.(work.FilmOut)
	switch {
	case !ok:
		return m, nil // it was lost, which is said
	case film.Doc == nil:
		m.Notice = place.Say("page.film.failed")
		return m, nil
	}
	digits := 1
	if film.Speed >= 10 {
		digits = 0
	}
	m.Notice = place.Say("page.film.done", words.Decimal{Value: float64(len(film.Doc)) / 1e6, Digits: 1}, film.Speed == 1, words.Decimal{Value: film.Speed, Digits: digits})
	return m, []Effect{Download{Name: name, Type: "image/gif", Data: film.Doc}}
}
