package game

import (
	"unthreaded/game/keep"
	"unthreaded/game/lesson"
)

// courseKept takes the course off the shelf. She goes on with it at once if she was at
// it, and has not begun something else.
func (m Model) courseKept(t Thing) (Model, []Effect) {
	c, err := lesson.DecodeCourse(t.Doc)
	if err != nil {
		m.Learning.courseID = beside(m.Learning.courseID, t.ID)
		m.Notice = Notice{Text: "The course that was kept is damaged and was left as it is: " + err.Error() + "."}
		return m, nil
	}
	m.Learning.Course, m.Learning.courseID = &c, t.ID
	if !c.On || !m.idle() {
		return m, nil
	}
	m.Learning.Mode = InCourse
	if c.Asked == "" {
		return m, nil
	}
	m.Learning.wants = c.Asked
	return m, []Effect{Fetch{ID: c.Asked}}
}

// askedCame lays the trace that she was asked about before the page went on the cloth
// again, unless she has turned to something else.
func (m Model) askedCame(rec keep.Record, gone bool) (Model, []Effect) {
	if gone {
		return m.unasked()
	}
	if m.Place != Rehearse || m.Live != nil || m.Open != nil {
		return m, nil
	}
	m = m.reopen(rec)
	l := &m.Learning
	l.Step, l.Made = l.Course.Again().Step(m.Clock()), true
	l.laid, l.laidID = lessonStep{mode: InCourse, line: rec.Motif}, m.Motif.ID
	return m, nil
}

// warmUpKept takes the warm-up off the shelf; one that has grown cold is thrown away.
func (m Model) warmUpKept(t Thing) (Model, []Effect) {
	w, err := lesson.DecodeWarmUp(t.Doc)
	if err != nil {
		m.Learning.warmUpID = beside(m.Learning.warmUpID, t.ID)
		m.Notice = Notice{Text: "The warm-up that was kept is damaged and was left as it is: " + err.Error() + "."}
		return m, nil
	}
	if w.Stale(m.Clock()) || w.Over() {
		return m, []Effect{Discard{Kind: WarmUpThing, ID: t.ID}}
	}
	m.Learning.WarmUp, m.Learning.warmUpID, m.Learning.keptAt = &w, t.ID, w.Elapsed
	if w.On && m.idle() {
		// What went by before the page was there is none of hers.
		m.Learning.Mode, m.Learning.paused = InWarmUp, true
	}
	return m, nil
}

// beside returns the ID under which to keep what would lie on a damaged thing.
func beside(id, damaged string) string {
	if id == damaged {
		return damaged + "-2"
	}
	return id
}

// idle tells that nothing is in hand that a lesson would take away.
func (m Model) idle() bool {
	return m.Place == Rehearse && m.Live == nil && m.Open == nil && m.Learning.Mode == Freely
}
