package game

import (
	"strconv"

	"unthreaded/game/lesson"
	"unthreaded/scoring/practice"
)

// lessonControl does what a control of the practice asks for; false means that the
// name is none of its own.
func (m Model) lessonControl(c Control) (Model, []Effect, bool) {
	var effects []Effect
	switch c.Name {
	case "freely":
		m.Learning.Choosing = false
		if m.Leading() {
			m, effects = m.leaveLesson()
		}
	case "learn":
		m, effects = m.learnLine()
	case "warm-up":
		m, effects = m.chooseWarmUp(c.Value)
	case "warm-on":
		m, effects = m.warmOn()
	case "guess":
		m, effects = m.guessed(practice.Band(c.Value))
	case "learn-on":
		m, effects = m.learnOn()
	case "skip", "same", "anew":
		m, effects = m.stepped(c.Name)
	default:
		return m, nil, false
	}
	return m, effects, true
}

// learnLine goes into the course with the line on the cloth, and begins one if there
// is none.
func (m Model) learnLine() (Model, []Effect) {
	m, effects := m.outOfWarmUp()
	if m.Learning.Mode == InCourse {
		return m, effects
	}
	line := lesson.LineOf(m.Motif, m.Repeats, m.Line)
	var c lesson.Course
	var err error
	if m.Learning.Course == nil {
		c, err = m.newCourse(line)
	} else {
		line.Seen = m.traced(line.ID)
		c, err = m.Learning.Course.Learn(line)
	}
	if err != nil {
		m.Notice = Notice{Text: "This line cannot be learnt: " + err.Error() + "."}
		return m, effects
	}
	m.Learning.Mode, m.Learning.Choosing, m.Learning.past = InCourse, false, nil
	m.Notice = Notice{}
	m, more := m.clear().withCourse(c)
	return m, append(effects, more...)
}

// learnOn goes on with the course where she was, whatever lies on the cloth.
func (m Model) learnOn() (Model, []Effect) {
	if m.Learning.Course == nil || m.Learning.Mode == InCourse {
		return m, nil
	}
	m, effects := m.outOfWarmUp()
	c := *m.Learning.Course
	c.On = true
	m.Learning.Mode, m.Learning.Choosing, m.Learning.past = InCourse, false, nil
	m.Notice = Notice{}
	m, more := m.clear().withCourse(c)
	return m, append(effects, more...)
}

// newCourse begins a course with the traces of this session behind it.
func (m Model) newCourse(line lesson.Line) (lesson.Course, error) {
	line.Seen = m.traced(line.ID)
	c, err := lesson.Begin(m.seed(), line, m.others(line.ID))
	if err != nil {
		return c, err
	}
	return c.Since(m.Records, m.Clock())
}

// seed makes chance of the time.
func (m Model) seed() practice.Seed { return practice.Seed(m.Origin + 1000*m.LastFrame) }

// outOfWarmUp leaves a warm-up for something else.
func (m Model) outOfWarmUp() (Model, []Effect) {
	if m.Learning.Mode != InWarmUp {
		return m, nil
	}
	return m.leaveLesson()
}

// chooseWarmUp begins a warm-up of so many minutes, or asks how many.
func (m Model) chooseWarmUp(minutes string) (Model, []Effect) {
	n, err := strconv.Atoi(minutes)
	if err != nil {
		var effects []Effect
		if m.Leading() {
			m, effects = m.leaveLesson()
		}
		m.Learning.Choosing = true
		return m, effects
	}
	w, err := lesson.Warm(n, lesson.WeakSpots(m.Records), m.nextBlock().Line, m.seed(), m.Clock())
	if err != nil {
		return m, nil // another number than the page offers
	}
	var effects []Effect
	if m.Leading() {
		m, effects = m.leaveLesson()
	}
	m, more := m.warmingUp(w)
	return m, append(effects, more...)
}

// warmOn goes on with the warm-up that was left.
func (m Model) warmOn() (Model, []Effect) {
	w := m.Learning.WarmUp
	if w == nil || m.Leading() || w.Stale(m.Clock()) {
		return m, nil
	}
	next := *w
	next.On = true
	return m.warmingUp(next)
}

func (m Model) warmingUp(w lesson.WarmUp) (Model, []Effect) {
	m.Learning.Mode, m.Learning.Choosing, m.Learning.past = InWarmUp, false, nil
	m.Learning.paused = false
	m.Notice = Notice{}
	return m.clear().withWarmUp(w)
}

// begunAnew is told when the row of a line begins again.
var begunAnew = Notice{Text: "This line begins anew, with its whole line.", Action: "undo"}

// stepped leaves the next step out, asks for the last one again, or begins the row
// of the line anew.
func (m Model) stepped(how string) (Model, []Effect) {
	if !m.Leading() {
		return m, nil
	}
	l := &m.Learning
	l.past = append(l.past[:len(l.past):len(l.past)], lessonBefore{l.Course, l.WarmUp})
	m = m.clear()
	if l := m.Learning; l.Mode == InWarmUp {
		w := l.WarmUp.Skip()
		if how != "skip" {
			w = l.WarmUp.Repeat()
		}
		return m.withWarmUp(w)
	}
	c := m.Learning.Course.Skip()
	switch how {
	case "same":
		c = m.Learning.Course.Again()
	case "anew":
		c = m.Learning.Course.Anew()
		m.Notice = begunAnew
	}
	return m.withCourse(c)
}

// lessonBack takes the last such step back.
func (m Model) lessonBack() (Model, []Effect) {
	l := &m.Learning
	n := len(l.past)
	last := l.past[n-1]
	l.past = l.past[:n-1]
	m.Notice = Notice{}
	m = m.clear()
	if m.Learning.Mode == InWarmUp {
		return m.withWarmUp(*last.warm)
	}
	return m.withCourse(*last.course)
}
