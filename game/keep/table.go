package keep

import (
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"time"

	"unthreaded/scoring"
	"unthreaded/scoring/progress"
	"unthreaded/scoring/trace"
)

// Table writes the measures of kept traces as a table (CSV), one row a trace, with
// the session that it belongs to. The measures are those of the needle speed and the
// stitch length with which it was traced; those of another version of the measures are
// made anew from the samples, so that no table holds two.
type Table struct {
	to      *scoring.Table
	session int
	end     float64 // of the last trace, in s since 1970
}

// NewTable begins a table and writes its headings.
func NewTable(w io.Writer) (*Table, error) {
	t, err := scoring.NewTable(w, "trace", "began [UTC]", "session [1]", "motif", "name", "repeats [1]", "way", "device", "ending", "zoom [1]")
	return &Table{to: t}, err
}

// Add writes the row of a record; records come in the order of their times. It fails
// on a document that is no record, and then writes nothing.
func (t *Table) Add(doc []byte) error {
	// The samples, by far the largest part, are passed over.
	var r struct {
		ID       string       `json:"id"`
		Started  int64        `json:"started"`
		Motif    string       `json:"motif"`
		Name     string       `json:"name"`
		Repeats  int          `json:"repeats"`
		Way      string       `json:"way"`
		Zoom     float64      `json:"zoom"`
		Device   trace.Device `json:"device"`
		Ending   trace.Ending `json:"ending"`
		Schema   int          `json:"schema"`
		Measures Measures     `json:"measures"`
	}
	if err := json.Unmarshal(doc, &r); err != nil {
		return fmt.Errorf("not a trace record: %w", err)
	}
	if r.Schema != Schema || r.Measures.Version != scoring.Version {
		whole, err := Decode(doc)
		if err == nil {
			err = whole.Measure()
		}
		if err != nil {
			return err
		}
		r.Measures = whole.Measures
	}
	at := float64(r.Started) / 1000
	if t.session == 0 || at-t.end > progress.Gap {
		t.session++
	}
	t.end = at + r.Measures.Figures[scoring.Seconds]
	figures := map[scoring.Code]scoring.Figure{}
	for code, v := range r.Measures.Figures {
		figures[code] = scoring.Figure{Value: v, Defined: true}
	}
	return t.to.Row(figures, r.ID, time.UnixMilli(r.Started).UTC().Format(time.RFC3339), strconv.Itoa(t.session),
		r.Motif, r.Name, strconv.Itoa(r.Repeats), r.Way, string(r.Device), string(r.Ending), strconv.FormatFloat(r.Zoom, 'g', 6, 64))
}

// Flush writes out what is still held back.
func (t *Table) Flush() error { return t.to.Flush() }
