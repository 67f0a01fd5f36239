package route

import (
	"strconv"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/plan"
	"unthreaded/game/replay"
	"unthreaded/path/route"
)

// controls are those of the place: what each is and takes, and what it does.
var controls = control.NewTable(
	changes(control.Decl{Name: "drawing", Kind: control.Text}, func(r Room, e control.Event) Room {
		if d, ok := plan.Find(r.drawings(), e.Text); ok {
			return r.open(d)
		}
		return r
	}),
	desk(control.Decl{Name: "rule", Kind: control.Choice, Choices: ruleIDs()}, func(k plan.Desk, e control.Event) plan.Desk {
		return k.SetRule(route.EndRule(e.Text))
	}),
	desk(control.Decl{Name: "seams", Kind: control.Toggle}, func(k plan.Desk, e control.Event) plan.Desk { return k.SetSeams(e.On) }),
	desk(control.Decl{Name: "stops", Kind: control.Toggle}, func(k plan.Desk, e control.Event) plan.Desk { return k.SetStops(e.On) }),
	desk(control.Decl{Name: "pick", Kind: control.Press, OfItem: true}, func(k plan.Desk, e control.Event) plan.Desk { return k.Choose(number(e.Item)) }),
	desk(control.Decl{Name: "try", Kind: control.Press, OfItem: true}, func(k plan.Desk, e control.Event) plan.Desk { return k.Try(number(e.Item)) }),
	desk(control.Decl{Name: "start-next", Kind: control.Press}, step(plan.StartHandle, 1)),
	desk(control.Decl{Name: "start-before", Kind: control.Press}, step(plan.StartHandle, -1)),
	desk(control.Decl{Name: "exit-next", Kind: control.Press}, step(plan.ExitHandle, 1)),
	desk(control.Decl{Name: "exit-before", Kind: control.Press}, step(plan.ExitHandle, -1)),
	changes(control.Decl{Name: "why", Kind: control.Press}, func(r Room, _ control.Event) Room {
		r.why = !r.why
		r.rev++
		return r.weighed()
	}),
	changes(control.Decl{Name: "own", Kind: control.Press}, func(r Room, _ control.Event) Room { return r.askOwn(!r.own.Asked) }),
	changes(control.Decl{Name: "own-add", Kind: control.Press, OfItem: true}, func(r Room, e control.Event) Room { return r.addLine(number(e.Item)) }),
	place.Bind(control.Decl{Name: "other-ways", Kind: control.Press}, otherWays),
	place.Bind(control.Decl{Name: "rehearse-route", Kind: control.Press, OfItem: true}, rehearse),

	plays(control.Decl{Name: "zoom", Kind: control.Choice, Choices: []string{"+", "-", "0"}}, func(r Room, e control.Event) Room { return r.zoomed(e.Text) }),
	plays(control.Decl{Name: "wheel", Kind: control.Wheel}, func(r Room, e control.Event) Room {
		r.pane = place.Turned(r.pane, r.Screen, e.Turn)
		return r.fitted()
	}),
	plays(control.Decl{Name: "stay", Kind: control.Press, OfItem: true}, func(r Room, e control.Event) Room {
		if was := r.inside; len(r.Desk.Stays()) > 1 {
			if r.inside = number(e.Item) - 1; r.inside == was || r.inside >= len(r.Desk.Stays()) {
				r.inside = none
			}
			r.rev++
		}
		return r
	}),
	plays(control.Decl{Name: "awake", Kind: control.Toggle}, func(r Room, e control.Event) Room {
		r.awake.refused = !e.On && r.awake.asked // the page tells
		return r
	}),
	plays(control.Decl{Name: "follow", Kind: control.Toggle}, func(r Room, e control.Event) Room {
		return r.follow(e.On)
	}),

	plays(control.Decl{Name: "play", Kind: control.Press}, func(r Room, _ control.Event) Room {
		r.clock = r.clock.Toggle()
		r.lit = none
		return r
	}),
	plays(control.Decl{Name: "scrub", Kind: control.Number, Unit: "mm"}, func(r Room, e control.Event) Room {
		r.clock.Playing = false
		r.clock = r.clock.At(e.Number / r.speed())
		return r
	}),
	plays(control.Decl{Name: "rate", Kind: control.Choice, Choices: replay.RateNames()}, func(r Room, e control.Event) Room {
		r.clock.Rate, _ = strconv.ParseFloat(e.Text, 64)
		return r
	}),
	plays(control.Decl{Name: "step-on", Kind: control.Press}, func(r Room, _ control.Event) Room { return r.toMove(1) }),
	plays(control.Decl{Name: "step-back", Kind: control.Press}, func(r Room, _ control.Event) Room { return r.toMove(-1) }),
)

// Controls and Control are as place.Room has them.
func (r Room) Controls() []control.Decl { return controls.Decls() }

func (r Room) Control(sent control.Sent) (place.Room, []place.Effect, error) {
	return place.Do(controls, r, sent)
}

// changes binds a control whose change can be taken back.
func changes(d control.Decl, do func(Room, control.Event) Room) control.Bound[place.Step[Room]] {
	return place.Bind(d, func(r Room, e control.Event) (Room, []place.Effect) {
		before := r.state()
		return do(r, e).stepped(before), nil
	})
}

// desk binds a control that changes the route.
func desk(d control.Decl, do func(plan.Desk, control.Event) plan.Desk) control.Bound[place.Step[Room]] {
	return changes(d, func(r Room, e control.Event) Room {
		r.Desk = do(r.Desk, e)
		r.own = Own{Asked: r.own.Asked}
		r.lit, r.inside = none, none
		return r.weighed().rewound().fitted()
	})
}

// plays binds a control of the play or of what is seen, which is nothing to take back.
func plays(d control.Decl, do func(Room, control.Event) Room) control.Bound[place.Step[Room]] {
	return place.Bind(d, func(r Room, e control.Event) (Room, []place.Effect) {
		next, effects := do(r, e).lights()
		return next.(Room), effects
	})
}

func step(h plan.Handle, by int) func(plan.Desk, control.Event) plan.Desk {
	return func(k plan.Desk, _ control.Event) plan.Desk { return k.Step(h, by) }
}

// rehearse asks for the piece of the route with a number to be traced.
func rehearse(r Room, e control.Event) (Room, []place.Effect) {
	i := number(e.Item)
	if i < 0 || i >= len(r.Desk.Pieces()) {
		return r, nil
	}
	return r, []place.Effect{place.Trace{Line: r.lineOf(i)}}
}

// otherWays asks for the ways through the stage that is shown to be compared.
func otherWays(r Room, _ control.Event) (Room, []place.Effect) {
	if s, ok := r.stage(); ok {
		return r, []place.Effect{place.CompareStage{Stage: s.ID}}
	}
	return r, nil
}

// number reads the number of a list's entry; -1 for none.
func number(item string) int {
	if i, err := strconv.Atoi(item); err == nil {
		return i
	}
	return -1
}

// rules are the rules for start and exit, in the order in which they are offered.
var rules = []route.EndRule{route.Free, route.StartOnly, route.Fixed, route.Closed}

func ruleIDs() []string {
	var out []string
	for _, r := range rules {
		out = append(out, string(r))
	}
	return out
}
