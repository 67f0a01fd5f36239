package lesson

import (
	"encoding/json"
	"fmt"

	"unthreaded/scoring/practice"
)

// Schema is the version of the documents that this program writes.
const Schema = 1

type courseDoc struct {
	Schema  int             `json:"schema"`
	On      bool            `json:"on"`
	Plan    json.RawMessage `json:"course"`
	Lines   []Line          `json:"lines"`
	Guessed int             `json:"guessed"`
	Right   int             `json:"right"`
	Asked   string          `json:"asked,omitempty"`
}

type warmUpDoc struct {
	Schema  int                 `json:"schema"`
	On      bool                `json:"on"`
	Items   []practice.Item     `json:"items"`
	Weak    []practice.WeakSpot `json:"weak"`
	Block   Line                `json:"block"`
	Elapsed float64             `json:"elapsed_s"`
	Item    int                 `json:"item"`
	At      float64             `json:"at_s"`
}

// EncodeCourse returns the course as a JSON document.
func EncodeCourse(c Course) ([]byte, error) {
	plan, err := practice.Encode(c.Plan)
	if err != nil {
		return nil, err
	}
	return json.Marshal(courseDoc{Schema, c.On, plan, c.Lines, c.Guessed, c.Right, c.Asked})
}

// DecodeCourse reads a course that EncodeCourse wrote and checks it whole.
func DecodeCourse(doc []byte) (Course, error) {
	var d courseDoc
	if err := json.Unmarshal(doc, &d); err != nil {
		return Course{}, fmt.Errorf("not a course: %w", err)
	}
	if err := known(d.Schema); err != nil {
		return Course{}, err
	}
	plan, err := practice.Decode(d.Plan)
	if err != nil {
		return Course{}, err
	}
	c := Course{d.On, plan, d.Lines, d.Guessed, d.Right, d.Asked}
	return c, c.validate()
}

func (c Course) validate() error {
	if len(c.Lines) != len(c.Plan.Motifs) {
		return fmt.Errorf("%d lines for %d motifs", len(c.Lines), len(c.Plan.Motifs))
	}
	for i, l := range c.Lines {
		if err := l.validate(); err != nil {
			return fmt.Errorf("line %d: %w", i, err)
		}
		if l.ID != c.Plan.Motifs[i].Name {
			return fmt.Errorf("line %d is %q, its motif %q", i, l.ID, c.Plan.Motifs[i].Name)
		}
	}
	if c.Right < 0 || c.Right > c.Guessed {
		return fmt.Errorf("%d of %d guesses were right", c.Right, c.Guessed)
	}
	return nil
}

// EncodeWarmUp returns the warm-up as a JSON document.
func EncodeWarmUp(w WarmUp) ([]byte, error) {
	if err := w.validate(); err != nil {
		return nil, err
	}
	return json.Marshal(warmUpDoc{Schema, w.On, w.Items, w.Weak, w.Block, w.Elapsed, w.Item, w.At})
}

// DecodeWarmUp reads a warm-up that EncodeWarmUp wrote and checks it whole.
func DecodeWarmUp(doc []byte) (WarmUp, error) {
	var d warmUpDoc
	if err := json.Unmarshal(doc, &d); err != nil {
		return WarmUp{}, fmt.Errorf("not a warm-up: %w", err)
	}
	if err := known(d.Schema); err != nil {
		return WarmUp{}, err
	}
	w := WarmUp{d.On, d.Items, d.Weak, d.Block, d.Elapsed, d.Item, d.At}
	return w, w.validate()
}

func known(schema int) error {
	switch {
	case schema > Schema:
		return fmt.Errorf("it was written by a newer version of this program (form %d, this one reads up to %d)", schema, Schema)
	case schema < 1:
		return fmt.Errorf("it names no form (schema %d)", schema)
	}
	return nil
}
