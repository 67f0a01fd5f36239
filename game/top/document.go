package top

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"unthreaded/path/quilt"
)

// documentSchema is the number of the form in which a quilt is written together with
// its designs. A change of the form takes a new number and a step in Decode.
const documentSchema = 1

// document is a quilt with the designs that lie in it.
type document struct {
	Schema  int               `json:"schema"`
	Quilt   json.RawMessage   `json:"quilt"`
	Designs []json.RawMessage `json:"designs"`
}

// Encode returns the quilt with the designs that lie in it as one document. Photos
// stay in the browser that they were chosen in.
func (t Top) Encode() ([]byte, error) {
	q, err := quilt.EncodeQuilt(t.Quilt)
	if err != nil {
		return nil, err
	}
	doc := document{Schema: documentSchema, Quilt: q, Designs: []json.RawMessage{}}
	for _, id := range used(t.Quilt) {
		d, known := t.designs[id]
		if !known {
			continue
		}
		d.Photo = nil
		text, err := quilt.EncodeDesign(d)
		if err != nil {
			return nil, err
		}
		doc.Designs = append(doc.Designs, text)
	}
	return json.Marshal(doc)
}

// used returns the ids of the designs that a quilt names, in order.
func used(q quilt.Quilt) []string {
	var out []string
	add := func(c quilt.Choice) {
		if c.Design != "" && !slices.Contains(out, c.Design) {
			out = append(out, c.Design)
		}
	}
	for _, c := range q.ByKind {
		add(c)
	}
	for _, c := range q.ByCell {
		add(c)
	}
	slices.Sort(out)
	return out
}

// Decode reads what Encode writes and checks it whole.
func Decode(doc []byte) (quilt.Quilt, []quilt.Design, error) {
	var d document
	dec := json.NewDecoder(bytes.NewReader(doc))
	if err := dec.Decode(&d); err != nil {
		return quilt.Quilt{}, nil, fmt.Errorf("it is no JSON document: %w", err)
	}
	switch {
	case d.Schema > documentSchema:
		return quilt.Quilt{}, nil, quilt.ErrNewer
	case d.Schema < 1 || len(d.Quilt) == 0:
		return quilt.Quilt{}, nil, errors.New("it is no quilt that this page saved")
	}
	q, err := quilt.DecodeQuilt(d.Quilt)
	if err != nil {
		return quilt.Quilt{}, nil, fmt.Errorf("quilt: %w", err)
	}
	var designs []quilt.Design
	for i, text := range d.Designs {
		one, err := quilt.DecodeDesign(text)
		if err != nil {
			return quilt.Quilt{}, nil, fmt.Errorf("designs[%d]: %w", i, err)
		}
		one.Photo = nil
		designs = append(designs, one)
	}
	return q, designs, nil
}

// Renamed returns the quilt with other ids for its designs, as after some had to
// take a free one.
func Renamed(q quilt.Quilt, ids map[string]string) quilt.Quilt {
	name := func(c quilt.Choice) quilt.Choice {
		if to, ok := ids[c.Design]; ok {
			c.Design = to
		}
		return c
	}
	kinds, cells := q.ByKind, q.ByCell
	q.ByKind, q.ByCell = map[quilt.Kind]quilt.Choice{}, map[string]quilt.Choice{}
	for k, c := range kinds {
		q.ByKind[k] = name(c)
	}
	for id, c := range cells {
		q.ByCell[id] = name(c)
	}
	return q
}
