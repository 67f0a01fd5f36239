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
	switch m.Place {
	case game.QuiltPlan:
		onQuilt(p, m)
	case game.Draw:
		onBoard(p, m)
	case game.RoutePlan:
		onDesk(p, m)
	case game.Rehearse:
		onRehearsal(p, m)
	case game.LookBack:
		onWeeks(p, m)
	case game.Machine:
		onMachine(p, m)
	}
}
