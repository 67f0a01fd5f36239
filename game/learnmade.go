package game

import (
	"slices"
	"strings"

	"unthreaded/game/lesson"
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
func (m Model) withCourse(c lesson.Course) (Model, []Effect) {
	m.Learning.Course = &c
	doc, err := lesson.EncodeCourse(c)
	if err != nil {
		m.Notice = Notice{Text: "The course could not be written down: " + err.Error() + "."}
		return m, nil
	}
	return m, []Effect{Keep{Thing: Thing{Kind: CourseThing, ID: m.Learning.courseID, Doc: doc}}}
}

// withWarmUp takes the warm-up on and has it kept.
func (m Model) withWarmUp(w lesson.WarmUp) (Model, []Effect) {
	m.Learning.WarmUp, m.Learning.keptAt = &w, w.Elapsed
	doc, err := lesson.EncodeWarmUp(w)
	if err != nil {
		m.Notice = Notice{Text: "The warm-up could not be written down: " + err.Error() + "."}
		return m, nil
	}
	return m, []Effect{Keep{Thing: Thing{Kind: WarmUpThing, ID: m.Learning.warmUpID, Doc: doc}}}
}

// warmed moves the clock of the warm-up on by dt seconds, unless the page was out of
// sight meanwhile. Her eyes are on the line while she traces: only then the clock on
// the page stands still.
func (m Model) warmed(dt float64) (Model, []Effect) {
	l := &m.Learning
	if l.Mode != InWarmUp || m.Place != Rehearse || dt <= 0 {
		return m, nil
	}
	if l.paused {
		l.paused = false
		return m, nil
	}
	before, _ := l.WarmUp.Stitches()
	w := l.WarmUp.Advance(min(dt, longestFrame), m.Clock(), m.Live != nil)
	after, _ := w.Stitches()
	turned := w.Item != l.WarmUp.Item
	l.WarmUp, l.ticked = &w, m.Live == nil && (after != before || turned)
	switch {
	case m.Live != nil:
		return m, nil
	case w.Over():
		return m.warmedUp()
	case turned:
		return m.clear().withWarmUp(w)
	case w.Elapsed-l.keptAt >= keepWarm:
		return m.withWarmUp(w)
	}
	return m, nil
}

// warmedUp ends the warm-up: the block stays on the cloth.
func (m Model) warmedUp() (Model, []Effect) {
	m.Learning.WarmUp = nil
	m.Learning.past = nil
	m, effects := m.leaveLesson()
	m.Notice = Notice{Text: "You are warm. Sew now, while the hand has it. The traces of the warm-up are kept, and none of them counts."}
	return m, append(effects, Discard{Kind: WarmUpThing, ID: m.Learning.warmUpID})
}

// leaveLesson goes back to tracing freely; where she was is kept. An exercise gives
// way to what she is about to sew.
func (m Model) leaveLesson() (Model, []Effect) {
	mode := m.Learning.Mode
	if mode == InWarmUp && strings.HasPrefix(m.Motif.ID, motif.ExercisePrefix) {
		w := m.Learning.WarmUp
		block, ok := lesson.Ready(m.Settings.Motif)
		if w != nil {
			if own, has := w.Block.Motif(); has {
				block, ok = own, true
			}
		}
		if ok {
			m.Motif, m.Repeats, m.Open, m.Over = block, 0, nil, nil
			m = m.listed(m.Records)
		}
	}
	m.Learning.Mode, m.Learning.Choosing = Freely, false
	m.Learning.Made = false
	m.Learning.laid, m.Learning.laidID = lessonStep{}, ""
	m = m.relaid()
	if mode == InCourse {
		c := m.Learning.Course.Ask("")
		c.On = false
		return m.withCourse(c)
	}
	if w := m.Learning.WarmUp; mode == InWarmUp && w != nil {
		next := *w
		next.On = false
		return m.withWarmUp(next)
	}
	return m, nil
}

// lessonPaused keeps the warm-up as the page goes out of sight.
func (m Model) lessonPaused() (Model, []Effect) {
	if m.Learning.Mode != InWarmUp {
		return m, nil
	}
	m.Learning.paused = true
	return m.withWarmUp(*m.Learning.WarmUp)
}

// lessonBegun takes up the step of the trace that begins. Tracing the same line once
// more, where another would be next, does its last step again.
func (m Model) lessonBegun() Model {
	l := &m.Learning
	l.Said, l.Was = "", ""
	if l.Mode != InCourse {
		l.Made = false
		return m
	}
	c := l.Course.Ask("")
	l.Course = &c
	if l.Made && l.Course.Line().ID != m.Motif.ID {
		c := l.Course.Again()
		l.Course = &c
	}
	l.Step, l.Made = m.NextStep(), false
	return m
}

// lessonMade takes the trace that has just been laid on the cloth into the lesson. A
// trace that is none of a course's own still warms the hand and tires it.
func (m Model) lessonMade(live *Live) (Model, []Effect) {
	l, sh := &m.Learning, m.Open
	at, seconds := m.Origin/1000+live.t0, sh.Duration()
	if l.Mode == InWarmUp {
		l.Made = true
		m, effects := m.withWarmUp(*l.WarmUp)
		m, more := m.tracedElsewhere(at, seconds)
		return m, append(effects, more...)
	}
	if l.Mode != InCourse || l.Course.Line().ID != m.Motif.ID {
		return m.tracedElsewhere(at, seconds)
	}
	share := 0.0
	if c := sh.Report.Coverage; sh.Unmeasured == "" && c.Defined && !m.Hasty() {
		share = c.Value
	}
	c, done, err := l.Course.Made(at, seconds, share)
	if err != nil {
		return m, nil // cannot be: the times of a trace are finite
	}
	l.Made = done
	if cv := sh.Report.Evenness.SpacingCV; done && l.Step.Guess && cv.Defined {
		c = c.Ask(sh.Rec.ID)
	}
	return m.withCourse(c)
}

func (m Model) tracedElsewhere(at, seconds float64) (Model, []Effect) {
	if m.Learning.Course == nil {
		return m, nil
	}
	c, err := m.Learning.Course.Elsewhere(at, seconds)
	if err != nil {
		return m, nil // cannot be: the times of a trace are finite
	}
	return m.withCourse(c)
}

// Hasty tells that the trace on the cloth was too fast to say how even it was, while a
// lesson leads: it is none of its steps.
func (m Model) Hasty() bool {
	if !m.Leading() || m.Open == nil || m.Live != nil || m.Open.Unmeasured != "" || m.Open.Report.Evenness.SpacingCV.Defined {
		return false
	}
	// The mean over the way, so that a rest at its end does not make it slow.
	var way, sum float64
	for _, v := range m.Open.Prep.Speed {
		way, sum = way+v, sum+v*v
	}
	return sum > (1+scoring.NearShare)*m.HandSpeed()*way
}

// unasked takes back that she is asked for the evenness of a trace.
func (m Model) unasked() (Model, []Effect) {
	if m.Learning.Mode != InCourse || m.Learning.Course.Asked == "" {
		return m, nil
	}
	return m.withCourse(m.Learning.Course.Ask(""))
}

// guessed takes what she says of the trace on the cloth; nothing where she would
// rather see.
func (m Model) guessed(band practice.Band) (Model, []Effect) {
	if !m.Guessing() {
		return m, nil
	}
	was := practice.BandOf(m.Open.Report.Evenness.SpacingCV.Value)
	if !slices.Contains(practice.Bands, band) {
		return m.unasked()
	}
	m.Learning.Said, m.Learning.Was = band, was
	return m.withCourse(m.Learning.Course.Said(band, was))
}
