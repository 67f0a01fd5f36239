package rehearse

import (
	"strconv"

	"unthreaded/game/control"
	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/place/rehearse/lesson"
	"unthreaded/game/replay"
	"unthreaded/game/screen"
	"unthreaded/path/machine"
	"unthreaded/scoring/practice"
)

// lineChanging are the controls that change the line under a hand that traces: what it
// has drawn is kept first.
var lineChanging = []string{
	"motif", "repeats", "again", "open", "import", "freely", "learn", "warm-up", "skip", "same", "anew", "learn-on", "warm-on", "way",
}

var controls = control.NewTable(
	// What is traced, and how it is practised.
	place.Bind(control.Decl{Name: "motif", Kind: control.Text}, Room.choose),
	place.Bind(control.Decl{Name: "repeats", Kind: control.Number}, Room.repeat),
	press("freely", Room.freely),
	press("learn", Room.learnLine),
	press("learn-on", Room.learnOn),
	press("warm-on", Room.warmOn),
	place.Bind(control.Decl{Name: "warm-up", Kind: control.Choice, Choices: warmUps()}, Room.chooseWarmUp),
	place.Bind(control.Decl{Name: "guess", Kind: control.Choice, Choices: guesses()}, Room.guessed),
	press("skip", Room.skip),
	press("same", Room.same),
	press("anew", Room.anew),

	// How she moves, what she sees and hears.
	set(control.Decl{Name: "way", Kind: control.Choice, Choices: []string{keep.Pencil, keep.Cloth}}, func(s place.Settings, e control.Event) place.Settings {
		s.Way = e.Text
		return s
	}),
	set(control.Decl{Name: "marks", Kind: control.Choice, Choices: []string{keep.WholeLine, keep.DotsOnly, keep.EndsOnly, keep.NoMarks}}, func(s place.Settings, e control.Event) place.Settings {
		s.Guide.Marks = e.Text
		return s
	}),
	set(control.Decl{Name: "lead", Kind: control.Choice, Choices: []string{noLead, keep.LeadAhead, keep.LeadWaits}}, func(s place.Settings, e control.Event) place.Settings {
		s.Guide.Lead = e.Text
		return s
	}),
	toggle("countin", func(g *keep.Guide) *bool { return &g.CountIn }),
	toggle("strip", func(g *keep.Guide) *bool { return &g.SpeedStrip }),
	toggle("unnumbered", func(g *keep.Guide) *bool { return &g.Unnumbered }),
	toggle("ticks", func(g *keep.Guide) *bool { return &g.Ticks }),
	set(control.Decl{Name: "volume", Kind: control.Number, Max: 1, Step: 0.05}, func(s place.Settings, e control.Event) place.Settings {
		s.Volume = e.Number
		return s
	}),

	// Needle, stitch and hand.
	ranged("spm", "spm", 10, machine.NeedleSpeed, place.Settings.WithSPM),
	ranged("stitch", "mm", 0.01, machine.StitchLength, place.Settings.WithStitch),
	ranged("handspeed", "mm/s", 0.5, machine.HandSpeed, place.Settings.WithHand),
	set(control.Decl{Name: "follows", Kind: control.Choice, Choices: []string{string(place.HandFollows), string(place.NeedleFollows), string(place.StitchFollows)}}, func(s place.Settings, e control.Event) place.Settings {
		s.Follows = place.Third(e.Text)
		return s
	}),

	// The card by which the screen is measured.
	place.Bind(control.Decl{Name: "card", Kind: control.Number, Min: screen.MinCard, Max: screen.MaxCard, Step: 0.5, Unit: "px"}, Room.cardSized),
	press("screen", Room.cardOpened),
	press("size-later", Room.sizeNotNow),
	press("card-less", Room.cardSmaller),
	press("card-more", Room.cardLarger),
	press("card-keep", Room.cardFits),
	press("card-forget", Room.cardForgotten),
	press("card-close", Room.cardClosed),

	// The trace on the cloth.
	press("finish", Room.finishHere),
	press("again", func(r Room) (Room, []place.Effect) { return r.cleared(), nil }),
	press("play", func(r Room) (Room, []place.Effect) { return r.played(), nil }),
	place.Bind(control.Decl{Name: "scrub", Kind: control.Number, Step: 0.1, Unit: "mm"}, func(r Room, e control.Event) (Room, []place.Effect) {
		r.Replay.Playing = false
		r.Replay = r.Replay.At(r.timeAt(e.Number))
		return r, nil
	}),
	place.Bind(control.Decl{Name: "movement", Kind: control.Choice, Choices: []string{hers, ideal}}, Room.watched),
	place.Bind(control.Decl{Name: "stretch", Kind: control.Choice, Choices: stretches()}, Room.stretched),
	press("begin-here", Room.begunHere),
	press("end-here", Room.endedHere),
	place.Bind(control.Decl{Name: "rate", Kind: control.Choice, Choices: rateNames()}, Room.rated),
	press("more", Room.moreAsked),
	press("download", Room.download),
	press("download-measures", Room.downloadMeasures),

	// The kept traces of the line.
	place.Bind(control.Decl{Name: "open", Kind: control.Press, OfItem: true}, func(r Room, e control.Event) (Room, []place.Effect) { return r.ask(e.Item, false) }),
	place.Bind(control.Decl{Name: "over", Kind: control.Press, OfItem: true}, func(r Room, e control.Event) (Room, []place.Effect) { return r.ask(e.Item, true) }),
	place.Bind(control.Decl{Name: "delete", Kind: control.Press, OfItem: true}, func(r Room, e control.Event) (Room, []place.Effect) { return r.removed(e.Item) }),
	press("past-more", func(r Room) (Room, []place.Effect) {
		r.Shown = min(r.Shown, len(r.Past)) + pageful
		return r, nil
	}),
	place.Bind(control.Decl{Name: "import", Kind: control.File}, func(r Room, e control.Event) (Room, []place.Effect) { return r.importInk(e.Text) }),
	place.Bind(control.Decl{Name: "ink-width", Kind: control.Text, Max: 40}, Room.inkSized),
	press("ink-take", Room.inkTaken),
	press("ink-draw", Room.inkDrawn),
	press("ink-leave", Room.inkLeft),
)

// press binds a button.
func press(name string, do func(Room) (Room, []place.Effect)) control.Bound[place.Step[Room]] {
	return place.Bind(control.Decl{Name: name, Kind: control.Press}, func(r Room, _ control.Event) (Room, []place.Effect) { return do(r) })
}

// set binds a control that changes settings.
func set(d control.Decl, do func(place.Settings, control.Event) place.Settings) control.Bound[place.Step[Room]] {
	return place.Bind(d, func(r Room, e control.Event) (Room, []place.Effect) { return r.withSettings(do(r.Settings, e)) })
}

// ranged binds a slider over what a machine can do.
func ranged(name, unit string, step float64, r machine.Range, with func(place.Settings, float64) place.Settings) control.Bound[place.Step[Room]] {
	d := control.Decl{Name: name, Kind: control.Number, Min: r.Min, Max: r.Max, Step: step, Unit: unit}
	return set(d, func(s place.Settings, e control.Event) place.Settings { return with(s, e.Number) })
}

// toggle binds a control that turns a help on or off.
func toggle(name string, of func(*keep.Guide) *bool) control.Bound[place.Step[Room]] {
	return set(control.Decl{Name: name, Kind: control.Toggle}, func(s place.Settings, e control.Event) place.Settings {
		*of(&s.Guide) = e.On
		return s
	})
}

// noLead is the choice of no ideal needle; a choice must have a value.
const noLead = "none"

// warmUps are the lengths of a warm-up in minutes; the empty one asks for the length.
func warmUps() []string {
	out := []string{""}
	for _, n := range practice.Lengths {
		out = append(out, strconv.Itoa(n))
	}
	return out
}

// guesses are the bands of evenness; the empty one would rather see.
func guesses() []string {
	out := []string{""}
	for _, b := range practice.Bands {
		out = append(out, string(b))
	}
	return out
}

func rateNames() (out []string) {
	for _, v := range replay.Rates {
		out = append(out, number(v))
	}
	return out
}

// withSettings takes other settings on and has them kept. What depends on them follows
// when all places are told.
func (r Room) withSettings(s place.Settings) (Room, []place.Effect) {
	before := r.Settings
	s.Guide = s.Guide.Known()
	if s == before {
		return r, nil
	}
	r.Settings = s
	if s.Way != before.Way {
		r = r.cleared() // ready to be traced the other way
	}
	effects := []place.Effect{place.SaveSettings{Doc: s.Encode()}}
	if on := s.Guide.Ticks; on != before.Guide.Ticks {
		effects = append(effects, Listen{On: on})
	}
	return r, effects
}

// choose takes another motif: a ready one, or the line of a kept trace, which is fetched
// with the newest of them.
func (r Room) choose(e control.Event) (Room, []place.Effect) {
	for _, o := range r.offered.list {
		if o.line.ID == e.Text {
			return r.withMotif(o.line).cleared(), nil
		}
	}
	ready, ok := lesson.Ready(e.Text)
	if !ok {
		for _, s := range r.Records {
			if s.Motif == e.Text {
				return r, []place.Effect{place.Fetch{ID: s.ID}}
			}
		}
		return r, nil
	}
	r = r.withMotif(ready)
	r.Shown = pageful
	s := r.Settings
	s.Motif, s.Repeats = ready.ID, 0
	r, effects := r.withSettings(s)
	return r.cleared(), effects
}

// repeat asks for so many repeats in the row, 0 for as many as fit.
func (r Room) repeat(e control.Event) (Room, []place.Effect) {
	s := r.Settings
	s.Repeats = max(0, min(r.Motif.Max, int(e.Number)))
	r, effects := r.withSettings(s)
	return r.cleared(), effects
}

// played plays and stops the movement: hers, or the ideal one.
func (r Room) played() Room {
	if r.Live == nil && !r.Guessing() {
		r.Replay = r.Replay.Toggle()
	}
	return r
}

func (r Room) rated(e control.Event) (Room, []place.Effect) {
	for _, v := range replay.Rates {
		if number(v) == e.Text {
			r.Replay.Rate = v
		}
	}
	return r, nil
}
