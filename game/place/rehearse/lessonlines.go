package rehearse

import (
	"slices"
	"strings"

	"unthreaded/game/keep"
	"unthreaded/game/place"
	"unthreaded/game/place/rehearse/lesson"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// mixed is how many other lines a course starts to mix with.
const mixed = 3

// traced counts the kept traces of a line.
func (r Room) traced(id string) int {
	n := 0
	for _, s := range r.Records {
		if s.Motif == id {
			n++
		}
	}
	return n
}

// others returns the lines to mix with: those she traced last, then ready ones.
func (r Room) others(than string) []lesson.Line {
	var out []lesson.Line
	take := func(l lesson.Line) {
		known := slices.ContainsFunc(out, func(o lesson.Line) bool { return o.ID == l.ID })
		if !known && l.ID != than && len(out) < mixed && !strings.HasPrefix(l.ID, motif.ExercisePrefix) {
			l.Seen = r.traced(l.ID)
			out = append(out, l)
		}
	}
	for _, s := range r.Records {
		take(lesson.Line{ID: s.Motif, Name: s.Name, From: s.ID})
	}
	for _, mo := range motif.ToRehearse() {
		name, _ := words.Motif(mo.ID)
		take(lesson.Line{ID: mo.ID, Name: name})
	}
	return out
}

// lineLost goes on without a line that cannot be had: a course mixes others, a warm-up
// ends with a ready motif.
func (r Room) lineLost() (Room, []place.Effect) {
	r.Learning.wants = ""
	if r.Learning.Mode == InWarmUp {
		w := *r.Learning.WarmUp
		ready, _ := lesson.Ready(r.Settings.Motif)
		w.Block = lesson.Line{ID: ready.ID, Name: ready.Name}
		return r.withWarmUp(w)
	}
	c := *r.Learning.Course
	for range 2 * len(c.Lines) {
		line := c.Line()
		if _, ok := line.Motif(); ok || line.From != "" && !line.Gone {
			return r.withCourse(c)
		}
		line.Gone = true
		c = c.Lay(line).Skip()
	}
	return r.leaveLesson()
}

// lineCame takes the kept trace that a line of the lesson is fetched from. Where the
// lesson has gone on meanwhile, nothing is done with it.
func (r Room) lineCame(f place.Fetched) (Room, []place.Effect) {
	r.Learning.wants = ""
	var path geom.Line
	rec, err := keep.Decode(f.Doc)
	if err == nil {
		path, err = rec.GeomLine()
	}
	gone := f.Err != "" || err != nil
	switch l := r.Learning; {
	case l.Mode == InCourse && l.Course.Asked == f.ID:
		return r.askedCame(rec, gone)
	case l.Mode == InWarmUp && l.WarmUp.Block.From == f.ID:
		if gone {
			return r.lineLost()
		}
		w := *l.WarmUp
		w.Block = w.Block.With(path)
		return r.withWarmUp(w)
	case l.Mode == InCourse && l.Course.Line().From == f.ID:
		line := l.Course.Line()
		line.Gone = gone
		if !gone {
			line = line.With(path)
		}
		c := l.Course.Lay(line)
		r.Learning.Course = &c
		if gone {
			return r.lineLost()
		}
		return r.withCourse(c)
	}
	return r, nil
}
