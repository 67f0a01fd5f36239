package top

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"

	"unthreaded/path/quilt"
	"unthreaded/path/quilt/order"
)

// documentSchema is the number of the form in which a quilt is written together with
// its designs. A change of the form takes a new number and a step in Decode.
const documentSchema = 2

// document is a quilt with the designs that lie in it and, from form 2 on, what was
// decided about its order and what is sewn so far.
type document struct {
	Schema  int               `json:"schema"`
	Quilt   json.RawMessage   `json:"quilt"`
	Designs []json.RawMessage `json:"designs"`
	Choices json.RawMessage   `json:"order,omitempty"`
	Sewn    json.RawMessage   `json:"sewn,omitempty"`
}

// Saved is what a saved quilt holds.
type Saved struct {
	Quilt   quilt.Quilt
	Designs []quilt.Design
	Choices order.Choices
	Sewn    order.Sewn
}

// Encode returns the quilt with the designs that lie in it as one document. Photos
// stay in the browser that they were chosen in.
func (t Top) Encode() ([]byte, error) {
	q, err := quilt.EncodeQuilt(t.Quilt)
	if err != nil {
		return nil, err
	}
	doc := document{Schema: documentSchema, Quilt: q, Designs: []json.RawMessage{}}
	for _, id := range t.Quilt.DesignIDs() {
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
	if doc.Choices, err = t.Plan.Choices.Encode(); err != nil {
		return nil, err
	}
	if doc.Sewn, err = t.Plan.Sewn.Encode(); err != nil {
		return nil, err
	}
	return json.Marshal(doc)
}

// Decode reads what Encode writes, or wrote in form 1, and checks it whole.
func Decode(doc []byte) (Saved, error) {
	var d document
	dec := json.NewDecoder(bytes.NewReader(doc))
	if err := dec.Decode(&d); err != nil {
		return Saved{}, fmt.Errorf("it is no JSON document: %w", err)
	}
	switch {
	case d.Schema > documentSchema:
		return Saved{}, quilt.ErrNewer
	case d.Schema < 1 || len(d.Quilt) == 0:
		return Saved{}, errors.New("it is no quilt that this page saved")
	}
	var out Saved
	var err error
	if out.Quilt, err = quilt.DecodeQuilt(d.Quilt); err != nil {
		return Saved{}, fmt.Errorf("quilt: %w", err)
	}
	for i, text := range d.Designs {
		one, err := quilt.DecodeDesign(text)
		if err != nil {
			return Saved{}, fmt.Errorf("designs[%d]: %w", i, err)
		}
		one.Photo = nil
		out.Designs = append(out.Designs, one)
	}
	return out, d.plan(&out)
}

// plan reads choices and ticks; a document of form 1 has none.
func (d document) plan(out *Saved) (err error) {
	if len(d.Choices) > 0 {
		if out.Choices, err = order.DecodeChoices(d.Choices); err != nil {
			return err
		}
	}
	if len(d.Sewn) > 0 {
		out.Sewn, err = order.DecodeSewn(d.Sewn)
	}
	return err
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
