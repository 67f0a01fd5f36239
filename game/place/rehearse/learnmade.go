package rehearse

import (
	"slices"
	"strings"

	"unthreaded/game/control"
	"unthreaded/game/place"
	"unthreaded/game/place/rehearse/lesson"
	"unthreaded/path/motif"
	"unthreaded/scoring"
	"unthreaded/scoring/practice"
)

// keepWarm is how many seconds of a warm-up go by before it is kept again, and
// longestFrame the most that one frame may count, so that a page which stood still
// does not use her minutes up.
const (
	keepWarm     = 10.0
	longestFrame = 5.0
)

// withCourse takes the course on and has it kept.
func (r Room) withCourse(c lesson.Course) (Room, []place.Effect) {
	r.Learning.Course = &c
	doc, err := lesson.EncodeCourse(c)
	if err != nil {
		r.Notice = place.Say("rehearse.course-unwritten")
		return r, nil
	}
	return r, []place.Effect{place.Keep{Thing: place.Thing{Kind: place.CourseThing, ID: r.Learning.courseID, Doc: doc}}}
}

// withWarmUp takes the warm-up on and has it kept.
func (r Room) withWarmUp(w lesson.WarmUp) (Room, []place.Effect) {
	r.Learning.WarmUp, r.Learning.keptAt = &w, w.Elapsed
	doc, err := lesson.EncodeWarmUp(w)
	if err != nil {
		r.Notice = place.Say("rehearse.warm-up-unwritten")
		return r, nil
	}
	return r, []place.Effect{place.Keep{Thing: place.Thing{Kind: place.WarmUpThing, ID: r.Learning.warmUpID, Doc: doc}}}
}

// warmed moves the clock of the warm-up on by dt seconds, unless the page was out of
// sight meanwhile. Her eyes are on the line while she traces: only then the clock on
// the page stands still.
func (r Room) warmed(dt float64) (Room, []place.Effect) {
	l := &r.Learning
	if l.Mode != InWarmUp || dt <= 0 {
		return r, nil
	}
	if l.paused {
		l.paused = false
		return r, nil
	}
	before, _ := l.WarmUp.Stitches()
	w := l.WarmUp.Advance(min(dt, longestFrame), r.Seconds(), r.Live != nil)
	after, _ := w.Stitches()
	turned := w.Item != l.WarmUp.Item
	l.WarmUp, l.ticked = &w, r.Live == nil && (after != before || turned)
	switch {
	case r.Live != nil:
		return r, nil
	case w.Over():
		return r.warmedUp()
	case turned:
		return r.cleared().withWarmUp(w)
	case w.Elapsed-l.keptAt >= keepWarm:
		return r.withWarmUp(w)
	}
	return r, nil
}

// warmedUp ends the warm-up: the block stays on the cloth.
func (r Room) warmedUp() (Room, []place.Effect) {
	r.Learning.WarmUp = nil
	r.Learning.past = nil
	r, effects := r.leaveLesson()
	r.Notice = place.Say("rehearse.warm")
	return r, append(effects, place.Discard{Kind: place.WarmUpThing, ID: r.Learning.warmUpID})
}

// leaveLesson goes back to tracing freely; where she was is kept. An exercise gives
// way to what she is about to sew.
func (r Room) leaveLesson() (Room, []place.Effect) {
	mode := r.Learning.Mode
	if mode == InWarmUp && strings.HasPrefix(r.Motif.ID, motif.ExercisePrefix) {
		w := r.Learning.WarmUp
		block, ok := lesson.Ready(r.Settings.Motif)
		if w != nil {
			if own, has := w.Block.Motif(); has {
				block, ok = own, true
			}
		}
		if ok {
			r = r.withMotif(block)
			r.Open, r.Over = nil, nil
		}
	}
	r.Learning.Mode, r.Learning.Choosing = Freely, false
	r.Learning.Made = false
	r.Learning.laid, r.Learning.laidID = lessonStep{}, ""
	r = r.fitted()
	if mode == InCourse {
		c := r.Learning.Course.Ask("")
		c.On = false
		return r.withCourse(c)
	}
	if w := r.Learning.WarmUp; mode == InWarmUp && w != nil {
		next := *w
		next.On = false
		return r.withWarmUp(next)
	}
	return r, nil
}

// lessonPaused keeps the warm-up as the page goes out of sight.
func (r Room) lessonPaused() (Room, []place.Effect) {
	if r.Learning.Mode != InWarmUp {
		return r, nil
	}
	r.Learning.paused = true
	return r.withWarmUp(*r.Learning.WarmUp)
}

// lessonBegun takes up the step of the trace that begins. Tracing the same line once
// more, where another would be next, does its last step again.
func (r Room) lessonBegun() Room {
	l := &r.Learning
	l.Said, l.Was = "", ""
	if l.Mode != InCourse {
		l.Made = false
		return r
	}
	c := l.Course.Ask("")
	l.Course = &c
	if l.Made && l.Course.Line().ID != r.Motif.ID {
		c := l.Course.Again()
		l.Course = &c
	}
	l.Step, l.Made = r.NextStep(), false
	return r
}

// lessonMade takes the trace that has just been laid on the cloth into the lesson. A
// trace that is none of a course's own still warms the hand and tires it.
func (r Room) lessonMade(live *Live) (Room, []place.Effect) {
	l, sh := &r.Learning, r.Open
	at, seconds := r.Origin/1000+live.t0, sh.Duration()
	if l.Mode == InWarmUp {
		l.Made = true
		r, effects := r.withWarmUp(*l.WarmUp)
		r, more := r.tracedElsewhere(at, seconds)
		return r, append(effects, more...)
	}
	if l.Mode != InCourse || l.Course.Line().ID != r.Motif.ID {
		return r.tracedElsewhere(at, seconds)
	}
	share := 0.0
	if c := sh.Report.Coverage; sh.Unmeasured == nil && c.Defined && !r.Hasty() {
		share = c.Value
	}
	c, done, err := l.Course.Made(at, seconds, share)
	if err != nil {
		return r, nil // cannot be: the times of a trace are finite
	}
	l.Made = done
	if cv := sh.Report.Evenness.SpacingCV; done && l.Step.Guess && cv.Defined {
		c = c.Ask(sh.Rec.ID)
	}
	return r.withCourse(c)
}

func (r Room) tracedElsewhere(at, seconds float64) (Room, []place.Effect) {
	if r.Learning.Course == nil {
		return r, nil
	}
	c, err := r.Learning.Course.Elsewhere(at, seconds)
	if err != nil {
		return r, nil // cannot be: the times of a trace are finite
	}
	return r.withCourse(c)
}

// Hasty tells that the trace on the cloth was too fast to say how even it was, while a
// lesson leads: it is none of its steps.
func (r Room) Hasty() bool {
	if !r.Leading() || r.Open == nil || r.Live != nil || r.Open.Unmeasured != nil || r.Open.Report.Evenness.SpacingCV.Defined {
		return false
	}
	// The mean over the way, so that a rest at its end does not make it slow.
	var way, sum float64
	for _, v := range r.Open.Prep.Speed {
		way, sum = way+v, sum+v*v
	}
	return sum > (1+scoring.NearShare)*r.HandSpeed()*way
}

// unasked takes back that she is asked for the evenness of a trace.
func (r Room) unasked() (Room, []place.Effect) {
	if r.Learning.Mode != InCourse || r.Learning.Course.Asked == "" {
		return r, nil
	}
	return r.withCourse(r.Learning.Course.Ask(""))
}

// guessed takes what she says of the trace on the cloth; nothing where she would
// rather see.
func (r Room) guessed(e control.Event) (Room, []place.Effect) {
	if !r.Guessing() {
		return r, nil
	}
	band, was := practice.Band(e.Text), practice.BandOf(r.Open.Report.Evenness.SpacingCV.Value)
	if !slices.Contains(practice.Bands, band) {
		return r.unasked()
	}
	r.Learning.Said, r.Learning.Was = band, was
	return r.withCourse(r.Learning.Course.Said(band, was))
}
