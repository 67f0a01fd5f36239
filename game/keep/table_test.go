package keep

import (
	"bytes"
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"
	"time"

	"unthreaded/scoring"
	"unthreaded/scoring/progress"
)

// anyRecord returns a record of testdata/records.
func anyRecord(t *testing.T) Record {
	t.Helper()
	files, err := filepath.Glob("../../testdata/records/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no records found: %v", err)
	}
	doc, err := os.ReadFile(files[0])
	if err != nil {
		t.Fatal(err)
	}
	r, err := Decode(doc)
	if err != nil {
		t.Fatal(err)
	}
	if err := r.Measure(); err != nil {
		t.Fatal(err)
	}
	return r
}

// Any reader of RFC 4180 gets every kept record back as a row, with its own figures;
// the sessions are those that scoring/progress finds.
func TestTheTableOfAllTraces(t *testing.T) {
	base := anyRecord(t)
	seconds := base.Measures.Figures[scoring.Seconds]
	var b bytes.Buffer
	table, err := NewTable(&b)
	if err != nil {
		t.Fatal(err)
	}
	var all []progress.Trace
	for i, minutes := range []int64{0, 10, 45, 46, 200, 2000} {
		r := base
		r.ID, r.Started = strconv.Itoa(i), base.Started+minutes*60000
		if i%2 == 1 { // of another version, with a figure that nobody should believe
			r.Measures = Measures{Version: scoring.Version - 1, Figures: map[scoring.Code]float64{scoring.Seconds: 1e6}}
		}
		one, err := Encode(r)
		if err != nil {
			t.Fatal(err)
		}
		if err := table.Add(one); err != nil {
			t.Fatal(err)
		}
		all = append(all, progress.Trace{ID: r.ID, At: float64(r.Started) / 1000, Seconds: seconds})
	}
	if err := table.Add([]byte("{")); err == nil {
		t.Error("a damaged document has become a row")
	}
	if err := table.Flush(); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	sessions, err := progress.Sessions(all)
	if err != nil {
		t.Fatal(err)
	}
	cell := func(row []string, heading string) string { return row[slices.Index(rows[0], heading)] }
	i := 1
	for n, s := range sessions {
		for _, tr := range s.Traces {
			row := rows[i]
			if row[0] != tr.ID || cell(row, "session [1]") != strconv.Itoa(n+1) {
				t.Errorf("row %d is of trace %s, session %s; want %s, %d", i, row[0], cell(row, "session [1]"), tr.ID, n+1)
			}
			if at, err := time.Parse(time.RFC3339, cell(row, "began [UTC]")); err != nil || at.Unix() != int64(tr.At) {
				t.Errorf("row %d began %v, want %v", i, at, tr.At)
			}
			if v, err := strconv.ParseFloat(cell(row, "duration [s]"), 64); err != nil || v < seconds*0.9999 || v > seconds*1.0001 {
				t.Errorf("row %d lasts %v s, want %v", i, v, seconds)
			}
			i++
		}
	}
	if i != len(rows) {
		t.Errorf("%d rows, want %d", len(rows), i)
	}
}
