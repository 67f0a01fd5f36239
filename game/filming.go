package game

import "fmt"

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
	Err          string
}

func (FilmNews) IsMsg() {}

// filmControl begins a film of the replay or gives it up.
func (m Model) filmControl(c Control) (Model, []Effect) {
	switch {
	case c.Name == "film" && m.Rehearsal().Open != nil && m.Filming == "":
		m.Filming = "The film has begun."
		return m, []Effect{MakeFilm{Name: m.Rehearsal().FileName("gif")}}
	case c.Name == "film-stop" && m.Filming != "":
		m.Filming = ""
		return m, []Effect{StopFilm{}}
	}
	return m, nil
}

// filmNews says how far the film has come and what came of it.
func (m Model) filmNews(n FilmNews) Model {
	switch {
	case m.Filming == "":
		return m // it was given up
	case n.Err != "":
		m.Filming = ""
		m.Notice = Notice{Text: "The film could not be made: " + n.Err + "."}
	case n.Bytes > 0:
		m.Filming = ""
		text := "as fast as your hand"
		if n.Speed != 1 {
			text = fmt.Sprintf("at %.2g times the speed of your hand", n.Speed)
		}
		m.Notice = Notice{Text: fmt.Sprintf("The film is among your downloads (%.1f MB). It runs %s.", float64(n.Bytes)/1e6, text)}
	default:
		m.Filming = fmt.Sprintf("Making the film: %.0f %%.", 100*n.Share)
	}
	return m
}
