package rehearse

import (
	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/place/rehearse/lesson"
	"unthreaded/game/replay"
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

// Leading tells whether a lesson leads: what it chooses cannot be chosen by hand.
func (r Room) Leading() bool { return r.Learning.Mode != Freely }

// NextStep returns the step of the course that comes next.
func (r Room) NextStep() practice.Step { return r.Learning.Course.Step(r.Seconds()) }

// Guessing tells whether she is asked how even the trace on the cloth was: until she
// has said it, nothing gives it away.
func (r Room) Guessing() bool {
	l := r.Learning
	return r.Open != nil && r.Live == nil && l.Mode == InCourse && l.Course.Asked == r.Open.Rec.ID
}

// Unveiled returns the trace on the cloth whose measures may be seen.
func (r Room) Unveiled() *replay.Sheet {
	if r.Guessing() {
		return nil
	}
	return r.Open
}

// HandSpeed returns the speed of the hand in mm/s that is asked for: that of her own
// needle, in a warm-up times the tempo of the minute.
func (r Room) HandSpeed() float64 { return r.Settings.StitchMM * r.spm() / 60 }

func (r Room) spm() float64 {
	if r.Learning.Mode != InWarmUp || r.Motif.ID != r.Learning.laidID {
		return r.Settings.SPM
	}
	return place.Within(r.Settings.SPM*r.Learning.WarmUp.Now().Tempo, machine.NeedleSpeed.Min, machine.NeedleSpeed.Max)
}

// guideAsked returns what will help the hand: what she chose, less what the lesson
// takes away.
func (r Room) guideAsked() keep.Guide {
	g := r.Settings.Guide.Known()
	switch r.Learning.Mode {
	case InWarmUp:
		g.Marks = keep.WholeLine
	case InCourse:
		g = lesson.Guide(r.NextStep(), g)
	}
	return g
}

// repeatsAsked returns how many repeats the row shall have, 0 for as many as fit.
func (r Room) repeatsAsked() int {
	if r.Motif.ID == r.Learning.laidID {
		switch r.Learning.Mode {
		case InCourse:
			return r.Learning.Course.Line().Repeats
		case InWarmUp:
			return r.Learning.WarmUp.Block.Repeats
		}
	}
	return r.Settings.Repeats
}

// fixed tells whether a control chooses what the lesson chooses.
func (r Room) fixed(name string) bool {
	switch name {
	case "motif", "repeats", "marks":
		return r.Leading()
	case "strip", "lead":
		return r.Learning.Mode == InCourse
	}
	return false
}

// wanted returns what the lesson wants on the cloth.
func (r Room) wanted() lessonStep {
	switch l := r.Learning; l.Mode {
	case InCourse:
		return lessonStep{mode: InCourse, line: l.Course.Line().ID}
	case InWarmUp:
		return lessonStep{mode: InWarmUp, item: l.WarmUp.Item}
	}
	return lessonStep{mode: Freely}
}

// lessonLaid puts the line that the lesson wants on the cloth as soon as that is free.
// Where she has put another line there, the lesson is left.
func (r Room) lessonLaid() (Room, []place.Effect) {
	l := r.Learning
	if r.Place != place.Rehearse || r.Live != nil || l.Mode == Freely {
		return r, nil
	}
	if l.laid.mode == l.Mode && r.Motif.ID != l.laidID {
		return r.leaveLesson()
	}
	if r.Open != nil {
		return r, nil
	}
	r.Learning.Made = false
	if l.wants != "" {
		return r, nil
	}
	r, effects := r.unasked()
	if r.wanted() == l.laid {
		return r, effects
	}
	r, more := r.layLesson()
	return r, append(effects, more...)
}

// layLesson puts the line of the lesson on the cloth, or has it fetched.
func (r Room) layLesson() (Room, []place.Effect) {
	var line lesson.Line
	var mo motif.Rehearsal
	var ok bool
	l := r.Learning
	if l.Mode == InCourse {
		line = l.Course.Line()
		mo, ok = line.Motif()
	} else {
		line = l.WarmUp.Block
		mo, ok = l.WarmUp.Motif()
	}
	if !ok {
		if line.From == "" || line.Gone {
			return r.lineLost()
		}
		r.Learning.wants = line.From
		return r, []place.Effect{place.Fetch{ID: line.From}}
	}
	r.Motif, r.Repeats = mo, 0
	r.Learning.laid, r.Learning.laidID = r.wanted(), mo.ID
	r = r.cleared()
	if l.Mode == InCourse && line.Repeats != r.Repeats {
		line.Repeats = r.Repeats
		return r.withCourse(l.Course.Lay(line))
	}
	return r, nil
}
