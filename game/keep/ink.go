package keep

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"

	"unthreaded/scoring/trace"
)

// elsewhere are the parts of a record that InkML has a place of its own for, or that
// follow from the rest.
var elsewhere = []string{"schema", "started", "device", "ending", "pixel_mm", "clock_step_s", "holds", "samples", "measures"}

// Ink returns the record as a trace with annotations: each part of the document that
// InkML has no place for is one, named as in the document, a text as it is and all
// else as JSON.
func (r Record) Ink() (trace.Ink, error) {
	k := trace.Ink{Trace: r.Trace(), Started: float64(r.Started)}
	doc, err := Encode(r)
	if err != nil {
		return k, err
	}
	var parts map[string]json.RawMessage
	if err := json.Unmarshal(doc, &parts); err != nil {
		return k, fmt.Errorf("record %s: %w", r.ID, err)
	}
	for _, name := range slices.Sorted(maps.Keys(parts)) {
		if slices.Contains(elsewhere, name) {
			continue
		}
		text := string(parts[name])
		var plain string
		if json.Unmarshal(parts[name], &plain) == nil {
			text = plain
		}
		k.Notes = append(k.Notes, trace.Note{Type: name, Text: text})
	}
	return k, nil
}

// FromInk returns the record that a trace was written from, without its measures. It
// fails where the annotations do not give a whole record, as with a file of another
// program; what is returned then has the samples only.
func FromInk(k trace.Ink) (Record, error) {
	bare := Record{Schema: Schema, Started: int64(k.Started)}
	bare.SetTrace(k.Trace)
	r := bare
	for _, n := range k.Notes {
		if slices.Contains(elsewhere, n.Type) {
			continue
		}
		if err := r.set(n.Type, n.Text); err != nil {
			return bare, err
		}
	}
	if err := r.validate(); err != nil {
		return bare, fmt.Errorf("record %q: %w", r.ID, err)
	}
	return r, nil
}

// set sets the part of that name, if there is one, from its text.
func (r *Record) set(name, text string) error {
	doc, err := json.Marshal(map[string]string{name: text})
	if err != nil {
		return err
	}
	if json.Unmarshal(doc, r) == nil {
		return nil
	}
	// It is no text, then.
	doc, err = json.Marshal(map[string]json.RawMessage{name: json.RawMessage(text)})
	if err == nil {
		err = json.Unmarshal(doc, r)
	}
	if err != nil {
		return fmt.Errorf("annotation %s: %w", name, err)
	}
	return nil
}
