package keep

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"unthreaded/scoring"
)

// Form 1 held the report of its day. Lifted, the record has lost that and nothing else, has to
// be measured anew, and then has the duration and length that the program of that day
// found, to a hundredth.
func TestFormOneIsLifted(t *testing.T) {
	doc, err := os.ReadFile("../../testdata/records/v1-pen-zigzag.json")
	if err != nil {
		t.Fatal(err)
	}
	var old struct {
		Measures struct {
			Duration float64 `json:"duration_s"`
			TraceMM  float64 `json:"trace_mm"`
		} `json:"measures"`
	}
	if err := json.Unmarshal(doc, &old); err != nil {
		t.Fatal(err)
	}
	r, err := Decode(doc)
	if err != nil {
		t.Fatal(err)
	}
	if r.Schema != Schema || r.Measures.Version != 0 || r.Measures.Figures != nil || r.Measures.Faults != nil {
		t.Errorf("lifted to form %d with measures %+v", r.Schema, r.Measures)
	}
	if err := r.Measure(); err != nil {
		t.Fatal(err)
	}
	for code, want := range map[scoring.Code]float64{scoring.Seconds: old.Measures.Duration, "trace_mm": old.Measures.TraceMM} {
		if got := r.Measures.Figures[code]; math.Abs(got-want) > 0.01*want || want == 0 {
			t.Errorf("%s is %v, was %v", code, got, want)
		}
	}
	// A document that is in the present form is not touched.
	again, err := Encode(r)
	if err != nil {
		t.Fatal(err)
	}
	if same, err := lifted(again); err != nil || string(same) != string(again) {
		t.Errorf("a document of the present form became another (%v)", err)
	}
}
