package trace

import (
	"fmt"
	"strings"
)

func (d *inkReader) addFormat(f *inkFormat) {
	if f.ID != "" {
		d.formats[f.ID] = f
	}
}

func (d *inkReader) addSource(s *inkSource) {
	if s.ID != "" {
		d.sources[s.ID] = s
	}
	if s.Format != nil {
		d.addFormat(s.Format)
	}
}

// refer makes the context that ref names hold, if any.
func (d *inkReader) refer(state *inkState, ref string) error {
	if ref == "" {
		return nil
	}
	c, ok := d.contexts[bare(ref)]
	if !ok {
		return fmt.Errorf("context %q is not defined before it is used", short(ref))
	}
	c.ending, c.notes = state.ending, state.notes
	*state = c
	return nil
}

// annotate takes up what is said of the traces that follow.
func (s *inkState) annotate(a inkAnnotation) error {
	text := strings.TrimSpace(a.Text)
	if a.Type == endingNote {
		if end := Ending(text); end == Lifted || end == Interrupted {
			s.ending = end
		}
		return nil
	}
	if len(s.notes) == maxNotes {
		return fmt.Errorf("a trace has more than %d annotations", maxNotes)
	}
	// Groups side by side must not write over each other's notes.
	s.notes = append(s.notes[:len(s.notes):len(s.notes)], Note{Type: a.Type, Text: text})
	return nil
}

// timestamp returns a moment in ms since 1970; others may refer to it from here on.
func (d *inkReader) timestamp(t *inkTime) (float64, error) {
	ms, err := t.moment(d.moments)
	if err == nil && t.ID != "" {
		d.moments[t.ID] = ms
	}
	return ms, err
}

// context takes up a context: later traces are in it, and may refer to it.
func (d *inkReader) context(c inkContext, state *inkState) error {
	state.began = 0 // a moment is not handed on but by reference
	if err := d.refer(state, c.ContextRef); err != nil {
		return err
	}
	if c.SourceRef != "" {
		if state.source = d.sources[bare(c.SourceRef)]; state.source == nil {
			return fmt.Errorf("ink source %q is not defined before it is used", short(c.SourceRef))
		}
		state.format = state.source.Format
	}
	if c.Source != nil {
		d.addSource(c.Source)
		state.source, state.format = c.Source, c.Source.Format
	}
	if c.FormatRef != "" {
		if state.format = d.formats[bare(c.FormatRef)]; state.format == nil {
			return fmt.Errorf("trace format %q is not defined before it is used", short(c.FormatRef))
		}
	}
	if c.Format != nil {
		d.addFormat(c.Format)
		state.format = c.Format
	}
	if c.TimeRef != "" {
		c.Time = &inkTime{Ref: c.TimeRef}
	}
	if c.Time != nil {
		began, err := d.timestamp(c.Time)
		if err != nil {
			return err
		}
		state.began = began
	}
	if c.ID != "" {
		d.contexts[c.ID] = *state
	}
	return nil
}
