package game

import (
	"unthreaded/game/keep"
	"unthreaded/game/lesson"
	"unthreaded/game/place"
	"unthreaded/path/machine"
	"unthreaded/path/motif"
	"unthreaded/scoring/practice"
)

// Practice is how she practises.
type Practice string

// She traces as she likes, goes through a course, or warms up.
const (
	Freely   Practice = "freely"
	InCourse Practice = "learn"
	InWarmUp Practice = "warm-up"
)

// Learning is what leads from trace to trace, if anything does.
type Learning struct {
	Mode Practice
	// Choosing tells that she is asked how long the warm-up shall be.
	Choosing bool
	// Course is nil before the first one, WarmUp unless one was begun and is not over.
	Course *lesson.Course
	WarmUp *lesson.WarmUp
	// courseID and warmUpID name them on the shelf.
	courseID, warmUpID string
	// Next is what a warm-up would end with while she is asked for its length; nextKey
	// tells what it was worked out for.
	Next    NextBlock
	nextKey nextKey
	// Step is that of the trace in hand and, while Made, of the one on the cloth.
	Step practice.Step
	Made bool
	// Said is what she said of the trace on the cloth, and what it was.
	Said, Was practice.Band

	// laid names what the lesson put on the cloth, laidID its motif.
	laid   lessonStep
	laidID string
	// wants is the ID of the kept trace that a line is fetched from.
	wants string
	// past holds course and warm-up before each change by hand, the last one last.
	past []lessonBefore
	// paused tells that the page was out of sight; ticked that the clock of the warm-up
	// has moved visibly; keptAt is its time when it was kept.
	paused, ticked bool
	keptAt         float64
}

// lessonStep is a line of a course by its ID, or a minute of a warm-up.
type lessonStep struct {
	mode Practice
	line string
	item int
}

type lessonBefore struct {
	course *lesson.Course
	warm   *lesson.WarmUp
}

// Clock returns the time in s since 1970.
func (m Model) Clock() float64 { return m.Origin/1000 + m.LastFrame }

// Leading tells whether a lesson leads: what it chooses cannot be chosen by hand.
func (m Model) Leading() bool { return m.Learning.Mode != Freely }

// NextStep returns the step of the course that comes next.
func (m Model) NextStep() practice.Step { return m.Learning.Course.Step(m.Clock()) }

// Guessing tells whether she is asked how even the trace on the cloth was: until she
// has said it, nothing gives it away.
func (m Model) Guessing() bool {
	l := m.Learning
	return m.Open != nil && m.Live == nil && l.Mode == InCourse && l.Course.Asked == m.Open.Rec.ID
}

// Unveiled returns the trace on the cloth whose measures may be seen.
func (m Model) Unveiled() *Sheet {
	if m.Guessing() {
		return nil
	}
	return m.Open
}

// HandSpeed returns the speed of the hand in mm/s that is asked for: that of her own
// needle, in a warm-up times the tempo of the minute.
func (m Model) HandSpeed() float64 { return m.Settings.StitchMM * m.spm() / 60 }

func (m Model) spm() float64 {
	if m.Learning.Mode != InWarmUp || m.Motif.ID != m.Learning.laidID {
		return m.Settings.SPM
	}
	return place.Within(m.Settings.SPM*m.Learning.WarmUp.Now().Tempo, machine.NeedleSpeed.Min, machine.NeedleSpeed.Max)
}

// guideAsked returns what will help the hand: what she chose, less what the lesson
// takes away.
func (m Model) guideAsked() keep.Guide {
	g := m.Settings.Guide.Known()
	switch m.Learning.Mode {
	case InWarmUp:
		g.Marks = keep.WholeLine
	case InCourse:
		g = lesson.Guide(m.NextStep(), g)
	}
	return g
}

// repeatsAsked returns how many repeats the row shall have, 0 for as many as fit.
func (m Model) repeatsAsked() int {
	if m.Motif.ID == m.Learning.laidID {
		switch m.Learning.Mode {
		case InCourse:
			return m.Learning.Course.Line().Repeats
		case InWarmUp:
			return m.Learning.WarmUp.Block.Repeats
		}
	}
	return m.Settings.Repeats
}

// fixed tells whether a control chooses what the lesson chooses.
func (m Model) fixed(name string) bool {
	switch name {
	case "motif", "repeats", "rehearse.marks":
		return m.Leading()
	case "rehearse.strip", "rehearse.lead":
		return m.Learning.Mode == InCourse
	}
	return false
}

// attended does what the lesson has to do after each message; before is the event
// time of the last frame before it.
func (m Model) attended(before float64, effects []Effect) (Model, []Effect) {
	if m.Learning.Mode == Freely {
		return m, effects
	}
	m, more := m.warmed(m.LastFrame - before)
	effects = append(effects, more...)
	m, more = m.lessonLaid()
	return m, append(effects, more...)
}

// wanted returns what the lesson wants on the cloth.
func (m Model) wanted() lessonStep {
	switch l := m.Learning; l.Mode {
	case InCourse:
		return lessonStep{mode: InCourse, line: l.Course.Line().ID}
	case InWarmUp:
		return lessonStep{mode: InWarmUp, item: l.WarmUp.Item}
	}
	return lessonStep{mode: Freely}
}

// lessonLaid puts the line that the lesson wants on the cloth as soon as that is free.
// Where she has put another line there, the lesson is left.
func (m Model) lessonLaid() (Model, []Effect) {
	l := m.Learning
	if m.Place != Rehearse || m.Live != nil || l.Mode == Freely {
		return m, nil
	}
	if l.laid.mode == l.Mode && m.Motif.ID != l.laidID {
		return m.leaveLesson()
	}
	if m.Open != nil {
		return m, nil
	}
	m.Learning.Made = false
	if l.wants != "" {
		return m, nil
	}
	m, effects := m.unasked()
	if m.wanted() == l.laid {
		return m, effects
	}
	m, more := m.layLesson()
	return m, append(effects, more...)
}

// layLesson puts the line of the lesson on the cloth, or has it fetched.
func (m Model) layLesson() (Model, []Effect) {
	var line lesson.Line
	var mo motif.Rehearsal
	var ok bool
	l := m.Learning
	if l.Mode == InCourse {
		line = l.Course.Line()
		mo, ok = line.Motif()
	} else {
		line = l.WarmUp.Block
		mo, ok = l.WarmUp.Motif()
	}
	if !ok {
		if line.From == "" || line.Gone {
			return m.lineLost()
		}
		m.Learning.wants = line.From
		return m, []Effect{Fetch{ID: line.From}}
	}
	m.Motif, m.Repeats = mo, 0
	m.Learning.laid, m.Learning.laidID = m.wanted(), mo.ID
	m = m.listed(m.Records).clear()
	if l.Mode == InCourse && line.Repeats != m.Repeats {
		line.Repeats = m.Repeats
		return m.withCourse(l.Course.Lay(line))
	}
	return m, nil
}
