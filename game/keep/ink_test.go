package keep

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"unthreaded/scoring/trace"
)

// A record goes into an InkML file and comes back the same, but for the measures,
// which follow from it: every record of testdata/records, and one with texts that
// could be taken for numbers.
func TestRecordsComeBackFromInk(t *testing.T) {
	odd := sample(t)
	odd.ID, odd.Name, odd.Motif = "12", "null", "true"
	odd.Schema = Schema
	records := map[string]Record{"odd": odd}
	files, err := filepath.Glob("../../testdata/records/*.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no records found: %v", err)
	}
	for _, f := range files {
		doc, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		if records[filepath.Base(f)], err = Decode(doc); err != nil {
			t.Fatal(err)
		}
	}
	for name, r := range records {
		k, err := r.Ink()
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := trace.WriteInk(&b, []trace.Ink{k}); err != nil {
			t.Fatal(err)
		}
		inks, err := trace.ReadInk(&b, 0)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		back, err := FromInk(inks[0])
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		r.Measures = Measures{}
		if !reflect.DeepEqual(back, r) {
			t.Errorf("%s came back as\n%+v\nwas\n%+v", name, back, r)
		}
		if back.Samples.Digest() != r.Samples.Digest() {
			t.Errorf("%s is not recognised by its samples", name)
		}
	}
}

// FNV-1a of the empty text is its offset basis (RFC 9923 and the authors' page);
// another place, time or order of samples gives another digest.
func TestDigests(t *testing.T) {
	if got := (Samples{}).Digest(); got != "cbf29ce484222325" {
		t.Errorf("nothing gives %s", got)
	}
	seen := map[string]bool{}
	for _, s := range []Samples{
		{T: []float64{0, 1}, X: []float64{1, 2}, Y: []float64{3, 4}},
		{T: []float64{0, 2}, X: []float64{1, 2}, Y: []float64{3, 4}},
		{T: []float64{0, 1}, X: []float64{2, 1}, Y: []float64{3, 4}},
		{T: []float64{0, 1}, X: []float64{3, 4}, Y: []float64{1, 2}},
	} {
		if d := s.Digest(); seen[d] {
			t.Errorf("%+v has the digest of another", s)
		} else {
			seen[d] = true
		}
	}
}

// What another program wrote has no record in it.
func TestForeignInkIsNoRecord(t *testing.T) {
	k := trace.Ink{Trace: sample(t).Trace(), Notes: []trace.Note{{Type: "writer", Text: "somebody"}}}
	if _, err := FromInk(k); err == nil {
		t.Error("a trace without a line became a record")
	}
	k.Notes = []trace.Note{{Type: "spm", Text: "fast"}}
	if _, err := FromInk(k); err == nil {
		t.Error("a needle speed of \"fast\" was taken")
	}
}
