package game

import (
	"fmt"
	"slices"

	"unthreaded/game/weeks"
	"unthreaded/game/words"
	"unthreaded/scoring/progress"
)

// pickSession picks the n-th session from the newest on.
func (m Model) pickSession(n int) Model {
	most := len(m.Back.Book.Found().Scores) - 1
	m.Back.Session = max(0, min(most, n))
	m.Back.Told = true
	return m
}

// Picked returns the score of the session that is picked, false where there is none.
func (b Back) Picked() (progress.Score, bool) {
	s := b.Book.Found().Scores
	if len(s) == 0 {
		return progress.Score{}, false
	}
	return s[len(s)-1-min(b.Session, len(s)-1)], true
}

// Chart returns the chart of what is looked at.
func (m Model) Chart() weeks.Chart {
	return weeks.ChartOf(m.Back.Book.Found(), m.Back.Book.Zone(), m.Screen.W, m.Screen.H-m.Screen.Strip)
}

// PickedText says which session is picked, its score, and how many of its traces count;
// empty without any.
func (m Model) PickedText() string {
	s, ok := m.Back.Picked()
	if !ok {
		return ""
	}
	f := m.Back.Book.Found()
	return fmt.Sprintf("%s: %s, %s", m.Back.Book.Zone().Date(s.At).Format(words.Day), ScoreText(s.Median, f), words.Count(len(s.Counted), "trace counts", "traces count"))
}

// removeHere deletes a trace from the list of a session; the keyboard goes on at the one
// after it, or the one before.
func (m Model) removeHere(id string) (Model, []Effect) {
	picked, _ := m.Back.Picked()
	list := m.Back.Book.Found().InSession(picked.Session)
	at := slices.IndexFunc(list, func(k weeks.Mark) bool { return k.ID == id })
	m, effects := m.remove(id)
	if at < 0 || len(effects) == 0 {
		return m, effects
	}
	to := ".lookback [data-send=\"back.session\"]" // the list of sessions, where this one is empty now
	if len(list) > 1 {
		next := at + 1
		if next == len(list) {
			next = at - 1
		}
		to = fmt.Sprintf(".lookback [data-trace=%q] [data-send=\"back.delete\"]", list[next].ID)
	}
	return m.focusOn(to), effects
}

// unpaired takes a trace out of the two that are compared, if it is one of them.
func (m Model) unpaired(id string) (next Model, was bool) {
	b := &m.Back
	switch {
	case b.First != nil && b.First.Rec.ID == id:
		b.First, b.Second = b.Second, nil
	case b.Second != nil && b.Second.Rec.ID == id:
		b.Second = nil
	default:
		return m, false
	}
	return m.paired(), true
}

// ScoreText writes a value of what is looked at, with its unit.
func ScoreText(v float64, f weeks.Found) string {
	switch {
	case f.Motif == "" && f.Measure == progress.Flow:
		return fmt.Sprintf("%+.2f against usual", v)
	case f.Motif == "":
		return words.Percent(v) + " of usual"
	case f.Measure == progress.Spacing:
		return words.Percent(v)
	case f.Measure == progress.Flow:
		return fmt.Sprintf("%.2f", v)
	}
	return words.Small(v)
}
