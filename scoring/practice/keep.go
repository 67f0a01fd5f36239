package practice

import (
	"encoding/json"
	"fmt"
	"math"
	"unicode/utf8"
)

// Schema is the version of the form in which a course is kept.
const Schema = 1

// mostTraces bounds all counts: a trace a minute, day and night, for two hundred years.
const mostTraces = 100_000_000

// Encode returns the course as a JSON document.
func Encode(c Course) ([]byte, error) {
	if err := c.Validate(); err != nil {
		return nil, err
	}
	return json.Marshal(c)
}

// Decode reads a course that Encode wrote and checks it whole.
func Decode(doc []byte) (Course, error) {
	var c Course
	if err := json.Unmarshal(doc, &c); err != nil {
		return Course{}, fmt.Errorf("not a course: %w", err)
	}
	if err := c.Validate(); err != nil {
		return Course{}, err
	}
	return c, nil
}

// Validate names the first thing that is wrong with a course, so that Next and Done
// can rely on the rest.
func (c Course) Validate() error {
	if c.Schema != Schema {
		return fmt.Errorf("a course of form %d, this program knows form %d", c.Schema, Schema)
	}
	if err := c.validateMotifs(); err != nil {
		return err
	}
	n := len(c.Motifs)
	if c.Current < 0 || c.Current >= n {
		return fmt.Errorf("motif %d comes next, there are %d", c.Current, n)
	}
	if c.Mixed < 0 || c.Before.Mixed < 0 || max(c.Mixed, c.Before.Mixed) > mostTraces {
		return fmt.Errorf("a mix of %d traces, before it %d", c.Mixed, c.Before.Mixed)
	}
	switch b := c.Before; {
	case b.Motif < -1 || b.Motif >= n:
		return fmt.Errorf("motif %d was the last, there are %d", b.Motif, n)
	case b.Motif >= 0 && (b.Done < 0 || b.Done > c.Motifs[b.Motif].Row):
		return fmt.Errorf("the last trace came after %d of %d in a row", b.Done, c.Motifs[b.Motif].Row)
	}
	s := c.Sitting
	if math.IsNaN(s.From+s.To) || math.IsInf(s.From+s.To, 0) || !(s.From <= s.Rested && s.Rested <= s.To) || s.Traces < 0 || s.Traces > mostTraces || s.Mixed < 0 || s.Mixed > s.Traces {
		return fmt.Errorf("a sitting of %d traces from %v s, rested at %v s, to %v s", s.Traces, s.From, s.Rested, s.To)
	}
	return nil
}

func (c Course) validateMotifs() error {
	if len(c.Motifs) == 0 {
		return fmt.Errorf("a course without motifs")
	}
	seen := map[string]bool{}
	for i, m := range c.Motifs {
		switch {
		case m.Name == "" || !utf8.ValidString(m.Name):
			return fmt.Errorf("motif %d: the name %q is empty or no text", i, m.Name)
		case seen[m.Name]:
			return fmt.Errorf("motif %d: %q comes twice", i, m.Name)
		case m.Row < LeastRow || m.Row > MostRow:
			return fmt.Errorf("motif %d (%s): a row of %d traces, it takes %d to %d", i, m.Name, m.Row, LeastRow, MostRow)
		case m.Done < 0 || m.Done > m.Row:
			return fmt.Errorf("motif %d (%s): %d of %d traces in a row", i, m.Name, m.Done, m.Row)
		case m.Traces < 0 || m.Traces > mostTraces:
			return fmt.Errorf("motif %d (%s): %d traces", i, m.Name, m.Traces)
		}
		seen[m.Name] = true
	}
	return nil
}
