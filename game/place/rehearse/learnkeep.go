package rehearse

import (
	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/place/rehearse/lesson"
)

// shelf takes a kept course and a kept warm-up. What one of them gives reason to say does
// not hide what was said before.
func (r Room) shelf(s place.Shelf) (Room, []place.Effect) {
	var effects []place.Effect
	for _, t := range s.Things {
		var more []place.Effect
		before := r.Notice
		r.Notice = place.Notice{}
		switch t.Kind {
		case place.CourseThing:
			r, more = r.courseKept(t)
		case place.WarmUpThing:
			r, more = r.warmUpKept(t)
		}
		r.Notice = before.And(r.Notice)
		effects = append(effects, more...)
	}
	return r, effects
}

// courseKept takes the course off the shelf. She goes on with it at once if she was at
// it, and has not begun something else.
func (r Room) courseKept(t place.Thing) (Room, []place.Effect) {
	c, err := lesson.DecodeCourse(t.Doc)
	if err != nil {
		r.Learning.courseID = beside(r.Learning.courseID, t.ID)
		r.Notice = place.Say("rehearse.course-damaged")
		return r, nil
	}
	r.Learning.Course, r.Learning.courseID = &c, t.ID
	if !c.On || !r.idle() {
		return r, nil
	}
	r.Learning.Mode = InCourse
	if c.Asked == "" {
		return r, nil
	}
	r.Learning.wants = c.Asked
	return r, []place.Effect{place.Fetch{ID: c.Asked}}
}

// askedCame lays the trace that she was asked about before the page went on the cloth
// again, unless she has turned to something else.
func (r Room) askedCame(rec keep.Record, gone bool) (Room, []place.Effect) {
	if gone {
		return r.unasked()
	}
	if r.Place != place.Rehearse || r.Live != nil || r.Open != nil {
		return r, nil
	}
	r = r.reopened(rec)
	l := &r.Learning
	l.Step, l.Made = l.Course.Again().Step(r.Seconds()), true
	l.laid, l.laidID = lessonStep{mode: InCourse, line: rec.Motif}, r.Motif.ID
	return r, nil
}

// warmUpKept takes the warm-up off the shelf; one that has grown cold is thrown away.
func (r Room) warmUpKept(t place.Thing) (Room, []place.Effect) {
	w, err := lesson.DecodeWarmUp(t.Doc)
	if err != nil {
		r.Learning.warmUpID = beside(r.Learning.warmUpID, t.ID)
		r.Notice = place.Say("rehearse.warm-up-damaged")
		return r, nil
	}
	if w.Stale(r.Seconds()) || w.Over() {
		return r, []place.Effect{place.Discard{Kind: place.WarmUpThing, ID: t.ID}}
	}
	r.Learning.WarmUp, r.Learning.warmUpID, r.Learning.keptAt = &w, t.ID, w.Elapsed
	if w.On && r.idle() {
		// What went by before the page was there is none of hers.
		r.Learning.Mode, r.Learning.paused = InWarmUp, true
	}
	return r, nil
}

// beside returns the ID under which to keep what would lie on a damaged thing.
func beside(id, damaged string) string {
	if id == damaged {
		return damaged + "-2"
	}
	return id
}

// idle tells that nothing is in hand that a lesson would take away.
func (r Room) idle() bool {
	return r.Place == place.Rehearse && r.Live == nil && r.Open == nil && r.Learning.Mode == Freely
}
