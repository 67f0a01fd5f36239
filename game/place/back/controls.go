package back

import (
	"slices"
	"strconv"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/place/back/weeks"
	"unthreaded/game/replay"
	"unthreaded/scoring/progress"
)

// controls are those of the place: what each is and takes, and what it does.
var controls = control.NewTable(
	looks(control.Decl{Name: "view", Kind: control.Choice, Choices: names([]View{OverWeeks, TwoTraces, Calendar, AtMachine})}, func(r Room, e control.Event) Room {
		r.View = View(e.Text)
		r.Pair.Clock.Playing = false
		r.Notice = place.Notice{}
		return r.Fit().(Room)
	}),
	place.Bind(control.Decl{Name: "motif", Kind: control.Text}, func(r Room, e control.Event) (Room, []place.Effect) {
		ask := r.Weeks.Asked()
		if ask.Motif = e.Text; e.Text == "all" {
			ask.Motif = ""
		}
		return r.asks(ask, r.Settings.Alike)
	}),
	place.Bind(control.Decl{Name: "measure", Kind: control.Choice, Choices: names(weeks.Measures)}, func(r Room, e control.Event) (Room, []place.Effect) {
		ask := r.Weeks.Asked()
		ask.Measure = progress.Measure(e.Text)
		return r.asks(ask, r.Settings.Alike)
	}),
	place.Bind(control.Decl{Name: "filter", Kind: control.Text, OfItem: true}, func(r Room, e control.Event) (Room, []place.Effect) {
		return r.asks(r.Weeks.Asked(), alikeWith(r.Settings.Alike, weeks.Filter(e.Item), e.Text, r.Weeks.Found()))
	}),
	place.Bind(control.Decl{Name: "better", Kind: control.Press}, func(r Room, _ control.Event) (Room, []place.Effect) {
		return r.asks(r.Weeks.Asked(), place.Alike{})
	}),
	looks(control.Decl{Name: "session", Kind: control.Text}, func(r Room, e control.Event) Room {
		if n, err := strconv.Atoi(e.Text); err == nil {
			return r.pickSession(n)
		}
		return r
	}),
	looks(control.Decl{Name: "session-before", Kind: control.Press}, func(r Room, _ control.Event) Room { return r.pickSession(r.Session + 1) }),
	looks(control.Decl{Name: "session-next", Kind: control.Press}, func(r Room, _ control.Event) Room { return r.pickSession(r.Session - 1) }),
	looks(control.Decl{Name: "months-before", Kind: control.Press}, func(r Room, _ control.Event) Room {
		r.Month++
		return r
	}),
	looks(control.Decl{Name: "months-next", Kind: control.Press}, func(r Room, _ control.Event) Room {
		r.Month = max(0, r.Month-1)
		return r
	}),
	place.Bind(control.Decl{Name: "choose", Kind: control.Press, OfItem: true}, func(r Room, e control.Event) (Room, []place.Effect) {
		return r.choosePair(e.Item)
	}),
	// Rehearse, which hears what is fetched, opens it.
	place.Bind(control.Decl{Name: "open", Kind: control.Press, OfItem: true}, func(r Room, e control.Event) (Room, []place.Effect) {
		return r, []place.Effect{place.Fetch{ID: e.Item}}
	}),
	place.Bind(control.Decl{Name: "delete", Kind: control.Press, OfItem: true}, func(r Room, e control.Event) (Room, []place.Effect) {
		return r.remove(e.Item)
	}),
	place.Bind(control.Decl{Name: "csv-sessions", Kind: control.Press}, func(r Room, _ control.Event) (Room, []place.Effect) { return r.table(true) }),
	place.Bind(control.Decl{Name: "csv-traces", Kind: control.Press}, func(r Room, _ control.Event) (Room, []place.Effect) { return r.table(false) }),

	place.Bind(control.Decl{Name: "example", Kind: control.Press}, func(r Room, _ control.Event) (Room, []place.Effect) { return r.askExample() }),
	looks(control.Decl{Name: "example-away", Kind: control.Press}, func(r Room, _ control.Event) Room { return r.exampleAway() }),

	looks(control.Decl{Name: "play", Kind: control.Press}, func(r Room, _ control.Event) Room {
		if r.Pair.First != nil {
			r.Pair.Clock = r.Pair.Clock.Toggle()
		}
		return r
	}),
	looks(control.Decl{Name: "scrub", Kind: control.Number, Unit: "mm"}, func(r Room, e control.Event) Room {
		if r.Pair.First != nil {
			r.Pair.Clock = r.Pair.Clock.Scrub(r.Pair.First, e.Number)
		}
		return r
	}),
	looks(control.Decl{Name: "rate", Kind: control.Choice, Choices: replay.RateNames()}, func(r Room, e control.Event) Room {
		r.Pair.Clock.Rate, _ = strconv.ParseFloat(e.Text, 64)
		return r
	}),
	looks(control.Decl{Name: "step-on", Kind: control.Press}, func(r Room, _ control.Event) Room { return r }),
	looks(control.Decl{Name: "step-back", Kind: control.Press}, func(r Room, _ control.Event) Room { return r }),

	typed("sewn-day", 0, func(d *SewnDraft, v string) { d.Day = v }),
	typed("sewn-motif", 0, func(d *SewnDraft, v string) { d.Motif = v }),
	typed("sewn-stitches", 0, func(d *SewnDraft, v string) { d.Stitches = v }),
	typed("sewn-length", 0, func(d *SewnDraft, v string) { d.Length = v }),
	typed("sewn-spm", 0, func(d *SewnDraft, v string) { d.SPM = v }),
	typed("sewn-note", weeks.MostNote, func(d *SewnDraft, v string) { d.Note = v }),
	looks(control.Decl{Name: "sewn-no-photo", Kind: control.Press}, func(r Room, _ control.Event) Room {
		r.Sewn.Draft.Photo = ""
		return r.rechecked()
	}),
	looks(control.Decl{Name: "photo", Kind: control.Photo}, func(r Room, _ control.Event) Room { return r }),
	place.Bind(control.Decl{Name: "sewn-keep", Kind: control.Press}, func(r Room, _ control.Event) (Room, []place.Effect) { return r.keepSewn(false) }),
	place.Bind(control.Decl{Name: "sewn-anyway", Kind: control.Press}, func(r Room, _ control.Event) (Room, []place.Effect) { return r.keepSewn(true) }),
	looks(control.Decl{Name: "sewn-change", Kind: control.Press, OfItem: true}, func(r Room, e control.Event) Room { return r.changeSewn(e.Item) }),
	looks(control.Decl{Name: "sewn-leave", Kind: control.Press}, func(r Room, _ control.Event) Room { return r.leftSewn() }),
	place.Bind(control.Decl{Name: "sewn-delete", Kind: control.Press, OfItem: true}, func(r Room, e control.Event) (Room, []place.Effect) { return r.deleteSewn(e.Item) }),
	place.Bind(control.Decl{Name: "use-hand", Kind: control.Press}, func(r Room, _ control.Event) (Room, []place.Effect) { return r.useFactor(false) }),
	place.Bind(control.Decl{Name: "use-needle", Kind: control.Press}, func(r Room, _ control.Event) (Room, []place.Effect) { return r.useFactor(true) }),
)

// Controls and Control are as place.Room has them.
func (r Room) Controls() []control.Decl { return controls.Decls() }

func (r Room) Control(sent control.Sent) (place.Room, []place.Effect, error) {
	if r.example.on() && !slices.Contains(inExample, sent.Name) {
		r.Notice = place.Say("back.example-only")
		return r, nil, nil
	}
	return place.Do(controls, r, sent)
}

// looks binds a control that has nothing done outside.
func looks(d control.Decl, do func(Room, control.Event) Room) control.Bound[place.Step[Room]] {
	return place.Bind(d, func(r Room, e control.Event) (Room, []place.Effect) { return do(r, e), nil })
}

// typed binds a field of the form for what was sewn, of so many letters at most, 0 for any.
func typed(name string, most float64, set func(*SewnDraft, string)) control.Bound[place.Step[Room]] {
	return looks(control.Decl{Name: name, Kind: control.Text, Max: most}, func(r Room, e control.Event) Room {
		set(&r.Sewn.Draft, e.Text)
		return r.rechecked()
	})
}

func names[T ~string](all []T) []string {
	out := make([]string, len(all))
	for i, v := range all {
		out[i] = string(v)
	}
	return out
}

// asks looks at something else. What is asked of the traces stays for other motifs and
// later visits.
func (r Room) asks(ask weeks.Ask, alike place.Alike) (Room, []place.Effect) {
	before := r.Settings
	r.Settings.Alike = alike
	ask.By = alikeBy(alike)
	r.Weeks = r.Weeks.Look(ask)
	r.Session, r.Told = 0, false
	if r.Settings == before {
		return r, nil
	}
	return r, []place.Effect{r.keepSettings()}
}

// keepSettings has the settings kept.
func (r Room) keepSettings() place.Effect { return place.SaveSettings{Doc: r.Settings.Encode()} }
