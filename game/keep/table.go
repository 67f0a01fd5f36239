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
// stitch length with which it was traced.
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
		ID      string         `json:"id"`
		Started int64          `json:"started"`
		Motif   string         `json:"motif"`
		Name    string         `json:"name"`
		Repeats int            `json:"repeats"`
		Way     string         `json:"way"`
		Zoom    float64        `json:"zoom"`
		Device  trace.Device   `json:"device"`
		Ending  trace.Ending   `json:"ending"`
		Report  scoring.Report `json:"measures"`
	}
	if err := json.Unmarshal(doc, &r); err != nil {
		return fmt.Errorf("not a trace record: %w", err)
	}
	at := float64(r.Started) / 1000
	if t.session == 0 || at-t.end > progress.Gap {
		t.session++
	}
	t.end = at + r.Report.Duration
	return t.to.Row(r.Report, r.ID, time.UnixMilli(r.Started).UTC().Format(time.RFC3339), strconv.Itoa(t.session),
		r.Motif, r.Name, strconv.Itoa(r.Repeats), r.Way, string(r.Device), string(r.Ending), strconv.FormatFloat(r.Zoom, 'g', 6, 64))
}

// Flush writes out what is still held back.
func (t *Table) Flush() error { return t.to.Flush() }
