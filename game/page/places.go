package page

import "unthreaded/game"

// At is true for the place on the screen.
type At struct {
	Quilt    bool `json:"quilt"`
	Draw     bool `json:"draw"`
	Route    bool `json:"route"`
	Rehearse bool `json:"rehearse"`
	Back     bool `json:"back"`
	Machine  bool `json:"machine"`
}

func at(p game.Place) At {
	return At{
		p == game.QuiltPlan, p == game.Draw, p == game.RoutePlan,
		p == game.Rehearse, p == game.LookBack, p == game.Machine,
	}
}

// inPlace fills in what the place on the screen shows.
func inPlace(p *Page, m game.Model) {
	if r := m.Front(); r != nil {
		in := r.Page()
		p.Sentence, p.ClothLabel, p.Plays, p.Room = in.Sentence, in.Cloth, in.Plays, in.In
		p.HasTrace, p.Figures = in.HasTrace, in.Figures
		if in.Replay != nil {
			p.Replay = *in.Replay
		}
		return
	}
}
