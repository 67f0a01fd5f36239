package game

import "unthreaded/game/lesson"

// courseKept takes the course off the shelf. She goes on with it at once if she was at
// it, and has not begun something else.
func (m Model) courseKept(t Thing) (Model, []Effect) {
	c, err := lesson.DecodeCourse(t.Doc)
	if err != nil {
		m.Notice = Notice{Text: "The course that was kept is damaged and was left as it is: " + err.Error() + "."}
		return m, nil
	}
	m.Learning.Course = &c
	if c.On && m.idle() {
		m.Learning.Mode = InCourse
	}
	return m, nil
}

// warmUpKept takes the warm-up off the shelf; one that has grown cold is thrown away.
func (m Model) warmUpKept(t Thing) (Model, []Effect) {
	w, err := lesson.DecodeWarmUp(t.Doc)
	if err != nil {
		m.Notice = Notice{Text: "The warm-up that was kept is damaged and was left as it is: " + err.Error() + "."}
		return m, nil
	}
	if w.Stale(m.Clock()) || w.Over() {
		return m, []Effect{Discard{Kind: WarmUpThing, ID: WarmUpThing}}
	}
	m.Learning.WarmUp, m.Learning.keptAt = &w, w.Elapsed
	if w.On && m.idle() {
		// What went by before the page was there is none of hers.
		m.Learning.Mode, m.Learning.paused = InWarmUp, true
	}
	return m, nil
}

// idle tells that nothing is in hand that a lesson would take away.
func (m Model) idle() bool {
	return m.Place == Rehearse && m.Live == nil && m.Open == nil && m.Learning.Mode == Freely
}
