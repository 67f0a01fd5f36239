package game

// resume opens the place in which the last visit ended, once what is kept has been
// read; it waits for nothing if she has gone to a place herself in the meantime. A
// first visit stays where it begins, in the rehearsal.
func (m Model) resume() (Model, []Effect) {
	if m.placeKnown {
		return m, nil
	}
	m.placeKnown = true
	if m.Place != Rehearse || m.Rehearsal().Live != nil || m.Settings.Place == "" {
		return m, nil
	}
	notice := m.Notice
	m, effects := m.goTo(m.Settings.Place)
	m.Notice = notice.And(m.Notice)
	return m, effects
}

// patience in s is how long the page waits for what is kept before it shows the
// rehearsal in the meantime: for a storage that does not answer, which should not be.
const patience = 10.0

// Opening tells that the place of the last visit, or the lesson in hand, is about to
// open: another one shown for a moment before it would invite her hand and then go away.
func (m Model) Opening() bool {
	reading := !m.placeKnown || m.Rehearsal().Awaits()
	return reading && m.Place == Rehearse && m.LastFrame-m.FirstFrame < patience
}

// placeKept has the place on the screen kept for the next visit if it has changed.
func (m Model) placeKept(effects []Effect) (Model, []Effect) {
	kept := m.Settings.Place
	if kept == "" {
		kept = Rehearse
	}
	if !m.placeKnown || m.Place == kept {
		return m, effects
	}
	m.Settings.Place = m.Place
	return m, append(effects, SaveSettings{Doc: m.Settings.Encode()})
}
