package quilt

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"

	"unthreaded/path/geom"
	"unthreaded/path/motif"
)

// ErrNewer marks a document that a newer version of the program wrote. The caller
// keeps it as it is.
var ErrNewer = errors.New("it was written by a newer version of this program")

// EncodeDesign returns the design as a document. It fails where Validate does.
func EncodeDesign(d Design) ([]byte, error) {
	d.Schema = DesignSchema
	return encode("design", d.ID, d, d.Validate)
}

// DecodeDesign reads a document and checks it whole; an error names the design and
// the field at fault, and is ErrNewer for a form that is not known yet. A member
// that the form does not have is an error too: it would be lost on writing.
func DecodeDesign(doc []byte) (Design, error) {
	var d Design
	if err := decode("design", doc, DesignSchema, &d); err != nil {
		return Design{}, err
	}
	if d.Recipe != nil {
		if m, known := motif.Find(d.Recipe.Pattern); known {
			d.Recipe.Pattern = m.ID // it may have had another
		}
	}
	if err := d.Validate(); err != nil {
		return Design{}, fmt.Errorf("design %q: %w", d.ID, err)
	}
	return d, nil
}

// EncodeQuilt returns the quilt as a document. It fails where Validate does.
func EncodeQuilt(q Quilt) ([]byte, error) {
	q.Schema = Schema
	return encode("quilt", q.ID, q, q.Validate)
}

// DecodeQuilt reads a document as DecodeDesign does.
func DecodeQuilt(doc []byte) (Quilt, error) {
	var q Quilt
	if err := decode("quilt", doc, Schema, &q); err != nil {
		return Quilt{}, err
	}
	q.Schema = Schema // form 1 is form 2 with no lines over its places
	if err := q.Validate(); err != nil {
		return Quilt{}, fmt.Errorf("quilt %q: %w", q.ID, err)
	}
	return q, nil
}

func encode(what, id string, v any, validate func() error) ([]byte, error) {
	if err := validate(); err != nil {
		return nil, fmt.Errorf("%s %q: %w", what, id, err)
	}
	doc, err := json.Marshal(v)
	if err != nil {
		return nil, fmt.Errorf("%s %q: %w", what, id, err)
	}
	return doc, nil
}

// decode reads doc into v. The number of its form comes first: a newer form may
// have any members.
func decode(what string, doc []byte, newest int, v any) error {
	var head struct {
		Schema int    `json:"schema"`
		ID     string `json:"id"`
	}
	if err := json.Unmarshal(doc, &head); err != nil {
		return fmt.Errorf("not a %s: %w", what, err)
	}
	if err := checkSchema(head.Schema, newest); err != nil {
		return fmt.Errorf("%s %q: %w", what, head.ID, err)
	}
	if err := strictly(doc, v); err != nil {
		return fmt.Errorf("%s %q: %w", what, head.ID, err)
	}
	return nil
}

// strictly reads one JSON value whose members v all has.
func strictly(doc []byte, v any) error {
	d := json.NewDecoder(bytes.NewReader(doc))
	d.DisallowUnknownFields()
	if err := d.Decode(v); err != nil {
		return err
	}
	if _, err := d.Token(); err != io.EOF {
		return errors.New("something follows the document")
	}
	return nil
}

func checkSchema(schema, newest int) error {
	switch {
	case schema > newest:
		return fmt.Errorf("schema: %w (form %d, this one reads up to %d)", ErrNewer, schema, newest)
	case schema < 1:
		return fmt.Errorf("schema: it names no form (%d)", schema)
	}
	return nil
}

func checkHead(schema, newest int, id, name string) error {
	if err := checkSchema(schema, newest); err != nil {
		return err
	}
	if id == "" || len(id) > MaxName {
		return fmt.Errorf("id: %d bytes, from 1 to %d are possible", len(id), MaxName)
	}
	if len(name) > MaxName {
		return fmt.Errorf("name: %d bytes, at most %d", len(name), MaxName)
	}
	return nil
}

// lineDoc is a Line as it is written: points as pairs.
type lineDoc struct {
	Name string       `json:"name"`
	Kind string       `json:"kind"`
	Path [][2]float64 `json:"path_mm"`
	Dots []float64    `json:"dots_mm,omitempty"`
}

// MarshalJSON writes the points as pairs of mm.
func (l Line) MarshalJSON() ([]byte, error) {
	doc := lineDoc{Name: l.Name, Kind: l.Kind, Path: make([][2]float64, len(l.Path)), Dots: l.Dots}
	for i, p := range l.Path {
		doc.Path[i] = [2]float64{p.X, p.Y}
	}
	return json.Marshal(doc)
}

// UnmarshalJSON reads what MarshalJSON writes.
func (l *Line) UnmarshalJSON(data []byte) error {
	var doc lineDoc
	if err := strictly(data, &doc); err != nil {
		return err
	}
	*l = Line{Name: doc.Name, Kind: doc.Kind, Path: make(geom.Spline, len(doc.Path)), Dots: doc.Dots}
	for i, p := range doc.Path {
		l.Path[i] = geom.Pt(p[0], p[1])
	}
	return nil
}

func sortedKeys[K ~string, V any](m map[K]V) []K { return slices.Sorted(maps.Keys(m)) }
