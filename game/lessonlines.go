package game

import (
	"slices"
	"strings"

	"unthreaded/game/keep"
	"unthreaded/game/lesson"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// mixed is how many other lines a course starts to mix with.
const mixed = 3

// traced counts the kept traces of a line.
func (m Model) traced(id string) int {
	n := 0
	for _, s := range m.Records {
		if s.Motif == id {
			n++
		}
	}
	return n
}

// others returns the lines to mix with: those she traced last, then ready ones.
func (m Model) others(than string) []lesson.Line {
	var out []lesson.Line
	take := func(l lesson.Line) {
		known := slices.ContainsFunc(out, func(o lesson.Line) bool { return o.ID == l.ID })
		if !known && l.ID != than && len(out) < mixed && !strings.HasPrefix(l.ID, motif.ExercisePrefix) {
			l.Seen = m.traced(l.ID)
			out = append(out, l)
		}
	}
	for _, s := range m.Records {
		take(lesson.Line{ID: s.Motif, Name: s.Name, From: s.ID})
	}
	for _, r := range motif.ToRehearse() {
		name, _ := words.Motif(r.ID)
		take(lesson.Line{ID: r.ID, Name: name})
	}
	return out
}

// lineLost goes on without a line that cannot be had: a course mixes others, a warm-up
// ends with a ready motif.
func (m Model) lineLost() (Model, []Effect) {
	m.Learning.wants = ""
	if m.Learning.Mode == InWarmUp {
		w := *m.Learning.WarmUp
		ready, _ := lesson.Ready(m.Settings.Motif)
		w.Block = lesson.Line{ID: ready.ID, Name: ready.Name}
		return m.withWarmUp(w)
	}
	c := *m.Learning.Course
	for range 2 * len(c.Lines) {
		line := c.Line()
		if _, ok := line.Motif(); ok || line.From != "" && !line.Gone {
			return m.withCourse(c)
		}
		line.Gone = true
		c = c.Lay(line).Skip()
	}
	return m.leaveLesson()
}

// lineCame takes the kept trace that a line of the lesson is fetched from. Where the
// lesson has gone on meanwhile, nothing is done with it.
func (m Model) lineCame(f Fetched) (Model, []Effect) {
	m.Learning.wants = ""
	var path geom.Line
	rec, err := keep.Decode(f.Doc)
	if err == nil {
		path, err = rec.GeomLine()
	}
	gone := f.Err != "" || err != nil
	switch l := m.Learning; {
	case l.Mode == InCourse && l.Course.Asked == f.ID:
		return m.askedCame(rec, gone)
	case l.Mode == InWarmUp && l.WarmUp.Block.From == f.ID:
		if gone {
			return m.lineLost()
		}
		w := *l.WarmUp
		w.Block = w.Block.With(path)
		return m.withWarmUp(w)
	case l.Mode == InCourse && l.Course.Line().From == f.ID:
		line := l.Course.Line()
		line.Gone = gone
		if !gone {
			line = line.With(path)
		}
		c := l.Course.Lay(line)
		m.Learning.Course = &c
		if gone {
			return m.lineLost()
		}
		return m.withCourse(c)
	}
	return m, nil
}
