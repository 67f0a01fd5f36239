package game

import (
	"errors"
	"slices"
	"strings"
	"time"

	"unthreaded/game/control"
	"unthreaded/game/look"
	"unthreaded/game/place"
	"unthreaded/game/words"
)

// controls are those that belong to no place: what each is and takes, and what it does.
var controls = control.NewTable(
	place.Bind(control.Decl{Name: "place", Kind: control.Choice, Choices: texts(Places)}, func(m Model, e control.Event) (Model, []Effect) {
		return m.goTo(Place(e.Text))
	}),
	place.Bind(control.Decl{Name: "key", Kind: control.Key}, func(m Model, e control.Event) (Model, []Effect) {
		return m.key(place.Key{Name: e.Text, Shift: e.Shift})
	}),
	press("cancel", func(m Model) (Model, []Effect) { return m.key(place.Key{Name: "Escape"}) }),
	press("undo", func(m Model) (Model, []Effect) { return m.front(place.Room.Undo) }),
	press("redo", func(m Model) (Model, []Effect) { return m.front(place.Room.Redo) }),
	press("dismiss", func(m Model) (Model, []Effect) {
		m.Notice = Notice{}
		return m, nil
	}),
	// A notice offers it in every place.
	press("download", func(m Model) (Model, []Effect) { return m.toRoom(Rehearse, Control{Name: "download"}) }),
	press("table-all", Model.tabulate),
	press("film", func(m Model) (Model, []Effect) { return m.filmControl(Control{Name: "film"}) }),
	press("film-stop", func(m Model) (Model, []Effect) { return m.filmControl(Control{Name: "film-stop"}) }),
	press("work-stop", Model.workStopped), press("work-again", Model.workAgain),
	press("stuck-save", func(m Model) (Model, []Effect) {
		return m, []Effect{SaveStuck{Name: "unthreaded-traces-" + time.UnixMilli(m.NowMS()).UTC().Format("2006-01-02") + ".json"}}
	}),
	press("stuck-room", func(m Model) (Model, []Effect) { return m, []Effect{MakeRoom{}} }),
	setting("units", []string{string(Inches), string(Millimetres)}, func(s *Settings, v string) { s.Units = Units(v) }),
	setting("hand", []string{string(RightHand), string(LeftHand)}, func(s *Settings, v string) { s.Hand = Hand(v) }),
	setting("theme", []string{"auto", "light", "dark"}, func(s *Settings, v string) { s.Theme = v }),
	setting("fabric", append([]string{""}, texts(look.Fabrics)...), func(s *Settings, v string) { s.Fabric = look.Theme(v) }),
	setting("lang", append([]string{""}, texts(words.Languages())...), func(s *Settings, v string) { s.Lang = words.Lang(v) }),
	backing("backup"), backing("backup-check"), backing("backup-later"), backing("backup-add"),
	backing("backup-replace"), backing("backup-leave"), backing("backup-undo"),
)

// texts returns names as a control has them.
func texts[S ~string](names []S) []string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = string(n)
	}
	return out
}

func press(name string, do func(Model) (Model, []Effect)) control.Bound[place.Step[Model]] {
	return place.Bind(control.Decl{Name: name, Kind: control.Press}, func(m Model, _ control.Event) (Model, []Effect) { return do(m) })
}

// backing is a control about backups.
func backing(name string) control.Bound[place.Step[Model]] {
	return press(name, func(m Model) (Model, []Effect) { return m.backupControl(Control{Name: name}) })
}

// setting is a control that sets what belongs to no place, and has it kept.
func setting(name string, choices []string, set func(*Settings, string)) control.Bound[place.Step[Model]] {
	return place.Bind(control.Decl{Name: name, Kind: control.Choice, Choices: choices}, func(m Model, e control.Event) (Model, []Effect) {
		before := m.Settings
		set(&m.Settings, e.Text)
		return m.settled(before)
	})
}

// control does what a control of the page asks for: one of the place in front ("draw.tool",
// or without the place's name where several have it), or one that belongs to no place.
func (m Model) control(c Control) (Model, []Effect) {
	if of, name, scoped := strings.Cut(c.Name, "."); scoped {
		if Place(of) != m.Place && slices.Contains(Places, Place(of)) {
			return m, nil // its place has just been left
		}
		c.Name = name
		return m.toRoom(m.Place, c)
	}
	if _, own := controls[c.Name]; own {
		s, err := controls.Do(place.Step[Model]{Room: m}, control.Sent{Name: c.Name, Value: c.Value, Item: c.Item})
		return s.Room.refused(err), s.Out
	}
	if !declares(m.Front(), c.Name) && m.declared(c.Name) {
		return m, nil // a key or a button that this place has no use for
	}
	return m.toRoom(m.Place, c)
}

// declares tells whether a room has a control of this name.
func declares(r place.Room, name string) bool {
	return slices.ContainsFunc(r.Controls(), func(d control.Decl) bool { return d.Name == name })
}

// declared tells whether any room has.
func (m Model) declared(name string) bool {
	return slices.ContainsFunc(Places, func(n Place) bool { return declares(m.room(n), name) })
}

// key gives a key pressed on the cloth to the place in front.
func (m Model) key(k place.Key) (Model, []Effect) {
	return m.front(func(r place.Room) (place.Room, []Effect) { return r.Key(k) })
}

// toRoom gives a control to the room of a place.
func (m Model) toRoom(n Place, c Control) (Model, []Effect) {
	r, effects, err := m.room(n).Control(control.Sent{Name: c.Name, Value: c.Value, Item: c.Item})
	m, effects = m.after(n, r, effects)
	return m.refused(err), effects
}

// settled has changed settings kept and tells all places.
func (m Model) settled(before Settings) (Model, []Effect) {
	if m.Settings == before {
		return m, nil
	}
	return m.heard(place.Changed{Before: before}, []Effect{SaveSettings{Doc: m.Settings.Encode()}})
}

// refused says what a control did not take. What the page's own controls cannot send is a
// mistake of the program, which is said too.
func (m Model) refused(err error) Model {
	var wrong *control.Error
	if !errors.As(err, &wrong) {
		return m
	}
	m.Notice = place.Say("page.misfit", wrong.Decl.Name, wrong.Value)
	switch wrong.Reason {
	case control.NotANumber:
		m.Notice = place.Say("page.no-number", wrong.Value)
	case control.OutOfRange:
		m.Notice = place.Say("page.out-of-range", wrong.Value)
	case control.TooLong:
		m.Notice = place.Say("page.too-long")
	}
	return m
}
