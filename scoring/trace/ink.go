package trace

import (
	"fmt"
	"strings"
	"time"
)

// Ink is a trace as a file holds it: with the moment of its first sample and what
// else is said of it.
type Ink struct {
	Trace
	// Started is in ms since 1970 (UTC), 0 where the file does not say.
	Started float64
	Notes   []Note
	// Timeless tells that the file gives its points no times: they are a drawing, no
	// movement, and stand all at time 0.
	Timeless bool
}

// Note is an annotation of InkML: what kind of thing it says, and the text.
type Note struct{ Type, Text string }

// Of returns the text of the last note of that type, empty where there is none.
func (k Ink) Of(kind string) string {
	for i := len(k.Notes) - 1; i >= 0; i-- {
		if k.Notes[i].Type == kind {
			return k.Notes[i].Text
		}
	}
	return ""
}

// endingNote is the type of the annotation that tells how a trace ended.
const endingNote = "ending"

// maxNotes bounds the annotations that hold for a trace, so that a hostile file
// cannot fill the memory with them.
const maxNotes = 64

// moment returns the time of a timestamp in ms since 1970; known are those that stand
// before it.
func (t inkTime) moment(known map[string]float64) (ms float64, err error) {
	switch {
	case t.Time != "":
		ms, err = number(t.Time)
	case t.Text != "":
		var at time.Time
		if at, err = dateTime(strings.TrimSpace(t.Text)); err == nil {
			ms = float64(at.UnixMicro()) / 1000
		}
	case t.Ref != "":
		var ok bool
		if ms, ok = known[bare(t.Ref)]; !ok {
			err = fmt.Errorf("it refers to %q, which is not defined before", short(t.Ref))
		}
	}
	if err == nil && t.Offset != "" {
		var off float64
		off, err = number(t.Offset)
		ms += off
	}
	if err != nil {
		return 0, fmt.Errorf("a timestamp is not understood: %w", err)
	}
	return ms, nil
}

// dateTime reads an xsd:dateTime; one without a zone is of the place where it is read
// (XML Schema Part 2, 3.2.7, leaves it open).
func dateTime(text string) (time.Time, error) {
	at, err := time.Parse(time.RFC3339Nano, text)
	if err == nil {
		return at, nil
	}
	return time.ParseInLocation("2006-01-02T15:04:05.999999999", text, time.Local)
}
