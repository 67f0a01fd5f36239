package game

import (
	"errors"
	"slices"
	"time"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/words"
)

// control does what a control of the page asks for. A value that the page's own
// controls cannot send is passed over.
func (m Model) control(c Control) (Model, []Effect) {
	if next, effects, done := m.placeControl(c); done {
		return next, effects
	}
	return m.common(c)
}

// common does what a control asks for that belongs to no place alone.
func (m Model) common(c Control) (Model, []Effect) {
	switch c.Name {
	case "key":
		return m.key(c)
	case "wheel":
		return m.wheel(c), nil
	case "place":
		return m.goTo(Place(c.Value))
	case "play", "scrub", "rate", "step-on", "step-back":
		if r := m.room(m.Place); r != nil {
			return m.toRoom(m.Place, c)
		}
		return m, nil
	case "cancel":
		if r := m.room(m.Place); r != nil {
			r, effects := r.Key(place.Key{Name: "Escape"})
			return m.after(m.Place, r, effects)
		}
		return m, nil
	case "undo":
		return m.undo()
	case "redo":
		return m.redo()
	case "dismiss":
		m.Notice = Notice{}
		return m, nil
	}
	return m.otherControl(c)
}

// otherControl takes the controls of the desk, of kept traces and of the settings.
func (m Model) otherControl(c Control) (Model, []Effect) {
	switch c.Name {
	case "download":
		return m.toRoom(Rehearse, c) // a notice offers it in every place
	case "table-all":
		return m.tabulate()
	case "film", "film-stop":
		return m.filmControl(c)
	case "backup", "backup-check", "backup-later", "backup-add", "backup-replace", "backup-leave", "backup-undo":
		return m.backupControl(c)
	case "stuck-save":
		return m, []Effect{SaveStuck{Name: "unthreaded-traces-" + time.UnixMilli(m.NowMS()).UTC().Format("2006-01-02") + ".json"}}
	case "stuck-room":
		return m, []Effect{MakeRoom{}}
	case "units", "hand", "theme", "lang":
		return m.set(c)
	}
	if r := m.room(m.Place); r != nil {
		if !declares(r, c.Name) {
			return m, nil
		}
		return m.toRoom(m.Place, c)
	}
	if c.Name == "open" {
		return m, []Effect{Fetch{ID: c.Item}}
	}
	return m, nil
}

// declares tells whether a room has a control of this name.
func declares(r place.Room, name string) bool {
	return slices.ContainsFunc(r.Controls(), func(d control.Decl) bool { return d.Name == name })
}

// toRoom gives a control to the room of a place.
func (m Model) toRoom(n Place, c Control) (Model, []Effect) {
	r, effects, err := m.room(n).Control(control.Sent{Name: c.Name, Value: c.Value, Item: c.Item})
	m, effects = m.after(n, r, effects)
	return m.refused(err), effects
}

// set changes a setting that belongs to no place and has the settings kept.
func (m Model) set(c Control) (Model, []Effect) {
	before := m.Settings
	switch {
	case c.Name == "units" && (c.Value == string(Inches) || c.Value == string(Millimetres)):
		m.Settings.Units = Units(c.Value)
	case c.Name == "hand" && (c.Value == string(RightHand) || c.Value == string(LeftHand)):
		m.Settings.Hand = Hand(c.Value)
	case c.Name == "lang" && (c.Value == "" || slices.Contains(words.Languages(), words.Lang(c.Value))):
		m.Settings.Lang = words.Lang(c.Value)
	case c.Name == "theme":
		m.Settings.Theme = c.Value
	}
	return m.settled(before)
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
