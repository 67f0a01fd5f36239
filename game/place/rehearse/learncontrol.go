package rehearse

import (
	"slices"
	"strconv"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/place/rehearse/lesson"
	"unthreaded/scoring/practice"
)

// freely goes back to tracing freely.
func (r Room) freely() (Room, []place.Effect) {
	r.Learning.Choosing = false
	return r.unled()
}

// unled leaves the lesson that leads, if one does.
func (r Room) unled() (Room, []place.Effect) {
	if !r.Leading() {
		return r, nil
	}
	return r.leaveLesson()
}

// learnLine goes into the course with the line on the cloth, and begins one if there
// is none.
func (r Room) learnLine() (Room, []place.Effect) {
	r, effects := r.outOfWarmUp()
	if r.Learning.Mode == InCourse {
		return r, effects
	}
	line := lesson.LineOf(r.Motif, r.Repeats, r.Line)
	var c lesson.Course
	var err error
	if r.Learning.Course == nil {
		c, err = r.newCourse(line)
	} else {
		line.Seen = r.traced(line.ID)
		c, err = r.Learning.Course.Learn(line)
	}
	if err != nil {
		r.Notice = place.Say("rehearse.unlearnable")
		return r, effects
	}
	r.Learning.Mode, r.Learning.Choosing, r.Learning.past = InCourse, false, nil
	r.Notice = place.Notice{}
	r, more := r.cleared().withCourse(c)
	return r, append(effects, more...)
}

// learnOn goes on with the course where she was, whatever lies on the cloth.
func (r Room) learnOn() (Room, []place.Effect) {
	if r.Learning.Course == nil || r.Learning.Mode == InCourse {
		return r, nil
	}
	r, effects := r.outOfWarmUp()
	c := *r.Learning.Course
	c.On = true
	r.Learning.Mode, r.Learning.Choosing, r.Learning.past = InCourse, false, nil
	r.Notice = place.Notice{}
	r, more := r.cleared().withCourse(c)
	return r, append(effects, more...)
}

// newCourse begins a course with the traces of this session behind it.
func (r Room) newCourse(line lesson.Line) (lesson.Course, error) {
	line.Seen = r.traced(line.ID)
	c, err := lesson.Begin(r.seed(), line, r.others(line.ID))
	if err != nil {
		return c, err
	}
	return c.Since(r.Records, r.Seconds())
}

// seed makes chance of the time.
func (r Room) seed() practice.Seed { return practice.Seed(r.Origin + 1000*r.LastFrame) }

// outOfWarmUp leaves a warm-up for something else.
func (r Room) outOfWarmUp() (Room, []place.Effect) {
	if r.Learning.Mode != InWarmUp {
		return r, nil
	}
	return r.leaveLesson()
}

// chooseWarmUp begins a warm-up of so many minutes, or asks how many.
func (r Room) chooseWarmUp(e control.Event) (Room, []place.Effect) {
	n, err := strconv.Atoi(e.Text)
	if err != nil {
		r, effects := r.unled()
		r.Learning.Choosing = true
		return r, effects
	}
	w, err := lesson.Warm(n, lesson.WeakSpots(r.Records), r.nextBlock().Line, r.seed(), r.Seconds())
	if err != nil {
		return r, nil // another number than the page offers
	}
	r, effects := r.unled()
	r, more := r.warmingUp(w)
	return r, append(effects, more...)
}

// warmOn goes on with the warm-up that was left.
func (r Room) warmOn() (Room, []place.Effect) {
	w := r.Learning.WarmUp
	if w == nil || r.Leading() || w.Stale(r.Seconds()) {
		return r, nil
	}
	next := *w
	next.On = true
	return r.warmingUp(next)
}

func (r Room) warmingUp(w lesson.WarmUp) (Room, []place.Effect) {
	r.Learning.Mode, r.Learning.Choosing, r.Learning.past = InWarmUp, false, nil
	r.Learning.paused = false
	r.Notice = place.Notice{}
	return r.cleared().withWarmUp(w)
}

// begunAnew is told when the row of a line begins again.
var begunAnew = place.Say("rehearse.anew").Offer("undo")

// skip leaves the next step out.
func (r Room) skip() (Room, []place.Effect) {
	return r.stepped(lesson.Course.Skip, lesson.WarmUp.Skip)
}

// same asks for the last step again.
func (r Room) same() (Room, []place.Effect) {
	return r.stepped(lesson.Course.Again, lesson.WarmUp.Repeat)
}

// anew begins the row of the line anew.
func (r Room) anew() (Room, []place.Effect) {
	r, effects := r.stepped(lesson.Course.Anew, lesson.WarmUp.Repeat)
	if r.Learning.Mode == InCourse {
		r.Notice = begunAnew
	}
	return r, effects
}

// stepped changes the course of the lesson that leads; that can be taken back.
func (r Room) stepped(course func(lesson.Course) lesson.Course, warm func(lesson.WarmUp) lesson.WarmUp) (Room, []place.Effect) {
	if !r.Leading() {
		return r, nil
	}
	l := &r.Learning
	l.past = append(slices.Clip(l.past), lessonBefore{l.Course, l.WarmUp})
	r = r.cleared()
	if r.Learning.Mode == InWarmUp {
		return r.withWarmUp(warm(*r.Learning.WarmUp))
	}
	return r.withCourse(course(*r.Learning.Course))
}

// lessonBack takes the last such step back.
func (r Room) lessonBack() (Room, []place.Effect) {
	l := &r.Learning
	n := len(l.past)
	last := l.past[n-1]
	l.past = l.past[:n-1]
	r.Notice = place.Notice{}
	r = r.cleared()
	if r.Learning.Mode == InWarmUp {
		return r.withWarmUp(*last.warm)
	}
	return r.withCourse(*last.course)
}
