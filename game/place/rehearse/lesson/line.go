// Package lesson is practice from trace to trace: a course that takes the guide away
// step by step and then mixes lines, and a warm-up before sewing. It holds what
// scoring/practice plans together with the lines that are traced, and is kept as
// documents. It knows no screen; times come in.
package lesson

import (
	"fmt"

	"unthreaded/game/keep"
	"unthreaded/game/words"
	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// Line is a line to trace: a ready motif by its ID, or one of her own with its path.
type Line struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	// Repeats is how many stand in the row, 0 as many as fit.
	Repeats int `json:"repeats,omitempty"`
	// Seen is how many traces of it there were when it came into the course.
	Seen int `json:"seen,omitempty"`
	// Taught tells that it is or was learnt in a row, not only mixed in.
	Taught bool `json:"taught,omitempty"`
	// Path is that of a line of her own; nil for a ready motif, and for a line that is
	// kept with the trace From and has yet to be fetched.
	Path *keep.LineDoc `json:"path,omitempty"`
	From string        `json:"from,omitempty"`
	// Gone tells that the line could not be fetched.
	Gone bool `json:"gone,omitempty"`
}

// Ready returns a ready motif to be rehearsed, named, by its ID; false means that there
// is none.
func Ready(id string) (motif.Rehearsal, bool) {
	m, ok := motif.Find(id)
	if !ok {
		return motif.Rehearsal{}, false
	}
	return named(m.Rehearsal()), true
}

func named(r motif.Rehearsal) motif.Rehearsal {
	r.Name, r.Note = words.Motif(r.ID)
	return r
}

// LineOf returns the motif as it lies on the cloth, as l, with so many repeats.
func LineOf(m motif.Rehearsal, repeats int, l geom.Line) Line {
	out := Line{ID: m.ID, Name: m.Name, Repeats: repeats}
	if _, ready := motif.Find(m.ID); ready {
		return out
	}
	return out.With(l)
}

// With returns the line with its path.
func (l Line) With(path geom.Line) Line {
	var rec keep.Record
	rec.SetLine(path)
	l.Path, l.From, l.Gone = &rec.Line, "", false
	return l
}

// Motif returns what is to be laid on the cloth; false means that it has to be fetched
// first, or cannot be had.
func (l Line) Motif() (motif.Rehearsal, bool) {
	if l.Path == nil {
		return Ready(l.ID)
	}
	path, err := keep.Record{Line: *l.Path}.GeomLine()
	if err != nil {
		return motif.Rehearsal{}, false // cannot be: validate has read it
	}
	return motif.Of(l.ID, l.Name, "", path), true
}

func (l Line) validate() error {
	switch {
	case l.ID == "":
		return fmt.Errorf("it has no id")
	case l.Repeats < 0 || l.Seen < 0:
		return fmt.Errorf("%d repeats, seen %d times", l.Repeats, l.Seen)
	case l.Path == nil:
		return nil
	}
	if _, err := (keep.Record{Line: *l.Path}).GeomLine(); err != nil {
		return fmt.Errorf("its path: %w", err)
	}
	return nil
}
