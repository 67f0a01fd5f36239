package game

import (
	"fmt"
	"slices"

	"unthreaded/game/keep"
	"unthreaded/game/place"
)

// arrived takes the list of kept traces, and says when some could not be read.
func (m Model) arrived(msg Listed) Model {
	if msg.Damaged > 0 {
		m.Notice = m.Notice.And(Notice{Text: count(msg.Damaged, "kept trace") + " could not be read and stay as they are. A backup that holds them can mend them: Settings, Open a backup."})
	}
	m.Library = m.WithRecords(msg.Past...)
	m = m.rebooked()
	if m.Place == LookBack {
		return m.backFirst() // it was opened before its traces came
	}
	return m
}

// fetched takes a kept trace for the place that asked for it.
func (m Model) fetched(f Fetched) (Model, []Effect) {
	switch {
	case f.Top:
		return m, nil // it is for the top
	case f.For == ToMeasure:
		return m.measured(f)
	case f.For == ToCompare:
		return m.compared(f), nil
	}
	return m, nil
}

// Kept returns the summaries of all kept traces, newest first; do not change them.
func (m Model) Kept() []keep.Summary { return m.Records }

// remove deletes a kept trace; the notice offers to take that back.
func (m Model) remove(id string) (Model, []Effect) {
	rest := slices.DeleteFunc(slices.Clone(m.Records), func(s keep.Summary) bool { return s.ID == id })
	if len(rest) == len(m.Records) {
		return m, nil
	}
	m.Records = rest
	m, _ = m.rebooked().unpaired(id)
	m.deleted = append(slices.Clip(m.deleted), deletion{id: id, back: len(m.Back.past)})
	m, effects := m.heard(place.Gone{ID: id}, []Effect{Delete{ID: id}})
	m.Notice = Notice{Text: "Trace deleted.", Action: "undo"}
	return m.relaid(), effects
}

// undo takes the last change of the place back or, where traces are kept, brings
// the one deleted last back.
func (m Model) undo() (Model, []Effect) {
	if r := m.room(m.Place); r != nil {
		r, effects := r.Undo()
		return m.after(m.Place, r, effects)
	}
	switch m.Place {
	case LookBack:
		if n := len(m.deleted); len(m.Back.past) > 0 && (n == 0 || m.deleted[n-1].back < len(m.Back.past)) {
			return m.backBack()
		}
	}
	if len(m.deleted) == 0 {
		return m, nil
	}
	last := m.deleted[len(m.deleted)-1]
	m.deleted = m.deleted[:len(m.deleted)-1]
	m, effects := m.heard(place.Gone{ID: last.id, Back: true}, []Effect{Restore{ID: last.id}})
	m.Notice = Notice{Text: "The trace is back."}
	if n := len(m.deleted); n > 0 {
		m.Notice = Notice{Text: fmt.Sprintf("The trace is back. Deleted in this visit before it: %d.", n), Action: "undo"}
	}
	return m, effects
}

// Unrestored tells that a deleted trace was asked for and is there no more.
type Unrestored struct{ ID string }

// Stuck tells that so many traces of an earlier visit wait to be kept, and why they cannot
// be; none any more where N is 0.
type Stuck struct {
	N   int
	Why string
}

func (Unrestored) IsMsg() {}
func (Stuck) IsMsg()      {}

// SaveStuck hands them to the person as a file. MakeRoom gives up what could be taken
// back, and tries again to keep them.
type SaveStuck struct{ Name string }

// MakeRoom gives up what could be taken back.
type MakeRoom struct{}

func (SaveStuck) IsEffect() {}
func (MakeRoom) IsEffect()  {}

// redo does again what was taken back last.
func (m Model) redo() (Model, []Effect) {
	if r := m.room(m.Place); r != nil {
		r, effects := r.Redo()
		return m.after(m.Place, r, effects)
	}
	switch m.Place {
	case LookBack:
		return m.backAgain()
	}
	return m, nil
}

// saved tells the person when a trace could not be kept.
func (m Model) saved(s Saved) Model {
	if s.Err == "" {
		return m
	}
	m.Notice = Notice{
		Text:   fmt.Sprintf("This trace could not be kept: %s. It stays on the cloth; save it as a file to keep it.", s.Err),
		Action: "download",
	}
	return m
}
